/* Numbers held against what parts stand: direct current and signal alike, from one solved stack. The twin of limits.py. */

import { net } from "./circuit.js";
import { nodeVolts, partAmps, partVolts, signalAmps, signalVolts, size } from "./currents.js";
import { limitName, Named, reading } from "./readings.js";

const UNITS = { volts: "V", reverse: "V", amps: "A", watts: "W" };

/* A part's number in the circuit; undefined when wire shorts it out. */
export const partIndex = (circuit, place, part) => circuit.index.get(`${place}/${part}`);

/* The part, or the two nodes, where a limit is read. */
export const decides = (place, limit) =>
  limit.part ? `${place}/${limit.part}` : limit.between.map((node) => `${place}/${node}`);

/* What sort of part an unknown rating is of, as far as it matters: a supply input turned round, a capacitor for volts, a winding for amps,
   else any part. */
export function kindOf(record, limit) {
  if (limit.reversal) return "reversal";
  const part = record.network.parts.find(({ id }) => id === limit.part);
  if (limit.quantity === "volts" && part && part.kind === "capacitor") return "capacitor";
  return limit.quantity === "amps" && part && part.coil ? "winding" : "part";
}

/* The direct volts, amps or watts a limit is about, as a function of (drive, state). */
export function limitValues(solution, place, limit) {
  if (limit.between) return nodeVolts(solution, ...limit.between.map((node) => `${place}/${node}`));
  const index = partIndex(solution.circuit, place, limit.part);
  if (index === undefined) return () => 0;
  const volts = partVolts(solution, index),
    amps = partAmps(solution, index);
  if (limit.quantity === "volts" || limit.quantity === "reverse") return volts;
  return limit.quantity === "amps" ? amps : (...which) => amps(...which) * volts(...which);
}

/* The size of a direct value that counts against a limit. A capacitor's reverse rating is about direct volts the wrong way
   round; every other rating is about size. Where that is not known, neither is which way round it sits. */
export const heldAgainst = (limit, value) =>
  limit.quantity === "reverse" && limit.settled !== null ? Math.max(-value, 0) : Math.abs(value);

/* What one volt (rms) of every source puts on a limit, [corner][frequency][state][source]: V or A peak, for watts [V, A].
   `data` are unknowns in that order. Null where a limit is about direct current alone: windings are rated for what pulls one
   way, signal moves them to and fro. */
export function eachSignal(circuit, place, limit, data, hertz, values) {
  const index = limit.part ? partIndex(circuit, place, limit.part) : undefined;
  const winding = index !== undefined && limit.quantity === "amps" && circuit.parts[index].coil;
  if (limit.quantity === "reverse" || winding || (limit.part && index === undefined)) return null;
  const [a, b] = limit.part
    ? circuit.ends[index]
    : limit.between.map((node) => net(circuit, `${place}/${node}`));
  const volts = (found) => size(signalVolts(found, a, b));
  const amps = (found, corner, edge) => signalAmps(circuit, values[corner][index], hertz[edge], found, index);
  const read = {
    volts: (found) => volts(found) * Math.SQRT2,
    amps: (...one) => amps(...one) * Math.SQRT2,
    watts: (...one) => [volts(...one), amps(...one)],
  }[limit.quantity];
  return data.map((edges, corner) =>
    edges.map((states, edge) => states.map((sources) => sources.map((found) => read(found, corner, edge)))),
  );
}

/* All sources at `level` (V rms, one each) together, V or A peak or W: [corner][frequency][state]. */
export function allSignals(limit, each, level) {
  const sum = (read) => (sources) => sources.reduce((all, one, i) => all + read(one) * level[i], 0);
  const volts = sum(([one]) => one),
    amps = sum(([, one]) => one);
  const total = limit.quantity === "watts" ? (sources) => volts(sources) * amps(sources) : sum((one) => one);
  return each.map((edges) => edges.map((states) => states.map(total)));
}

/* The reading of what a limit sees, against a rating; `unrated-...` where that is not known. */
export function stress(place, record, limit, rating, value, state, setting, at, terms = [], words = {}) {
  const name = limitName(record, limit),
    known = rating === null ? "unrated" : "part";
  return reading(
    `${known}-${limit.quantity}`,
    `${place}/${limit.id}`,
    name,
    value,
    UNITS[limit.quantity],
    state,
    {
      setting,
      limit: rating,
      evidence: limit.evidence,
      words: { device: new Named(place), part: name, ...words },
      flags: rating === null ? { kind: kindOf(record, limit) } : {},
      at: { ...at, decides: decides(place, limit) },
      terms,
    },
  );
}
