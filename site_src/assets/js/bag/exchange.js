/* The bag as text for people and as JSON for programs, and back from either or from a link. */

import { asBag, emptyBag, filled } from "../ui/bag.js";
import { lead, living, port } from "../ui/catalogue.js";
import { own } from "../ui/dom.js";
import { read } from "./codes.js";

const VERSION = 1;
const LONGEST = 200000; // characters somebody may paste

/* One line a thing, its id in brackets. */
export function asText({ leads, ports, jobs, counts }) {
  const thing = (entry) =>
    `- ${own(counts, entry.id) ? `${counts[entry.id]} × ` : ""}${entry.name} [${entry.id}]`;
  const sections = [
    ["Leads", leads.map(lead).map(thing)],
    ["Devices", ports.map(port).map(thing)],
    ["Jobs", jobs.map(([from, into]) => `- ${port(from).name} into ${port(into).name} [${from} > ${into}]`)],
  ];
  return sections
    .filter(([, lines]) => lines.length)
    .map(([name, lines]) => `${name}\n${lines.join("\n")}\n`)
    .join("\n");
}

export const asJson = (contents) => `${JSON.stringify({ version: VERSION, ...contents }, null, 2)}\n`;

/* {bag, unknown} or {fault: words}. */
export function parse(text) {
  const said = text.trim();
  if (!said) return { fault: "There is nothing to read. Paste a list, a file's text or a link." };
  if (said.length > LONGEST) return { fault: "That is too long to be a bag." };
  if (said.startsWith("{")) return fromJson(said);
  const hash = /#\S+/.exec(said);
  return (hash && read(hash[0])) || fromText(said);
}

function fromJson(text) {
  try {
    const value = JSON.parse(text);
    if (value.version !== VERSION) return { fault: `This is not a bag of version ${VERSION}.` };
    return asBag(value);
  } catch {
    return { fault: "This is not whole JSON." };
  }
}

function fromText(text) {
  const found = emptyBag(),
    unknown = [];
  for (const [, number, inside] of text.matchAll(
    /(?:^(?:[-*] )?(\d{1,2}) ?[×x] )?[^\][\n]*\[([^\][]+)\]/gm,
  )) {
    const [from, into] = inside.split(">").map((id) => id.trim());
    if (into) found.jobs.push([from, into]);
    else if (living("leads", from)) found.leads.push(from);
    else if (living("ports", from)) found.ports.push(from);
    else unknown.push(from.slice(0, 80));
    if (number) found.counts[from] = Number(number);
  }
  const read = asBag(found);
  if (!unknown.length && !filled(found))
    return { fault: "No id in brackets, such as [xlr-f-to-xlr-m-3m], is in it." };
  return { bag: read.bag, unknown: [...unknown, ...read.unknown] };
}

/* Two bags as one; of what is in both, the larger number. */
export function joined(one, two) {
  const all = (name) => [...new Set([...one[name], ...two[name]])];
  const jobs = new Map([...one.jobs, ...two.jobs].map((job) => [job.join(" "), job]));
  const counts = { ...one.counts };
  for (const [id, number] of Object.entries(two.counts || {})) counts[id] = Math.max(number, counts[id] || 1);
  return { leads: all("leads"), ports: all("ports"), jobs: [...jobs.values()], counts };
}
