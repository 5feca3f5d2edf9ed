/* What a person carries, kept in the browser: lead and port ids, how many of each where it is more than one, and the jobs to pack for. Storage may be forbidden, full, or hold what an
   older version or somebody else wrote: then the bag is empty or smaller, and nothing breaks. */

import { living as livingId } from "./catalogue.js";
import { own } from "./dom.js";

const KEY = "ringfence.bag",
  ONLY = "ringfence.bag-only",
  SEEN = "ringfence.kit-seen";

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

function write(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export const emptyBag = () => ({ leads: [], ports: [], jobs: [], counts: {} });
export const MOST_OF_A_KIND = 99;

/* How many of a thing are in a bag; how many things are in it at all. */
export const countOf = ({ leads, ports, counts }, id) =>
  leads.includes(id) || ports.includes(id) ? own(counts, id) || 1 : 0;
export const filled = ({ leads, ports, jobs }) => leads.length + ports.length + jobs.length;

/* Numbers of two and more, of what is there. */
export const counted = (counts, there) =>
  Object.fromEntries(
    Object.entries(counts || {}).filter(
      ([id, number]) =>
        there.includes(id) && Number.isInteger(number) && number > 1 && number <= MOST_OF_A_KIND,
    ),
  );

/* Any value made into a bag: only ids that live, each once; moved ids under their new name. {bag, unknown: texts} */
export function asBag(value) {
  const unknown = [];
  const ids = (kind, list) => [
    ...new Set((Array.isArray(list) ? list : []).map((id) => living(kind, id)).filter(Boolean)),
  ];
  const given =
    value && typeof value.counts === "object" && value.counts
      ? Object.entries(value.counts).map(([id, number]) => [
          livingId("leads", id) || livingId("ports", id),
          number,
        ])
      : [];
  const bag = {
    leads: ids("leads", value && value.leads),
    ports: ids("ports", value && value.ports),
    jobs: (value && Array.isArray(value.jobs) ? value.jobs : []).map(pair).filter(Boolean),
  };
  return {
    bag: { ...bag, counts: counted(Object.fromEntries(given), [...bag.leads, ...bag.ports]) },
    unknown,
  };

  function living(kind, id) {
    const found = typeof id === "string" ? livingId(kind, id) : null;
    if (!found) unknown.push(String(id).slice(0, 80));
    return found;
  }

  function pair(job) {
    if (!Array.isArray(job) || job.length !== 2) return unknown.push(String(job).slice(0, 80)) && null;
    const [from, into] = job.map((id) => living("ports", id));
    return from && into ? [from, into] : null;
  }
}

/* {edition, date, verdicts}: the verdicts of a kit when somebody last looked at it, or null. */
export function kitSeen() {
  const seen = read(SEEN);
  return seen && typeof seen.edition === "string" && seen.verdicts && typeof seen.verdicts === "object"
    ? seen
    : null;
}
export const keepKitSeen = (seen) => write(SEEN, seen);

export const bag = () => asBag(read(KEY)).bag;

/* False when the browser does not keep it. */
export const keepBag = (bag) => write(KEY, bag);

/* Should the check offer only what is in the bag? Off until it is asked for, and while there is no lead in the bag. */
export const bagOnly = () => read(ONLY) === true && bag().leads.length > 0;
export const setBagOnly = (on) => write(ONLY, on);
