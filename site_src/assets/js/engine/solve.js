/* Solve one circuit in many cases: direct current in every drive and switch state, alternating current at given frequencies.
   The twin of the first half of solve.py (checked.js and currents.js are the second). A connected piece without an anchor gets one of
   its nets as 0 V. Cases that share a matrix share its factors. */

import { factoredComplex, factoredReal } from "./checked.js";
import {
  branched,
  CircuitError,
  DIRECT_OPENS,
  islands,
  net,
  SIGNAL_OPENS,
  stampBranch,
  stampConductance,
} from "./circuit.js";
import { CONTACT_OHM, LEAK, OPEN_OHM, RESIDUAL, ROUNDS } from "./constants.js";
import { Room } from "./lu.js";

export const OPEN = NaN; // volts of an emf that is disconnected
const rooms = []; // what a matrix is factored in: one for each way its bends may lie in one case
const bends = (part) => part.kind === "sink" || part.kind === "clamp";

/* Direct current. `drives`: for each drive the values of all parts (ohm, V, A); `closed`: for each state its switches. An emf
   of OPEN volts is disconnected. An emf may have volts of its own in every state: then `volts` has them, part number ->
   [drive][state]. {circuit, values, unknowns[drive][state]}. Throws CircuitError when there is no single solution. */
export function solveDc(circuit, drives, closed, volts = new Map()) {
  const stamps = stateStamps(circuit, closed, DIRECT_OPENS);
  const unknowns = drives.map(() => []),
    found = blocks(circuit, drives.length * closed.length),
    numbers = [...circuit.parts.keys()],
    bending = numbers.filter((i) => bends(circuit.parts[i])),
    emfs = numbers.filter((i) => circuit.parts[i].kind === "emf"),
    right = new Float64Array(circuit.size);
  for (const group of alike(circuit, drives)) {
    const base = directMatrix(circuit, drives[group[0]]);
    stamps.forEach((stamp, state) => {
      const matrix = stamp(copied("state", base, base.length)),
        factored = new Map();
      for (const drive of group) {
        for (const i of emfs) {
          const own = volts.has(i) ? volts.get(i)[drive][state] : drives[drive][i];
          right[circuit.branches.get(circuit.parts[i].id)] = own || 0; // what is OPEN has none
        }
        unknowns[drive][state] = found();
        bend(circuit, bending, drives[drive], matrix, right, factored, unknowns[drive][state]);
      }
    });
  }
  return { circuit, values: drives, unknowns };
}

/* The part of a solution that belongs to some drives (from `start` to before `stop`), and to some states. */
export const drivesOf = ({ circuit, values, unknowns }, start, stop) => ({
  circuit,
  values: values.slice(start, stop),
  unknowns: unknowns.slice(start, stop),
});
export const statesOf = ({ circuit, values, unknowns }, start, stop) => ({
  circuit,
  values,
  unknowns: unknowns.map((states) => states.slice(start, stop)),
});

/* Drives whose matrices are the same: they differ in the volts of their emfs alone. */
function alike(circuit, drives) {
  const groups = new Map(),
    emf = circuit.parts.map((part) => part.kind === "emf");
  drives.forEach((values, i) => {
    const key = Array.from(values, (value, k) => (emf[k] ? Number.isNaN(value) : value)).join();
    groups.set(key, [...(groups.get(key) || []), i]);
  });
  return [...groups.values()];
}

function directMatrix(circuit, values) {
  const { size, branches } = circuit,
    matrix = new Float64Array(size * size);
  circuit.parts.forEach((part, i) => {
    const [a, b] = circuit.ends[i],
      row = branches.get(part.id);
    if (part.kind === "resistor") stampConductance(matrix, size, a, b, 1 / values[i]);
    else if (branched(part)) stampBranch(matrix, size, a, b, row);
    if (part.kind === "emf" && Number.isNaN(values[i])) matrix[row * size + row] = -OPEN_OHM;
    // A winding shorted on itself: nothing pushes direct current round it.
    if (part.kind === "inductor" && a === b) matrix[row * size + row] = 1;
  });
  return matrix;
}

/* Find the region each sink and clamp works in, and with it what is `found`. Their curves rise everywhere, so there is one answer. `factored`
   keeps what was factored for other drives, by regions. */
function bend(circuit, bending, values, matrix, right, factored, found) {
  let flags = "0".repeat(bending.length); // 1 for each that is beyond its bend
  for (let round = 0; round < ROUNDS; round++) {
    const z = copied("right", right, circuit.size),
      a = factored.has(flags) ? null : copied("bend", matrix, circuit.size ** 2);
    for (let k = 0; k < bending.length; k++)
      stampBend(circuit, bending[k], values[bending[k]], flags[k] === "1", a, z);
    if (a) factored.set(flags, factoredReal(roomOf(factored.size), a, circuit.size, circuit.netCount));
    factored.get(flags)(z, found);
    let fresh = "";
    for (let k = 0; k < bending.length; k++)
      fresh += beyond(circuit, found, bending[k], values[bending[k]], flags[k] === "1") ? "1" : "0";
    if (fresh === flags) return;
    flags = fresh;
  }
  throw new CircuitError(`no settled state found for ${bending.map((i) => circuit.parts[i].id).join(", ")}`);
}

