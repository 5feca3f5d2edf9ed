/* What the leads of a bag can do between two ports: every chain of none, one or two that fits, judged live, best first. */

import { deciding, judgeAll, sentence } from "../check/judged.js";
import { port } from "../ui/catalogue.js";
import { effort } from "../ui/effort.js";
import { mated, reach } from "../ui/fits.js";
import { rows, works, worth } from "../ui/table.js";
import { inOrder } from "../ui/words.js";

const mates = (places, port) => places.some((place) => mated(place, port));

/* [[lead id, ...]]; no lead is used twice, for a bag is ticked once for each. */
function chainsOf(from, into, leads) {
  const outlet = port(from),
    inlet = port(into);
  const arrives = (through) => mates(reach(outlet, through), inlet);
  const starts = leads.filter((id) => reach(outlet, [id]).length);
  const two = starts.flatMap((one) => leads.filter((other) => other !== one).map((other) => [one, other]));
  return [[], ...starts.map((id) => [id]), ...two].filter(arrives);
}

/* Best verdict first, then fewest leads, then least against it, then what most bags hold. */
export const byWorth = (a, b) =>
  worth(a) - worth(b) ||
  a.through.length - b.through.length ||
  a.findings.length - b.findings.length ||
  effort(a) - effort(b) ||
  inOrder(a.through.join(), b.through.join());

/* Judge every chain; `ondone` gets {ways: [{through, verdict, offered, says, findings, own}], failed: number}. Returns a function that stops it. */
export function search(from, into, leads, { onstep = () => {}, ondone }) {
  const chains = chainsOf(from, into, leads),
    ways = [];
  let failed = 0;
  return judgeAll(
    chains.map((through) => ({ from, through, into })),
    ({ judged }, { through }, number) => {
      if (!judged) failed += 1;
      else if (judged.verdict !== "does not fit")
        ways.push({
          through,
          verdict: judged.verdict,
          offered: judged.offered,
          says: judged.offer || sentence(judged),
          findings: deciding(judged).map(({ id }) => id),
          own: Boolean(judged.own),
        });
      onstep(number, chains.length);
    },
    () => ondone({ ways: ways.sort(byWorth), failed }),
  );
}

/* The safest way of the table that does better than the best of the bag and needs a lead from outside it; null when there is none.
   With `equal` one that is no worse will do. */
export function toAdd(from, into, leads, best, equal = false) {
  const does = (row) => !best || (equal ? worth(row) <= worth(best) : worth(row) < worth(best));
  const better = rows(from, into).filter(
    (row) => works(row) && does(row) && row.through.some((id) => !leads.includes(id)),
  );
  return better.sort((a, b) => worth(a) - worth(b) || effort(a) - effort(b))[0] || null;
}

export { chainsOf as chains };
