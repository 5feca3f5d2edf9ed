/* The question as it stands in the address: #ends=xlr-3/female,phone-35-trs/plug&from=ID&into=ID. What names nothing is left out and told. */

import { connector as connectorOf, living } from "../ui/catalogue.js";
import { own } from "../ui/dom.js";

const MOST = 6,
  SHOWN = 80;

export function read(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, "")),
    unknown = [];
  const known = (text, is) => {
    if (!is) unknown.push(text.slice(0, SHOWN));
    return is;
  };
  const ends = (asked.get("ends") || "")
    .split(",")
    .filter(Boolean)
    .slice(0, MOST)
    .filter((end) => {
      const [connector, half] = end.split("/"),
        found = connectorOf(connector);
      return known(end, Boolean(found && half && own(found.halves, half)));
    });
  const port = (name) => {
    const text = asked.get(name),
      id = text && living("ports", text);
    if (text) known(text, Boolean(id));
    return id || null;
  };
  return { ends, from: port("from"), into: port("into"), unknown };
}

export function write({ ends, from, into }) {
  const parts = [
    ends.length && `ends=${ends.map((end) => end.split("/").map(encodeURIComponent).join("/")).join(",")}`,
    from && `from=${encodeURIComponent(from)}`,
    into && `into=${encodeURIComponent(into)}`,
  ];
  return parts.some(Boolean) ? `#${parts.filter(Boolean).join("&")}` : "";
}
