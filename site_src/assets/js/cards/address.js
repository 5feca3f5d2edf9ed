/* Which cards, and on which paper, as they stand in the address: #connectors=xlr-3&leads=a,b&paper=a4 */

import { living } from "../ui/catalogue.js";
import { own } from "../ui/dom.js";

const MOST = 300; // more than the catalogue has leads; a hostile address must not stop the page
const SHOWN = 80; // characters of what names nothing
export const KINDS = ["connectors", "leads", "ports"];
export const PAPERS = { a6: 1, a4: 4 }; // cards on one sheet

/* {connectors: [id], leads: [id], ports: [id], paper, unknown: [text]}; moved ids under their new name, each once. */
export function read(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, "")),
    unknown = [],
    read = {};
  for (const kind of KINDS) {
    const texts = (asked.get(kind) || "").split(",").filter(Boolean);
    if (texts.length > MOST) unknown.push(`${texts.length} ${kind}; ${MOST} are the most that are laid out`);
    const ids = texts.slice(0, texts.length > MOST ? 0 : MOST).map((text) => {
      const id = living(kind, text);
      if (!id) unknown.push(text.length > SHOWN ? `${text.slice(0, SHOWN)}…` : text);
      return id;
    });
    read[kind] = [...new Set(ids.filter(Boolean))];
  }
  return { ...read, paper: own(PAPERS, asked.get("paper")) ? asked.get("paper") : "a6", unknown };
}

export function write(chosen) {
  const parts = KINDS.filter((kind) => chosen[kind].length).map(
    (kind) => `${kind}=${chosen[kind].map(encodeURIComponent).join(",")}`,
  );
  return `#${[...parts, ...(chosen.paper === "a6" ? [] : [`paper=${chosen.paper}`])].join("&")}`;
}
