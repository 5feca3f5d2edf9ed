"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Factored matrices that hold every equation of every answer against a bound: the twin of _solve_checked in solve.py. */
(function (engine) {
  engine.RESIDUAL = 1e-9; // largest error of a current or voltage equation, relative to its largest term
  const ROUNDING = 1e-13; // of the largest equation: LU is stable for the system as a whole, not row by row
  const SETTLED = 1e-10; // of the largest voltage; a step of refinement below this is the last
  const REFINEMENTS = 40; // steps at most; where leaks alone hold a net each leaves some per cent of the error, up to a fifth

  /* A function from a right side to the unknowns, the first `nets` of which are voltages; what the last bits of the matrix
     cannot tell, a leak beside a closed contact, is found by refinement. Throws CircuitError when there is no single solution. */
  engine.factoredReal = function (matrix, size, nets) {
    const factors = engine.factorReal(matrix, size) || singular(), imbalance = imbalanceOf(matrix, size, nets);
    const scale = new Float64Array(size);
    return function (right) {
      const found = factors.solve(right);
      let left = imbalance(right, found);
      for (let i = 0, at = 0; i < size; i++) {
        scale[i] = Math.abs(right[i]);
        for (let j = 0; j < size; j++, at++) if (matrix[at] !== 0) scale[i] += Math.abs(matrix[at] * found[j]);
      }
      check(left, scale);
      for (let round = 0; round < REFINEMENTS; round++, left = imbalance(right, found)) {
        const step = factors.solve(left);
        let moved = 0, largest = 0;
        for (let i = 0; i < size; i++) {
          found[i] += step[i];
          if (i < nets) moved = Math.max(moved, Math.abs(step[i])), largest = Math.max(largest, Math.abs(found[i]));
        }
        if (moved <= SETTLED * largest) return found;
      }
      throw new engine.CircuitError("no single solution: it does not settle");
    };
  };

  /* A function from a right side and unknowns to what is left of every equation. Currents between nets are taken from the
     differences of their voltages: in the sum of a net's conductances a closed contact drowns what is a trillion times less. */
  function imbalanceOf(matrix, size, nets) {
    const filled = [], ground = new Float64Array(nets);
    for (let i = 0, at = 0; i < size; i++) {
      for (let j = 0; j < size; j++, at++) {
        if (i < nets && j < nets) ground[i] += matrix[at];
        if (matrix[at] !== 0 && !(i < nets && j === i)) filled.push([i, j, matrix[at]]);
      }
    }
    return function (right, found) {
      const left = right.slice();
      for (let i = 0; i < nets; i++) left[i] -= Math.round(ground[i]) * found[i]; // what ties the 0 V of an island
      for (const [i, j, value] of filled) left[i] -= value * (i < nets && j < nets ? found[j] - found[i] : found[j]);
      return left;
    };
  }

  /* The same for a complex matrix {re, im}; right sides are real, unknowns {re, im}. */
  engine.factoredComplex = function (matrix, size) {
    const factors = engine.factorComplex(matrix, size) || singular();
    const error = new Float64Array(size), scale = new Float64Array(size);
    return function (right) {
      const found = factors.solve(right), extent = found.re.map((re, j) => engine.magnitude(re, found.im[j]));
      for (let i = 0, at = 0; i < size; i++) {
        let re = -right[i], im = 0, all = Math.abs(right[i]);
        for (let j = 0; j < size; j++, at++) {
          const mr = matrix.re[at], mi = matrix.im[at];
          if (mr === 0 && mi === 0) continue;
          re += mr * found.re[j] - mi * found.im[j];
          im += mr * found.im[j] + mi * found.re[j];
          all += engine.magnitude(mr, mi) * extent[j];
        }
        error[i] = engine.magnitude(re, im);
        scale[i] = all;
      }
      check(error, scale);
      return found;
    };
  };

  engine.magnitude = (re, im) => Math.sqrt(re * re + im * im);

  function check(error, scale) {
    let largest = 0;
    for (let i = 0; i < scale.length; i++) if (scale[i] > largest) largest = scale[i];
    for (let i = 0; i < scale.length; i++) {
      // Written so that what is not a number fails too.
      if (!(Math.abs(error[i]) <= engine.RESIDUAL * scale[i] + ROUNDING * largest)) {
        throw new engine.CircuitError("no single solution: the currents of a net do not sum to zero");
      }
    }
  }

  function singular() {
    throw new engine.CircuitError("no single solution: a loop of emfs and windings without resistance");
  }
})(Ringfence.engine);
