/* Devices and leads of one's own in the matrix of the kit. The table knows only classes, so what has to do with them is judged here, one after the other. */

import { bag as theBag } from "../ui/bag.js";
import { inlets, lead, outlets, port } from "../ui/catalogue.js";
import { effort } from "../ui/effort.js";
import { mated, reach } from "../ui/fits.js";
import { later } from "../ui/later.js";
import { ownQuestion } from "../ui/own.js";
import { rank, rows as rowsOf, worth } from "../ui/table.js";
import { cellOf } from "./best.js";

const SCRIPTS = ["engine", "check"],
  mine = (id) => id.startsWith("my.");

/* Does a wish for the kit reach devices or leads of one's own? */
export const hasOwn = (bag) => Boolean(bag && bag.ports && [...bag.ports, ...theBag().leads].some(mine));

/* The grid with what is one's own in the kit, {outlets, inlets, cell}; `tell(words)` says how far it is. Null where the scripts did not load. */
export async function withOwn(grid, { ports }, tell) {
  for (const name of SCRIPTS) if (!(await later(name))) return null;
  const kept = new Map(),
    leads = theBag().leads.filter(mine),
    here = (id) => port(id) && id;
  const asked = ports
    .filter(here)
    .flatMap((from) =>
      ports
        .filter(here)
        .flatMap((into) => through(from, into, leads).map((chain) => ({ from, through: chain, into }))),
    );
  await new Promise((done) =>
    Ringfence.check.judgeAll(
      asked.map(ownQuestion),
      (found, _, number) => {
        tell(`Working out your own devices: ${number} of ${asked.length}`);
        const question = asked[number - 1],
          row = told(question, found),
          key = `${question.from} ${question.into}`;
        if (row) kept.set(key, [...(kept.get(key) || []), row]);
      },
      done,
    ),
  );
  const cells = new Map(
    [...kept].map(([key, rows]) => {
      const [from, into] = key.split(" "),
        known = [from, into].some(mine) ? [] : rowsOf(from, into);
      return [key, cellOf([...known, ...rows].sort((a, b) => worth(a) - worth(b) || effort(a) - effort(b)))];
    }),
  );
  const own = (some) => some().filter(({ id }) => mine(id) && ports.includes(id));
  return {
    outlets: [...own(outlets), ...grid.outlets],
    inlets: [...own(inlets), ...grid.inlets],
    cell: (from, into) => cells.get(`${from} ${into}`) || grid.cell(from, into),
  };
}

/* The chains to judge: those of the table between the classes where a device is one's own, and the leads that are one's own. */
function through(from, into, leads) {
  const table = [from, into].some(mine)
    ? rowsOf(Ringfence.own.baseOf(from), Ringfence.own.baseOf(into)).map((row) => row.through)
    : [];
  const fits = (id) => reach(port(from), [id]).some((place) => mated(place, port(into)));
  return port(from).sources.length && port(into).listeners.length
    ? [...table, ...leads.filter((id) => lead(id) && fits(id)).map((id) => [id])]
    : [];
}

/* A row as those of the table, `own` as its verdict says it; null where it was not worked out. */
function told(question, { judged: found }) {
  if (!found || found.verdict === "does not fit") return null;
  return {
    ...question,
    verdict: found.verdict,
    rank: rank(found.verdict),
    offered: found.offered,
    offer: found.offer,
    own: found.own || "",
    findings: [...new Set(Ringfence.check.deciding(found).map(({ id }) => id.replaceAll("-", " ")))],
  };
}
