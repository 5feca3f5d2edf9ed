/* The magnetic field beside mains cables and transformers, tesla rms for amps rms, distances in metres. */

const STEPS = 200;
const FACTOR = 2e-7; // mu0 / 2 pi
const known = new Map();

export const wire = (amps, distance) => (FACTOR * amps) / distance;
export const pair = (amps, spacing, distance) => (FACTOR * amps * spacing) / distance ** 2;

/* What twisting leaves of the field of a straight pair: x^2 |K1'(x)|, x = 2 pi distance / lay. */
export function twist(distance, lay) {
  const x = (2 * Math.PI * distance) / lay;
  if (!known.has(x)) known.set(x, Math.min(1, (x * x * (bessel(0, x) + bessel(2, x))) / 2));
  return known.get(x);
}

/* Modified Bessel function K by the trapezium rule. */
function bessel(order, x) {
  const step = Math.acosh(Math.max(2, 750 / x)) / STEPS;
  let inner = 0;
  for (let i = 1; i < STEPS; i++) inner += Math.exp(-x * Math.cosh(i * step)) * Math.cosh(order * i * step);
  return step * (Math.exp(-x) / 2 + inner);
}

/* A mains cable by its data, never more than one of its wires alone would make. */
export function cableField(amps, spacing, lay, distance) {
  const alone = wire(amps, distance);
  if (!spacing) return alone;
  return Math.min(alone, pair(amps, spacing, distance) * (lay ? twist(distance, lay) : 1));
}

export const falling = (surface, at, distance) => surface * (at / distance) ** 3;
