/* The question as it stands in the address: #from=ID&through=ID,ID&into=ID, and where the supply switches stand: &set=phantom:off; numbers of
   one's own as own/asked.js writes them: &own=from.main.least-load:600_ohm. */

import { living } from "../ui/catalogue.js";

const SHOWN = 80; // a hostile address may be long; a person needs only its beginning
const LONGEST = 2000; // characters of own numbers
const MOST = 8; // leads in a row; the work grows with every one, and a hostile address must not stop the page

/* {from, through, into, set, unknown}: ids that live in the catalogue, through null where no lead is asked about, [] for none at all;
   `set` lists [switch, position] as they are written; what they name is for the answer to tell. `unknown` lists texts that name nothing. */
export function read(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  const unknown = [];

  function known(kind, text) {
    const id = living(kind, text);
    if (!id) unknown.push(text.length > SHOWN ? `${text.slice(0, SHOWN)}…` : text);
    return id;
  }

  const port = (name) => (asked.get(name) ? known("ports", asked.get(name)) : null);
  const from = port("from");
  const into = port("into");
  let through = null;
  if (asked.has("through")) {
    const texts = asked.get("through").split(",").filter(Boolean);
    if (texts.length > MOST)
      unknown.push(`${texts.length} leads in a row; ${MOST} are the most that are worked out`);
    else through = texts.map((text) => known("leads", text));
    if (through && through.includes(null)) through = null; // never judge a connection with one lead silently left out
  }
  const set = (asked.get("set") || "")
    .split(",", MOST)
    .map((one) => one.split(":", 2))
    .filter(([name, position]) => name && position);
  const own = (asked.get("own") || "").slice(0, LONGEST);
  return { from, through, into, set, unknown, ...(own ? { own } : {}) };
}

export function write({ from, through, into, set = [], own = "" }) {
  const parts = [];
  if (from) parts.push(`from=${encodeURIComponent(from)}`);
  if (through) parts.push(`through=${through.map(encodeURIComponent).join(",")}`);
  if (into) parts.push(`into=${encodeURIComponent(into)}`);
  if (set.length) parts.push(`set=${set.map((one) => one.map(encodeURIComponent).join(":")).join(",")}`);
  if (own) parts.push(`own=${encodeURIComponent(own).replaceAll("%2C", ",").replaceAll("%3A", ":")}`);
  return parts.length ? `#${parts.join("&")}` : "";
}
