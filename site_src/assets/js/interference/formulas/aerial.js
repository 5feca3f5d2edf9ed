/* Radio: field of a transmitter, length in quarter waves, what a choke takes. The twin of formulas/radio.py. */

import { LIGHT } from "./basics.js";

export const COMMON_OHM = 150;
export const proximityField = (watts, distance, factor) => (factor * Math.sqrt(watts)) / distance;
export const clearDistance = (watts, voltsPerMetre, factor) => (factor * Math.sqrt(watts)) / voltsPerMetre;
export const wave = (hertz) => LIGHT / hertz;
export const quarterWaves = (length, hertz, velocity) => (4 * length * hertz) / (velocity * LIGHT);
export const ferriteLoss = (ohm) => 20 * Math.log10((COMMON_OHM + ohm) / COMMON_OHM);
