/* What stands between two chassis, by how the two devices are powered: the twin of powering.py. The rows are published as
   Ringfence.powering: {powered, says, volts, ohm, farad}, the open voltage (V rms at MAINS) and the resistance and capacitance in
   series behind which it stands, all typical. */

import { LEAST_JOINT, MAINS } from "./constants.js";

/* Every way two devices may be powered, the worst first. */
export function pairs(one, other) {
  const may = (a, b) => one.includes(a) && other.includes(b);
  return Ringfence.powering
    .filter(({ powered: [a, b] }) => may(a, b) || may(b, a))
    .sort((a, b) => amps(b) - amps(a));
}

/* What flows where the chassis are joined by a tenth of an ohm: which of several pairs is the worst. */
const amps = ({ volts, ohm, farad }) =>
  volts / Math.hypot(ohm + LEAST_JOINT, 1 / (2 * Math.PI * MAINS * farad));
