"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* How much of a common-mode voltage a balanced input hears. */
(function (runs) {
  runs.legOhm = function (ohm, farad, hertz) {
    const siemens = Math.hypot(ohm ? 1 / ohm : 0, runs.omega(hertz) * farad);
    return siemens ? 1 / siemens : Infinity;
  };

  runs.inSeries = (sourceOhm, commonOhm, capacitive) => (capacitive ? Math.hypot(sourceOhm, commonOhm) : sourceOhm + commonOhm);

  /* Share of the common-mode volts between the legs: |Z/(Z+R) - Z/(Z+R+dR)|. */
  runs.conversionOf = function (imbalance, sourceOhm, commonOhm, capacitive) {
    if (commonOhm === Infinity) return 0;
    const one = runs.inSeries(sourceOhm, commonOhm, capacitive);
    return imbalance * commonOhm / one / runs.inSeries(sourceOhm + imbalance, commonOhm, capacitive);
  };
})(Ringfence.interference);
