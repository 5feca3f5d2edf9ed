/* A wiring as it stands in the address:
   #ends=xlr-3/female,phone-635-ts/plug&joins=a.2_b.tip,a.1_a.3_b.sleeve&parts=capacitor:a.2_b.tip:10uF@63V&cable=mic-pair&length=3m&screen=a.1 */

import { connector as connectorOf, living } from "../ui/catalogue.js";
import { own } from "../ui/dom.js";
import { quantity, tidied } from "../ui/quantity.js";
import { part as partOf } from "./components.js";
import { stock as stockOf } from "./stock.js";
import { contacts as contactsOf, EMPTY, ENDS, POINTS, tidy } from "./wiring.js";

const SHOWN = 80; // a hostile address may be long; a person needs only its beginning
const MOST = 120; // joins or parts; more is no lead
const NODES = { resistor: 2, capacitor: 2, transformer: 4 };

const cut = (text) => (text.length > SHOWN ? `${text.slice(0, SHOWN)}…` : text);

/* {wiring, unknown}: `unknown` lists every text that means nothing here. Such an address is not the wiring somebody sent. */
export function read(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  const unknown = [];
  const not = (text) => {
    unknown.push(cut(text));
    return null;
  };
  const listed = (name) => (asked.get(name) || "").split(",").filter(Boolean).slice(0, MOST);

  const ends = listed("ends").map(half).filter(Boolean);
  if (ends.length > ENDS.length) not(`${ends.length} ends; a bench has room for ${ENDS.length}`);
  const start = { ...EMPTY, ends: ends.slice(0, ENDS.length) };
  const contacts = new Set(contactsOf(start).map(({ node }) => node));
  const parts = listed("parts").map(part).filter(Boolean);
  const taken = new Set();
  const joins = listed("joins").map(join).filter(Boolean);
  const stock = stockOf();
  const cable = !asked.get("cable")
    ? null
    : own(stock, asked.get("cable"))
      ? asked.get("cable")
      : not(asked.get("cable"));
  const length = tidied(asked.get("length") || "", "m");
  if (length && quantity(length, "m").fault) not(asked.get("length"));
  const asScreen = asked.get("screen");
  const screen = !asScreen || asScreen === "none" || contacts.has(asScreen) ? asScreen : not(asScreen);
  for (const name of asked.keys())
    if (!["ends", "joins", "parts", "cable", "length", "screen"].includes(name)) not(name);
  const meant = { ends: start.ends, joins, parts, cable, length, screen };
  const wiring = tidy(meant);
  for (const gone of joins.filter(
    (one) =>
      !wiring.joins.some(
        (kept) => kept.length === new Set(one).size && one.every((node) => kept.includes(node)),
      ),
  )) {
    if (!unknown.length) not(gone.join("_")); // a lone contact without a cable, a point that no part touches
  }
  return { wiring, unknown };

  function half(text) {
    const [id, name, ...more] = text.split("/");
    const connector = living("connectors", id);
    return connector && !more.length && own(connectorOf(connector).halves, name)
      ? `${connector}/${name}`
      : not(text);
  }

  function nodes(text) {
    const found = text.split("_");
    return found.every((node) => contacts.has(node) || POINTS.includes(node)) ? found : null;
  }

  function join(text) {
    const found = nodes(text);
    if (!found || found.some((node) => taken.has(node)) || new Set(found).size < found.length)
      return not(text);
    found.forEach((node) => taken.add(node));
    return found;
  }

  function part(text) {
    const [kind, between = "", ...rest] = text.split(":");
    const found = nodes(between),
      [value, rating = ""] = rest.join(":").split("@");
    const made = found && own(NODES, kind) === found.length ? partOf(kind, found, value, rating) : {};
    return made.part || not(text);
  }
}

export function write(wiring) {
  const safe = (text) =>
    encodeURIComponent(text).replace(/%2F/g, "/").replace(/%3A/g, ":").replace(/%40/g, "@");
  const list = (items) => items.map(safe).join(",");
  const pack = (text) => text.replace(/ /g, "");
  const parts = wiring.parts.map(
    ({ kind, nodes, value, rating }) =>
      `${kind}:${nodes.join("_")}:${pack(value)}${rating ? `@${pack(rating)}` : ""}`,
  );
  const told = [
    ["ends", list(wiring.ends)],
    ["joins", list(wiring.joins.map((join) => join.join("_")))],
    ["parts", list(parts)],
    ["cable", safe(wiring.cable || "")],
    ["length", safe(wiring.cable ? pack(wiring.length) : "")],
    ["screen", safe(wiring.cable ? wiring.screen || "" : "")],
  ];
  const filled = told.filter(([, text]) => text).map(([name, text]) => `${name}=${text}`);
  return filled.length ? `#${filled.join("&")}` : "";
}
