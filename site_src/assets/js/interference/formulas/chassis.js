"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What flows through a screen because two cases stand at different voltages. */
(function (runs) {
  runs.capacitorOhm = (farad, hertz) => 1 / (runs.omega(hertz) * farad);

  runs.sourceReactance = (farad, henry, hertz) => runs.omega(hertz) * henry - (farad ? runs.capacitorOhm(farad, hertz) : 0);

  runs.screenCurrent = (volts, ohm, farad, henry, screenOhm, hertz) =>
    volts / Math.hypot(ohm + screenOhm, runs.sourceReactance(farad, henry, hertz));

  /* Volts along the joined screen that count; `bondOhm` 0: no wire between the cases. */
  runs.screenDrop = function (volts, ohm, farad, henry, screenOhm, bondOhm, hertz) {
    if (!bondOhm) return screenOhm * runs.screenCurrent(volts, ohm, farad, henry, screenOhm, hertz);
    const both = runs.parallel(screenOhm, bondOhm);
    return both * runs.screenCurrent(volts, ohm, farad, 0, both, hertz);
  };

  /* Volts between the cases when only the common-mode impedance of the input joins them. */
  runs.openScreen = function (volts, ohm, farad, commonOhm, hertz, capacitive) {
    const across = farad ? runs.capacitorOhm(farad, hertz) : 0;
    return commonOhm * volts / (capacitive ? Math.hypot(ohm, commonOhm + across) : Math.hypot(ohm + commonOhm, across));
  };

  runs.divider = (sourceOhm, inputOhm) => inputOhm / (inputOhm + sourceOhm);
})(Ringfence.interference);
