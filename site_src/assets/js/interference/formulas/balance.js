/* How much of a common-mode voltage a balanced input hears. */

import { omega } from "./basics.js";

export function legOhm(ohm, farad, hertz) {
  const siemens = Math.hypot(ohm ? 1 / ohm : 0, omega(hertz) * farad);
  return siemens ? 1 / siemens : Infinity;
}

export const inSeries = (sourceOhm, commonOhm, capacitive) =>
  capacitive ? Math.hypot(sourceOhm, commonOhm) : sourceOhm + commonOhm;

/* Share of the common-mode volts between the legs: |Z/(Z+R) - Z/(Z+R+dR)|. */
export function conversionOf(imbalance, sourceOhm, commonOhm, capacitive) {
  if (commonOhm === Infinity) return 0;
  const one = inSeries(sourceOhm, commonOhm, capacitive);
  return (imbalance * commonOhm) / one / inSeries(sourceOhm + imbalance, commonOhm, capacitive);
}
