/* The table of judged single-lead connections, as the generator worked it out. Until it is here, or where it could not be loaded, it has no rows. */

const VERDICTS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]; // best first
const DANGEROUS = VERDICTS.indexOf("dangerous");
const NONE = { outlets: new Map(), inlets: new Set(), bests: new Set() },
  made = new Map();
let found = null;

/* Where each outlet's pairs and ways begin, which inlets occur, and what the best ways end in. Tens of thousands of ways: what is not asked for stays numbers. */
function read() {
  if (found || !Ringfence.table) return found || NONE;
  const { ids, verdicts, pairs } = Ringfence.table;
  found = { outlets: new Map(), inlets: new Set(), bests: new Set() };
  for (let at = 0, start = 0; at < pairs.length; start += 2 * pairs[at + 2], at += 3) {
    if (pairs[at] !== pairs[at - 3]) found.outlets.set(ids[pairs[at]], { at, start });
    found.inlets.add(ids[pairs[at + 1]]);
    found.bests.add(verdicts[best(start, start + 2 * pairs[at + 2])]);
  }
  return found;
}

/* The best verdict of some ways, which come best first; one that a switch makes well comes early and is dangerous all the same. */
function best(start, stop) {
  const { told, ways } = Ringfence.table;
  for (let at = start; at < stop; at += 2) if (told[ways[at + 1]][1] < 0) return told[ways[at + 1]][0];
  return DANGEROUS;
}

/* Is this a record out of somebody's own file, whose verdicts have a mark of their own? */
const OWN = ", by your numbers",
  ofOne = (id) => Boolean(Ringfence.data?.local?.includes(id));

/* Two ports that something joins: the best verdict of the ways, whether any is dangerous, and the ways themselves. */
class Pair {
  constructor(from, into, start, stop) {
    const { verdicts, told, ways } = Ringfence.table;
    Object.assign(this, {
      from,
      into,
      start,
      stop,
      best: verdicts[best(start, stop)],
      danger: false,
      listed: null,
    });
    for (let at = start; at < stop && !this.danger; at += 2)
      this.danger = told[ways[at + 1]][0] === DANGEROUS;
  }

  /* How the best way says that it rests on a record out of somebody's own file; empty where it does not. */
  get own() {
    if (!Ringfence.data?.local?.length) return "";
    return (this.rows.find(({ offered }) => !offered) || this.rows[0]).own || "";
  }

  get rows() {
    if (this.listed) return this.listed;
    const { ids, findings, verdicts, offers, told, ways } = Ringfence.table,
      { from, into } = this;
    this.listed = [];
    for (let at = this.start; at < this.stop; at += 2) {
      const [rank, number, ...why] = told[ways[at + 1]],
        [ends, offer] = offers[number] || [rank, ""];
      const through = ways[at] < 0 ? [] : [ids[ways[at]]];
      this.listed.push({
        from,
        through,
        into,
        verdict: verdicts[rank],
        rank,
        offered: offer && verdicts[ends],
        offer,
        findings: why.map((name) => findings[name].replaceAll("-", " ")),
        ...([from, ...through, into].some(ofOne) ? { own: OWN } : {}),
      });
    }
    return this.listed;
  }
}

/* Every inlet that something joins to an outlet: a map of {from, into, best, danger, rows}. */
export function pairsOf(from) {
  if (made.has(from)) return made.get(from);
  const ofOutlet = new Map(),
    begin = read().outlets.get(from),
    { ids, pairs } = Ringfence.table || {};
  if (!begin) return ofOutlet;
  for (let { at, start } = begin; pairs[at] === pairs[begin.at]; start += 2 * pairs[at + 2], at += 3) {
    const into = ids[pairs[at + 1]];
    ofOutlet.set(into, new Pair(from, into, start, start + 2 * pairs[at + 2]));
  }
  made.set(from, ofOutlet);
  return ofOutlet;
}

export const pair = (from, into) => pairsOf(from).get(into) || null;

/* Which ports anything is joined to, and every verdict that is the best of two of them. */
export const joined = read;

/* Rows {from, through, into, verdict, rank, offered, offer, findings} of two ports, best first; `own`, in words, where a record out of somebody's own
   file has to do with it. */
export const rows = (from, into) => (pair(from, into) || { rows: [] }).rows;

export const verdicts = () => VERDICTS;
export const rank = (verdict) => VERDICTS.indexOf(verdict);

/* Where a way stands among others: as its verdict, but half a step below what it is once plugged in where a switch avoids a danger that lasts
   only while plugging. The less the better. */
export const worth = ({ verdict, offered }) => (offered ? rank(offered) + 0.5 : rank(verdict));

/* Does it work, if need be in the order told? */
export const works = (way) => worth(way) <= rank("lossy") + 0.5;

/* The row of one connection of no or one lead, if the generator judged it. */
export const row = (from, through, into) =>
  rows(from, into).find((row) => row.through.join() === through.join());

/* The address that opens the check on a connection; `root` leads to the top of the site. */
export function address(root, from, through, into) {
  const [start, leads, end] = [[from], through, [into]].map((ids) => ids.map(encodeURIComponent).join(","));
  return `${root}check/#from=${start}&through=${leads}&into=${end}`;
}
