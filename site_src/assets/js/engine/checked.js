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
  const filled = [],
    ground = new Float64Array(nets);
  for (let i = 0, at = 0; i < size; i++) {
    for (let j = 0; j < size; j++, at++) {
      if (i < nets && j < nets) ground[i] += matrix[at];
      if (matrix[at] !== 0 && !(i < nets && j === i)) filled.push([i, j, matrix[at]]);
    }
  }
  return function (right, found) {
    const left = right.slice(),
      lost = new Float64Array(size);
    const take = function (i, term) {
      const sum = left[i] - term,
        kept = sum - left[i];
      lost[i] += left[i] - (sum - kept) - (term + kept);
      left[i] = sum;
    };
    for (let i = 0; i < nets; i++) take(i, Math.round(ground[i]) * found[i]); // what ties the 0 V of an island
    for (const [i, j, value] of filled)
      take(i, value * (i < nets && j < nets ? found[j] - found[i] : found[j]));
    return left.map((one, i) => one + lost[i]);
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
      const step = {
        re: one.re.map((re, i) => re - other.im[i]),
        im: one.im.map((im, i) => im + other.re[i]),
      };
      step.re.forEach((re, i) => {
        found.re[i] += re;
        found.im[i] += step.im[i];
      });
      const [moved, largest] = [step, found].map((unknowns) =>
        Math.max(0, ...magnitudes(unknowns).subarray(0, nets)),
      );
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
      const across = imaginary(zero, im),
        along = imaginary(zero, re);
      return {
        re: real(right, re).map((one, i) => one - across[i]),
        im: real(zero, im).map((one, i) => one + along[i]),
      };
    };
  }
}

const magnitudes = ({ re, im }) => re.map((one, i) => magnitude(one, im[i]));

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
