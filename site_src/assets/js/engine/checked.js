/* Factored matrices that hold every equation of every answer against a bound: the twin of _solve_checked in solve.py. */

import { CircuitError } from "./circuit.js";
import { REFINEMENTS, RESIDUAL, ROUNDING, SETTLED } from "./constants.js";
import { factorComplex, factorReal } from "./lu.js";

/* A function from a right side to the unknowns, the first `nets` of which are voltages; what the last bits of the matrix
   cannot tell, a leak beside a closed contact, is found by refinement. Throws CircuitError when there is no single solution. */
export function factoredReal(matrix, size, nets) {
  const factors = factorReal(matrix, size) || singular(),
    imbalance = imbalanceOf(matrix, size, nets);
  const scale = new Float64Array(size);
  return function (right) {
    const found = factors.solve(right);
    let left = imbalance(right, found);
    for (let i = 0, at = 0; i < size; i++) {
      scale[i] = Math.abs(right[i]);
      for (let j = 0; j < size; j++, at++) if (matrix[at] !== 0) scale[i] += Math.abs(matrix[at] * found[j]);
    }
    check(left, scale);
    for (let round = 0, last = Infinity; round < REFINEMENTS; round++, left = imbalance(right, found)) {
      const step = factors.solve(left);
      let moved = 0,
        largest = 0;
      for (let i = 0; i < size; i++) {
        found[i] += step[i];
        if (i < nets)
          (moved = Math.max(moved, Math.abs(step[i]))), (largest = Math.max(largest, Math.abs(found[i])));
      }
      if (!(moved > SETTLED * largest && moved < last / 2)) break; // what rounding moves it moves again
      last = moved;
    }
    return found;
  };
}

/* A function from a right side and unknowns to what is left of every equation. Currents between nets are taken from the
   differences of their voltages: in the sum of a net's conductances a closed contact drowns what is a trillion times less.
   What rounding takes from the sums is added again in the end, for large currents cancel in every net. */
function imbalanceOf(matrix, size, nets) {
  const ground = new Float64Array(nets),
    lost = new Float64Array(size);
  let count = 0;
  for (const entry of matrix) if (entry !== 0) count++;
  const row = new Int32Array(count),
    column = new Int32Array(count),
    value = new Float64Array(count);
  count = 0;
  for (let i = 0, at = 0; i < size; i++) {
    for (let j = 0; j < size; j++, at++) {
      if (matrix[at] === 0) continue;
      if (i < nets && j < nets) ground[i] += matrix[at];
      if (i < nets && j === i) continue;
      row[count] = i;
      column[count] = j;
      value[count++] = matrix[at];
    }
  }
  return function (right, found) {
    const left = right.slice();
    lost.fill(0);
    for (let k = -nets; k < count; k++) {
      const i = k < 0 ? k + nets : row[k],
        j = k < 0 ? i : column[k];
      // First what ties the 0 V of an island, then each entry beside the diagonal.
      const term =
        k < 0
          ? Math.round(ground[i]) * found[i]
          : value[k] * (i < nets && j < nets ? found[j] - found[i] : found[j]);
      const sum = left[i] - term,
        kept = sum - left[i];
      lost[i] += left[i] - (sum - kept) - (term + kept);
      left[i] = sum;
    }
    for (let i = 0; i < size; i++) left[i] += lost[i];
    return left;
  };
}

/* The same for a complex matrix {re, im}; right sides are real, unknowns {re, im}. */
export function factoredComplex(matrix, size, nets) {
  const factors = factorComplex(matrix, size) || singular(),
    imbalance = complexImbalance();
  const zero = new Float64Array(size),
    scale = new Float64Array(size);
  return function (right) {
    const found = factors.solve(right),
      extent = magnitudes(found);
    let left = imbalance(right, found);
    for (let i = 0, at = 0; i < size; i++) {
      scale[i] = Math.abs(right[i]);
      for (let j = 0; j < size; j++, at++) {
        const mr = matrix.re[at],
          mi = matrix.im[at];
        if (mr !== 0 || mi !== 0) scale[i] += magnitude(mr, mi) * extent[j];
      }
    }
    check(magnitudes(left), scale);
    for (let round = 0, last = Infinity; round < REFINEMENTS; round++, left = imbalance(right, found)) {
      const one = factors.solve(left.re),
        other = factors.solve(left.im); // right sides are real
      let moved = 0,
        largest = 0;
      for (let i = 0; i < size; i++) {
        const re = one.re[i] - other.im[i],
          im = one.im[i] + other.re[i];
        found.re[i] += re;
        found.im[i] += im;
        if (i >= nets) continue;
        moved = Math.max(moved, magnitude(re, im));
        largest = Math.max(largest, magnitude(found.re[i], found.im[i]));
      }
      if (!(moved > SETTLED * largest && moved < last / 2)) break;
      last = moved;
    }
    return found;
  };

  /* What is left of every equation, {re, im}. */
  function complexImbalance() {
    const real = imbalanceOf(matrix.re, size, nets),
      imaginary = imbalanceOf(matrix.im, size, nets);
    return function (right, { re, im }) {
      const left = { re: real(right, re), im: real(zero, im) },
        across = imaginary(zero, im),
        along = imaginary(zero, re);
      for (let i = 0; i < size; i++) {
        left.re[i] -= across[i];
        left.im[i] += along[i];
      }
      return left;
    };
  }
}

function magnitudes({ re, im }) {
  const found = new Float64Array(re.length);
  for (let i = 0; i < found.length; i++) found[i] = magnitude(re[i], im[i]);
  return found;
}

export const magnitude = (re, im) => Math.sqrt(re * re + im * im);

function check(error, scale) {
  let largest = 0;
  for (let i = 0; i < scale.length; i++) if (scale[i] > largest) largest = scale[i];
  for (let i = 0; i < scale.length; i++) {
    // Written so that what is not a number fails too.
    if (!(Math.abs(error[i]) <= RESIDUAL * scale[i] + ROUNDING * largest)) {
      throw new CircuitError("no single solution: the currents of a net do not sum to zero");
    }
  }
}

function singular() {
  throw new CircuitError("no single solution: a loop of emfs and windings without resistance");
}
