/* A first look at a connection: fully plugged and settled, every part at its nominal value, one way of those a person cannot tell apart.
   It costs a fraction of a verdict and is never worse than one. The twin of glance.py. */

import { assemble, ways } from "./assemble.js";
import { MOST_WAYS } from "./constants.js";
import { directReadings } from "./direct.js";
import { signalReadings } from "./hearing.js";
import { asked, judgeWay, labels as labelsOf } from "./judge.js";
import { inPassing } from "./kept.js";
import { lost } from "./rulebook.js";
import { solveSignals } from "./signal.js";
import { leastStanding, rank } from "./verdict.js";

/* The least that a verdict on this chain can come to, as [rank, what is lost]. `plain` is what `plainly` makes of the catalogue. */
export const glance = (plain, rulebook, from, through, into) =>
  leastOf(plain, from, through, into, (...way) => {
    const seen = judgeWay(plain, rulebook, ...way, read);
    return [leastStanding(seen), lost(rulebook, seen.findings)];
  });

const read = (plain, outlet, leads, inlet, way) => {
  const assembly = inPassing(() => assemble(plain, outlet, leads, inlet, way, false)),
    signals = solveSignals(assembly);
  return [...directReadings(assembly, signals), ...signalReadings(assembly, signals)];
};

/* The least of a chain, where `seen` tells it of (outlet, leads, inlet, way). */
export function leastOf(plain, from, through, into, seen) {
  const { outlet, leads, inlet } = asked(plain, from, through, into);
  const possible = ways(plain, outlet, leads, inlet);
  if (!possible.length) return [rank("does not fit"), 0];
  if (possible.length > MOST_WAYS) return [rank("dangerous"), 0];
  // Which end a person takes is their choice, so the best counts; of ends they cannot tell apart the worst, so any will do here.
  const choices = new Map();
  for (const way of possible) {
    const labels = labelsOf(leads, way).join("\0");
    if (!choices.has(labels)) choices.set(labels, way);
  }
  return [...choices.values()]
    .map((way) => seen(outlet, leads, inlet, way))
    .reduce((best, one) => (before(one, best) ? one : best));
}

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
