/* What a meter would read in a solved circuit: the twin of Solution, part_amps, part_signal_amps and most_at in solve.py. */

import { magnitude } from "./checked.js";
import { branched, net } from "./circuit.js";
import { ALIKE } from "./constants.js";

/* Where the largest of nested lists of numbers stands, as a list of indexes; of those alike but for rounding the first,
   which is the same on every machine. */
export function largestAt(numbers) {
  const value = most(numbers);
  return first(numbers, value * (1 - ALIKE * Math.sign(value)));
}

/* The most of a function of (drive, state) over all drives and the states from `start` to before `stop`, and where it stands first:
   {most, at: [drive, state from `start` on]}. */
export function mostAt(solution, read, start, stop) {
  const wide = stop - start,
    numbers = new Float64Array(solution.unknowns.length * wide);
  let most = -Infinity,
    count = 0;
  for (let drive = 0; drive < solution.unknowns.length; drive++)
    for (let state = start; state < stop; state++) {
      const one = read(drive, state);
      numbers[count++] = one;
      if (one > most) most = one;
    }
  const least = most * (1 - ALIKE * Math.sign(most));
  let first = 0;
  while (numbers[first] < least) first++;
  return { most, at: [Math.floor(first / wide), first % wide] };
}

/* The largest of nested lists of numbers. */
export const most = (one) =>
  typeof one === "number" ? one : one.reduce((found, each) => Math.max(found, most(each)), -Infinity);

function first(numbers, least) {
  if (typeof numbers === "number") return numbers >= least ? [] : null;
  for (let i = 0; i < numbers.length; i++) {
    const found = first(numbers[i], least);
    if (found) return [i, ...found];
  }
  return null;
}

/* A function of (drive, state) told for every drive and the states from `start` to before `stop`: [drive][state]. */
export const everywhere = (solution, read, start = 0, stop = Infinity) =>
  solution.unknowns.map((states, drive) => states.slice(start, stop).map((_, at) => read(drive, at + start)));

/* Direct voltage of node a over node b as a function of (drive, state), V. */
export function nodeVolts(solution, a, b) {
  const one = net(solution.circuit, a),
    two = net(solution.circuit, b);
  return (drive, state) => solution.unknowns[drive][state][one] - solution.unknowns[drive][state][two];
}

/* Direct voltage across part number `index`, a over b, as a function of (drive, state), V. */
export function partVolts(solution, index) {
  const [a, b] = solution.circuit.ends[index];
  return (drive, state) => solution.unknowns[drive][state][a] - solution.unknowns[drive][state][b];
}

/* Direct current through part number `index` from a to b as a function of (drive, state), A. */
export function partAmps(solution, index) {
  const part = solution.circuit.parts[index],
    row = solution.circuit.branches.get(part.id);
  const volts = partVolts(solution, index),
    value = (drive) => solution.values[drive][index];
  if (part.kind === "resistor") return (drive, state) => volts(drive, state) / value(drive);
  if (branched(part)) return (drive, state) => solution.unknowns[drive][state][row];
  if (part.kind === "sink")
    return (drive, state) => value(drive) * Math.min(1, volts(drive, state) / part.knee);
  if (part.kind === "clamp")
    return (drive, state) => Math.max(0, volts(drive, state) - value(drive)) / part.series;
  return () => 0;
}

/* The highest or lowest of a function of (drive, state) over all drives and the states from `start` to before `stop`. */
export const highest = (solution, read, start, stop) =>
  extreme(Math.max, -Infinity, solution, read, start, stop);
export const lowest = (solution, read, start, stop) =>
  extreme(Math.min, Infinity, solution, read, start, stop);

function extreme(pick, from, solution, read, start, stop) {
  let found = from;
  for (const drive of solution.values.keys())
    for (let state = start; state < stop; state++) found = pick(found, read(drive, state));
  return found;
}

/* Signal voltage between two nets as a complex number [re, im], V. */
export const signalVolts = (found, a, b) => [found.re[a] - found.re[b], found.im[a] - found.im[b]];

export const size = ([re, im]) => magnitude(re, im);

/* The magnitude of the signal current through part number `index`, A rms; sinks and clamps carry none of it. */
export function signalAmps(circuit, value, hertz, found, index) {
  const part = circuit.parts[index],
    row = circuit.branches.get(part.id);
  if (branched(part)) return magnitude(found.re[row], found.im[row]);
  const volts = size(signalVolts(found, ...circuit.ends[index]));
  if (part.kind === "resistor") return volts / value;
  return part.kind === "capacitor" ? 2 * Math.PI * hertz * value * volts : 0;
}
