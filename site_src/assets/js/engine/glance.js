/* A first look at a connection: fully plugged and settled, every part at its nominal value, one way of those a person cannot tell apart.
   It costs a fraction of a verdict and is never worse than one. The twin of glance.py. */

import { assemble, ways } from "./assemble.js";
import { MOST_WAYS } from "./constants.js";
import { directReadings } from "./direct.js";
import { signalReadings } from "./hearing.js";
import { asked, judgeWay, labels as labelsOf } from "./judge.js";
import { lost } from "./rulebook.js";
import { solveSignals } from "./signal.js";
import { leastStanding, rank } from "./verdict.js";

/* The least that a verdict on this chain can come to, as [rank, what is lost]. `plain` is what `plainly` makes of the catalogue. */
export function glance(plain, rulebook, from, through, into) {
  const { outlet, leads, inlet } = asked(plain, from, through, into);
  const possible = ways(plain, outlet, leads, inlet);
  if (!possible.length) return [rank("does not fit"), 0];
  if (possible.length > MOST_WAYS) return [rank("dangerous"), 0];
  // Which end a person takes is their choice, so the best counts; of ends they cannot tell apart the worst, so any will do here.
  const choices = new Map();
  for (const way of possible) {
    const labels = JSON.stringify(labelsOf(leads, way));
    if (!choices.has(labels)) choices.set(labels, way);
  }
  return [...choices.values()]
    .map((way) => {
      const seen = judgeWay(plain, rulebook, outlet, leads, inlet, way, read);
      return [leastStanding(seen), lost(rulebook, seen.findings)];
    })
    .reduce((best, one) => (before(one, best) ? one : best));
}

const read = (plain, outlet, leads, inlet, way) => {
  const assembly = assemble(plain, outlet, leads, inlet, way, false),
    signals = solveSignals(assembly);
  return [...directReadings(assembly, signals), ...signalReadings(assembly, signals)];
};

/* The catalogue as if every part had its nominal value. */
export const plainly = (data) => ({
  connectors: data.connectors,
  ports: plain(data.ports),
  leads: plain(data.leads),
});

const plain = (records) =>
  Object.fromEntries(
    Object.entries(records).map(([id, record]) => [
      id,
      { ...record, network: { ...record.network, parts: record.network.parts.map(nominal) } },
    ]),
  );

const exact = ({ nominal: value, ...rest }) => ({ ...rest, nominal: value, low: value, high: value });
const nominal = (part) => ({ ...part, value: part.value && exact(part.value), match: 0 });

/* Does one list come before another, item by item, a shorter one before what it begins? */
export function before(one, other) {
  for (let i = 0; i < one.length && i < other.length; i++) if (one[i] !== other[i]) return one[i] < other[i];
  return one.length < other.length;
}
