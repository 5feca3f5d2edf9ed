"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* Capacitive coupling from live conductors, and screen current turned into signal. */
(function (runs) {
  runs.twoWires = (distance, diameter) => Math.PI * runs.E0 / Math.acosh(distance / diameter);
  runs.capacitiveCurrent = (volts, farad, hertz) => runs.omega(hertz) * farad * volts;
  runs.onCircuit = (amps, farad, ohm, ownFarad, hertz) => amps / Math.hypot(1 / ohm, runs.omega(hertz) * (ownFarad + farad));

  /* Volts between the cores because a screen current runs nearer to one; `henry` is of the whole length. */
  runs.drainWire = (amps, henry, hertz) => amps * runs.omega(hertz) * henry;
})(Ringfence.interference);
