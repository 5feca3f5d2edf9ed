"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* Constants of physics and the few sums every formula needs. The twin of formulas/basics.py; so are the others beside it. */
(function (runs) {
  runs.MU0 = 4e-7 * Math.PI; // H/m
  runs.E0 = 8.854187817e-12; // F/m
  runs.LIGHT = 299792458; // m/s

  runs.omega = (hertz) => 2 * Math.PI * hertz;

  /* A ratio of volts in dB; null where there is nothing to compare. */
  runs.db = (ratio) => (ratio > 0 ? 20 * Math.log10(ratio) : null);

  runs.fromDb = (value) => 10 ** (value / 20);

  /* What several voltages of unknown phase make: the root of squares, or at worst their sum. */
  runs.together = (values, worst) => (worst ? values.reduce((sum, one) => sum + one, 0) : values.length ? Math.hypot(...values) : 0);

  runs.parallel = (one, other) => (one + other ? one * other / (one + other) : 0);
})(Ringfence.interference);
