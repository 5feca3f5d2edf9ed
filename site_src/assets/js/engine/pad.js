/* The pad that tames a level: a balanced U-pad from E24 values, two equal series resistors and one shunt across the input.
   The twin of pad.py. */

import { PAD_SHUNT, PAD_SOURCE } from "./constants.js";
import { quantity } from "./words.js";

const E24 = [
  1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8,
  7.5, 8.2, 9.1,
];

/* The E24 series resistor (ohm, one in each leg) that with PAD_SHUNT takes at least `decibels` off. */
function seriesFor(decibels) {
  const exact = ((10 ** (decibels / 20) - 1) * PAD_SHUNT) / 2;
  let decade = 1;
  while (decade * 10 <= exact) decade *= 10;
  const value = E24.find((one) => decade * one >= exact * (1 - 1e-9));
  return value === undefined ? decade * 10 : decade * value;
}

/* The pad for a level `over` dB too high, in words; empty when it is not. Rounded up to whole 5 dB. */
export function padWords(over) {
  if (over <= 0) return "";
  const decibels = 5 * Math.ceil(over / 5 - 1e-9);
  const series = seriesFor(decibels),
    behind = 2 * series + PAD_SOURCE,
    ohm = (value) => quantity(value, "ohm");
  const sees = `the output sees ${ohm(2 * series + PAD_SHUNT)}, the input ${ohm((PAD_SHUNT * behind) / (PAD_SHUNT + behind))}`;
  return `${decibels} dB pad: ${ohm(series)} in each leg, ${ohm(PAD_SHUNT)} across the input (${sees})`;
}
