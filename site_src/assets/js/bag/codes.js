/* A bag as a short link: #leads=3f9k2.a81xz&ports=...&jobs=k2m4p-9xq1r&counts=3f9k2-3. A code depends on the id alone, so a link keeps its meaning as the
   catalogue grows; where two ids share a code, the id itself stands in the link. */

import { asBag } from "../ui/bag.js";
import { living } from "../ui/catalogue.js";

const DIGITS = 5,
  SIZE = 36 ** DIGITS;

/* The 32-bit FNV-1a hash of an id, as five digits of base 36. */
export function code(id) {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(id)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return (hash % SIZE).toString(36).padStart(DIGITS, "0");
}

/* Map code -> [id] of every id of a kind there is or was. */
function codes(kind) {
  const found = new Map();
  const old = Object.keys(Ringfence.data.retired || {}).filter((id) => living(kind, id));
  for (const id of [...Object.keys(Ringfence.data[kind]), ...old])
    found.set(code(id), [...(found.get(code(id)) || []), id]);
  return found;
}

export function write({ leads, ports, jobs, counts }) {
  const known = { leads: codes("leads"), ports: codes("ports") };
  const short = (kind) => (id) => (known[kind].get(code(id)).length === 1 ? code(id) : id);
  const told = [
    ["leads", leads.map(short("leads"))],
    ["ports", ports.map(short("ports"))],
    ["jobs", jobs.map((job) => job.map(short("ports")).join("_"))],
    [
      "counts",
      Object.entries(counts).map(
        ([id, number]) => `${short(leads.includes(id) ? "leads" : "ports")(id)}-${number}`,
      ),
    ],
  ].filter(([, list]) => list.length);
  return told.length ? `#${told.map(([name, list]) => `${name}=${list.join(".")}`).join("&")}` : "";
}

/* {bag, unknown} of an address; null when it holds no bag at all. */
export function read(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  if (!["leads", "ports", "jobs"].some((name) => asked.has(name))) return null;
  const list = (name) => (asked.get(name) || "").split(".").filter(Boolean).slice(0, 2000);
  const known = { leads: codes("leads"), ports: codes("ports") };
  const long = (kind) => (text) => {
    const ids = known[kind].get(text);
    return ids && ids.length === 1 ? ids[0] : text;
  };
  const counts = list("counts")
    .map((text) => /^(.+)-(\d{1,2})$/.exec(text))
    .filter(Boolean)
    .flatMap(([, code, number]) => ["leads", "ports"].map((kind) => [long(kind)(code), Number(number)]));
  return asBag({
    counts: Object.fromEntries(counts),
    leads: list("leads").map(long("leads")),
    ports: list("ports").map(long("ports")),
    jobs: list("jobs").map((job) => job.split("_").map(long("ports"))),
  });
}
