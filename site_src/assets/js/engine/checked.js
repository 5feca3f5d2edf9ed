"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Factored matrices that hold every equation of every answer against a bound: the twin of _solve_checked in solve.py. */
(function (engine) {
  engine.RESIDUAL = 1e-9; // largest error of a current or voltage equation, relative to its largest term
  const ROUNDING = 1e-13; // of the largest equation: LU is stable for the system as a whole, not row by row

  /* A function from a right side to the unknowns. Throws CircuitError when there is no single solution. */
  engine.factoredReal = function (matrix, size) {
    const factors = engine.factorReal(matrix, size) || singular(), terms = termsOf(size, (at) => Math.abs(matrix[at]));
    return function (right) {
      const found = factors.solve(right);
      check(terms, right, (j) => Math.abs(found[j]), (start, stop, wanted) => {
        let sum = -wanted;
        for (let t = start; t < stop; t++) sum += matrix[terms.at[t]] * found[terms.column[t]];
        return Math.abs(sum);
      });
      return found;
    };
  };

  /* The same for a complex matrix {re, im}; right sides are real, unknowns {re, im}. */
  engine.factoredComplex = function (matrix, size) {
    const factors = engine.factorComplex(matrix, size) || singular();
    const terms = termsOf(size, (at) => engine.magnitude(matrix.re[at], matrix.im[at]));
    return function (right) {
      const found = factors.solve(right);
      check(terms, right, (j) => engine.magnitude(found.re[j], found.im[j]), (start, stop, wanted) => {
        let re = -wanted, im = 0;
        for (let t = start; t < stop; t++) {
          const at = terms.at[t], j = terms.column[t];
          re += matrix.re[at] * found.re[j] - matrix.im[at] * found.im[j];
          im += matrix.re[at] * found.im[j] + matrix.im[at] * found.re[j];
        }
        return engine.magnitude(re, im);
      });
      return found;
    };
  };

  engine.magnitude = (re, im) => Math.sqrt(re * re + im * im);

  /* The places of a matrix that are not zero, row by row, with their sizes. */
  function termsOf(size, sizeAt) {
    const rows = new Int32Array(size + 1), at = new Int32Array(size * size), column = new Int32Array(size * size), sizes = new Float64Array(size * size);
    let count = 0;
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        const found = sizeAt(i * size + j);
        if (found !== 0) at[count] = i * size + j, column[count] = j, sizes[count++] = found;
      }
      rows[i + 1] = count;
    }
    return { rows, at, column, sizes };
  }

  function check(terms, right, sizeOf, errorOf) {
    const found = Float64Array.from(right, (_, j) => sizeOf(j));
    const scale = right.map((wanted, i) => {
      let sum = Math.abs(wanted);
      for (let t = terms.rows[i]; t < terms.rows[i + 1]; t++) sum += terms.sizes[t] * found[terms.column[t]];
      return sum;
    });
    const rounding = ROUNDING * scale.reduce((largest, size) => Math.max(largest, size), 0);
    for (let i = 0; i < right.length; i++) {
      const error = errorOf(terms.rows[i], terms.rows[i + 1], right[i]);
      // Written so that what is not a number fails too.
      if (!(error <= engine.RESIDUAL * scale[i] + rounding)) throw new engine.CircuitError("no single solution: the currents of a net do not sum to zero");
    }
  }

  function singular() {
    throw new engine.CircuitError("no single solution: a loop of emfs and windings without resistance");
  }
})(Ringfence.engine);
