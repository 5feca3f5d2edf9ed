/* Constants of physics and the few sums every formula needs. The twin of formulas/basics.py; so are the others beside it. */

export const MU0 = 4e-7 * Math.PI; // H/m
export const E0 = 8.854187817e-12; // F/m
export const LIGHT = 299792458; // m/s

export const omega = (hertz) => 2 * Math.PI * hertz;

/* A ratio of volts in dB; null where there is nothing to compare. */
export const db = (ratio) => (ratio > 0 ? 20 * Math.log10(ratio) : null);

export const fromDb = (value) => 10 ** (value / 20);

/* What several voltages of unknown phase make: the root of squares, or at worst their sum. */
export const together = (values, worst) =>
  worst ? values.reduce((sum, one) => sum + one, 0) : values.length ? Math.hypot(...values) : 0;

export const parallel = (one, other) => (one + other ? (one * other) / (one + other) : 0);