/* A part that sits on its bend stays in the region it is in: both give the same there, and rounding must not toss it to
   and fro. */
function beyond(circuit, found, i, value, flag) {
  const part = circuit.parts[i],
    ends = circuit.ends[i],
    at = part.kind === "sink" ? part.knee : value;
  const across = found[ends[0]] - found[ends[1]];
  return Math.abs(across - at) <= RESIDUAL * Math.abs(at) ? flag : across > at;
}

/* A sink draws value/knee per volt up to its knee, then `value`; a clamp nothing up to `value`, then 1/series per volt above. */
function stampBend(circuit, i, value, bent, matrix, right) {
  const part = circuit.parts[i],
    a = circuit.ends[i][0],
    b = circuit.ends[i][1],
    sink = part.kind === "sink";
  const siemens = sink ? (bent ? LEAK : value / part.knee) : bent ? 1 / part.series : LEAK;
  const amps = sink ? (bent ? value - LEAK * part.knee : 0) : bent ? (LEAK - 1 / part.series) * value : 0;
  if (matrix) stampConductance(matrix, circuit.size, a, b, siemens);
  right[a] -= amps;
  right[b] += amps;
}

/* Alternating current: complex unknowns {re, im} as [corner][frequency][state][drive].
   A drive lists [part id, signal] (V for an emf, A from a to b for a sink) or [[node, node], A from the first to the second inside
   the source]. Supplies are shorts, sinks and clamps open. */
export function solveAc(circuit, corners, hertz, closed, drives) {
  const stamps = stateStamps(circuit, closed, SIGNAL_OPENS);
  const rights = drives.map((drive) => driven(circuit, drive)),
    cases = corners.length * hertz.length * closed.length * drives.length,
    [foundRe, foundIm] = [blocks(circuit, cases), blocks(circuit, cases)];
  return corners.map((values) =>
    hertz.map((frequency) => {
      const { re, im } = signalMatrix(circuit, values, 2 * Math.PI * frequency);
      return stamps.map((stamp) => {
        if (!rights.length) return [];
        const matrix = { re: stamp(copied("state", re, re.length)), im },
          solve = factoredComplex(roomOf(0), matrix, circuit.size, circuit.netCount);
        return rights.map(function (right) {
          const found = { re: foundRe(), im: foundIm() };
          solve(right, found);
          return found;
        });
      });
    }),
  );
}

function signalMatrix(circuit, values, omega) {
  const { size, branches, index } = circuit,
    re = new Float64Array(size * size),
    im = new Float64Array(size * size);
  circuit.parts.forEach((part, i) => {
    const [a, b] = circuit.ends[i],
      row = branches.get(part.id);
    if (part.kind === "resistor") stampConductance(re, size, a, b, 1 / values[i]);
    else if (part.kind === "capacitor") stampConductance(im, size, a, b, omega * values[i]);
    else if (branched(part)) stampBranch(re, size, a, b, row);
    if (part.kind === "inductor") im[row * size + row] -= omega * values[i];
  });
  for (const { first, second, k } of circuit.couplings) {
    const mutual = k * Math.sqrt(values[index.get(first)] * values[index.get(second)]);
    im[branches.get(first) * size + branches.get(second)] -= omega * mutual;
    im[branches.get(second) * size + branches.get(first)] -= omega * mutual;
  }
  return { re, im };
}

function driven(circuit, drive) {
  const right = new Float64Array(circuit.size);
  for (const [target, signal] of drive) {
    const row = circuit.branches.get(target);
    const [a, b] = Array.isArray(target)
      ? target.map((node) => net(circuit, node))
      : circuit.ends[circuit.index.get(target)];
    if (row !== undefined) right[row] += signal;
    else (right[a] -= signal), (right[b] += signal);
  }
  return right;
}

/* A copy of a matrix or a right side to work in, until the next of that name. */
function copied(name, numbers, count) {
  const copy = roomOf(0).space(name, count);
  for (let at = 0; at < count; at++) copy[at] = numbers[at];
  return copy;
}

function roomOf(number) {
  if (!rooms[number]) rooms[number] = new Room();
  return rooms[number];
}

/* A function that gives the unknowns of one case after the other, all in one array. */
function blocks({ size }, count) {
  const all = new Float64Array(size * count);
  let at = 0;
  return () => all.subarray(at, (at += size));
}

/* Closed contacts and the 0 V of each island: for each state a function that adds them to a matrix and gives it back. */
function stateStamps(circuit, closed, opens) {
  const { size } = circuit;
  return closed.map((shut) => {
    const pairs = circuit.switches.filter((_, k) => shut[k]),
      zeros = islands(circuit, shut, opens);
    return function (matrix) {
      for (const [a, b] of pairs) stampConductance(matrix, size, a, b, 1 / CONTACT_OHM);
      for (const net of zeros) matrix[net * size + net] += 1;
      return matrix;
    };
  });
}
