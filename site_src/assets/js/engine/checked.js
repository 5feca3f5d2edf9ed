"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Factored matrices that hold every equation of every answer against a bound: the twin of _solve_checked in solve.py. */
(function (engine) {
  engine.RESIDUAL = 1e-9; // largest error of a current or voltage equation, relative to its largest term
  const ROUNDING = 1e-13; // of the largest equation: LU is stable for the system as a whole, not row by row

  /* A function from a right side to the unknowns. Throws CircuitError when there is no single solution. */
  engine.factoredReal = function (matrix, size) {
    const factors = engine.factorReal(matrix, size) || singular();
    const error = new Float64Array(size), scale = new Float64Array(size);
    return function (right) {
      const found = factors.solve(right);
      for (let i = 0, at = 0; i < size; i++) {
        let sum = -right[i], all = Math.abs(right[i]);
        for (let j = 0; j < size; j++, at++) {
          if (matrix[at] === 0) continue;
          const term = matrix[at] * found[j];
          sum += term;
          all += Math.abs(term);
        }
        error[i] = Math.abs(sum);
        scale[i] = all;
      }
      check(error, scale);
      return found;
    };
  };

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
      if (!(error[i] <= engine.RESIDUAL * scale[i] + ROUNDING * largest)) {
        throw new engine.CircuitError("no single solution: the currents of a net do not sum to zero");
      }
    }
  }

  function singular() {
    throw new engine.CircuitError("no single solution: a loop of emfs and windings without resistance");
  }
})(Ringfence.engine);
