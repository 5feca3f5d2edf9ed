/* What flows through a screen because two cases stand at different voltages. */

import { omega, parallel } from "./basics.js";

export const capacitorOhm = (farad, hertz) => 1 / (omega(hertz) * farad);

export const sourceReactance = (farad, henry, hertz) =>
  omega(hertz) * henry - (farad ? capacitorOhm(farad, hertz) : 0);

export const screenCurrent = (volts, ohm, farad, henry, screenOhm, hertz) =>
  volts / Math.hypot(ohm + screenOhm, sourceReactance(farad, henry, hertz));

/* Volts along the joined screen that count; `bondOhm` 0: no wire between the cases. */
export function screenDrop(volts, ohm, farad, henry, screenOhm, bondOhm, hertz) {
  if (!bondOhm) return screenOhm * screenCurrent(volts, ohm, farad, henry, screenOhm, hertz);
  const both = parallel(screenOhm, bondOhm);
  return both * screenCurrent(volts, ohm, farad, 0, both, hertz);
}

/* Volts between the cases when only the common-mode impedance of the input joins them. */
export function openScreen(volts, ohm, farad, commonOhm, hertz, capacitive) {
  const across = farad ? capacitorOhm(farad, hertz) : 0;
  return (
    (commonOhm * volts) /
    (capacitive ? Math.hypot(ohm, commonOhm + across) : Math.hypot(ohm + commonOhm, across))
  );
}

export const divider = (sourceOhm, inputOhm) => inputOhm / (inputOhm + sourceOhm);
