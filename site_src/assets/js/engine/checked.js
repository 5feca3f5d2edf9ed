/* Factored matrices that hold every equation of every answer against a bound: the twin of _solve_checked in solve.py. */

import { CircuitError } from "./circuit.js";
import { REFINEMENTS, RESIDUAL, ROUNDING, SETTLED } from "./constants.js";
import { entriesOf, factorComplex, factorReal } from "./lu.js";

/* A function that puts into `found` the unknowns for a right side, the first `nets` of which are voltages; what the last bits of the matrix
   cannot tell, a leak beside a closed contact, is found by refinement. It stands in `room`, until the next one does. Throws CircuitError
   when there is no single solution. */
export function factoredReal(room, matrix, size, nets) {
  const entries = entriesOf(room, size, matrix),
    factors = factorReal(room, entries, size) || singular(),
    imbalance = realImbalance(room, entries, size, nets),
    { count, row, column, re } = entries,
    left = room.space("imbalance", size),
    step = room.space("step", size),
    scale = room.space("scale", size);
  return function (right, found) {
    factors.solve(right, found);
    imbalance(right, found, left);
    for (let i = 0; i < size; i++) scale[i] = Math.abs(right[i]);
    for (let e = 0; e < count; e++) scale[row[e]] += Math.abs(re[e] * found[column[e]]);
    check(left, scale, size);
    for (let round = 0, last = Infinity; round < REFINEMENTS; round++, imbalance(right, found, left)) {
      factors.solve(left, step);
      let moved = 0,
        largest = 0;
      for (let i = 0; i < size; i++) {
        found[i] += step[i];
        if (i >= nets) continue;
        moved = Math.max(moved, Math.abs(step[i]));
        largest = Math.max(largest, Math.abs(found[i]));
      }
      if (!(moved > SETTLED * largest && moved < last / 2)) break; // what rounding moves it moves again
      last = moved;
    }
    return found;
  };
}

/* A function that puts into `left` what is left of every equation. Currents between nets are taken from the
   differences of their voltages: in the sum of a net's conductances a closed contact drowns what is a trillion times less.
   What rounding takes from the sums is added again in the end, for large currents cancel in every net. */
function realImbalance(room, entries, size, nets) {
  const { count, row, column, re } = entries,
    ground = grounded(room, entries, nets),
    lost = room.space("lost", size);
  return function (right, found, left) {
    lost.fill(0, 0, size);
    for (let i = 0; i < size; i++) left[i] = right[i];
    for (let i = 0; i < nets; i++) take(left, lost, i, ground[i] * found[i]);
    for (let e = 0; e < count; e++) {
      const i = row[e],
        j = column[e];
      if (i >= nets || j >= nets) take(left, lost, i, re[e] * found[j]);
      else if (i !== j) take(left, lost, i, re[e] * (found[j] - found[i]));
    }
    for (let i = 0; i < size; i++) left[i] += lost[i];
  };
}

/* What ties each net to 0 V: where it is that of an island. */
function grounded(room, { count, row, column, re }, nets) {
  const sums = room.filled("ground", nets);
  for (let e = 0; e < count; e++) if (row[e] < nets && column[e] < nets) sums[row[e]] += re[e];
  for (let i = 0; i < nets; i++) sums[i] = Math.round(sums[i]);
  return sums;
}

/* Take a term from what is left of equation i; `lost` gathers what rounding takes. */
function take(left, lost, i, term) {
  const sum = left[i] - term,
    kept = sum - left[i];
  lost[i] += left[i] - (sum - kept) - (term + kept);
  left[i] = sum;
}

/* The same for a complex matrix {re, im}; right sides are real, unknowns {re, im}. */
export function factoredComplex(room, matrix, size, nets) {
  const entries = entriesOf(room, size, matrix.re, matrix.im),
    factors = factorComplex(room, entries, size) || singular(),
    imbalance = complexImbalance(room, entries, size, nets),
    { count, row, column, re, im } = entries,
    none = room.filled("none", size),
    left = { re: room.space("imbalance", size), im: room.space("imbalance im", size) },
    step = { re: room.space("step", size), im: room.space("step im", size) },
    scale = room.space("scale", size);
  return function (right, found) {
    factors.solve(right, none, found);
    imbalance(right, found, left);
    for (let i = 0; i < size; i++) scale[i] = Math.abs(right[i]);
    for (let e = 0; e < count; e++)
      scale[row[e]] += magnitude(re[e], im[e]) * magnitude(found.re[column[e]], found.im[column[e]]);
    check(magnitudes(room, left, size), scale, size);
    for (let round = 0, last = Infinity; round < REFINEMENTS; round++, imbalance(right, found, left)) {
      factors.solve(left.re, left.im, step);
      let moved = 0,
        largest = 0;
      for (let i = 0; i < size; i++) {
        found.re[i] += step.re[i];
        found.im[i] += step.im[i];
        if (i >= nets) continue;
        moved = Math.max(moved, magnitude(step.re[i], step.im[i]));
        largest = Math.max(largest, magnitude(found.re[i], found.im[i]));
      }
      if (!(moved > SETTLED * largest && moved < last / 2)) break;
      last = moved;
    }
    return found;
  };
}

function complexImbalance(room, entries, size, nets) {
  const { count, row, column, re, im } = entries,
    ground = grounded(room, entries, nets),
    lostRe = room.space("lost", size),
    lostIm = room.space("lost im", size);
  return function (right, found, left) {
    lostRe.fill(0, 0, size);
    lostIm.fill(0, 0, size);
    for (let i = 0; i < size; i++) (left.re[i] = right[i]), (left.im[i] = 0);
    for (let i = 0; i < nets; i++) {
      take(left.re, lostRe, i, ground[i] * found.re[i]);
      take(left.im, lostIm, i, ground[i] * found.im[i]);
    }
    for (let e = 0; e < count; e++) {
      const i = row[e],
        j = column[e],
        between = i < nets && j < nets;
      if (between && i === j) continue;
      const r = between ? found.re[j] - found.re[i] : found.re[j],
        m = between ? found.im[j] - found.im[i] : found.im[j];
      if (re[e] !== 0) take(left.re, lostRe, i, re[e] * r), take(left.im, lostIm, i, re[e] * m);
      if (im[e] !== 0) take(left.re, lostRe, i, -im[e] * m), take(left.im, lostIm, i, im[e] * r);
    }
    for (let i = 0; i < size; i++) (left.re[i] += lostRe[i]), (left.im[i] += lostIm[i]);
  };
}

function magnitudes(room, { re, im }, size) {
  const found = room.space("magnitudes", size);
  for (let i = 0; i < size; i++) found[i] = magnitude(re[i], im[i]);
  return found;
}

export const magnitude = (re, im) => Math.sqrt(re * re + im * im);

function check(error, scale, size) {
  let largest = 0;
  for (let i = 0; i < size; i++) if (scale[i] > largest) largest = scale[i];
  for (let i = 0; i < size; i++) {
    // Written so that what is not a number fails too.
    if (!(Math.abs(error[i]) <= RESIDUAL * scale[i] + ROUNDING * largest)) {
      throw new CircuitError("no single solution: the currents of a net do not sum to zero");
    }
  }
}

function singular() {
  throw new CircuitError("no single solution: a loop of emfs and windings without resistance");
}
