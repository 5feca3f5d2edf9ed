/* Capacitive coupling from live conductors, and screen current turned into signal. */

import { E0, omega } from "./basics.js";

export const twoWires = (distance, diameter) => (Math.PI * E0) / Math.acosh(distance / diameter);
export const capacitiveCurrent = (volts, farad, hertz) => omega(hertz) * farad * volts;
export const onCircuit = (amps, farad, ohm, ownFarad, hertz) =>
  amps / Math.hypot(1 / ohm, omega(hertz) * (ownFarad + farad));

/* Volts between the cores because a screen current runs nearer to one; `henry` is of the whole length. */
export const drainWire = (amps, henry, hertz) => amps * omega(hertz) * henry;
