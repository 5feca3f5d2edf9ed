"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* Radio: field of a transmitter, length in quarter waves, what a choke takes. The twin of formulas/radio.py. */
(function (runs) {
  runs.COMMON_OHM = 150;
  runs.proximityField = (watts, distance, factor) => factor * Math.sqrt(watts) / distance;
  runs.clearDistance = (watts, voltsPerMetre, factor) => factor * Math.sqrt(watts) / voltsPerMetre;
  runs.wave = (hertz) => runs.LIGHT / hertz;
  runs.quarterWaves = (length, hertz, velocity) => 4 * length * hertz / (velocity * runs.LIGHT);
  runs.ferriteLoss = (ohm) => 20 * Math.log10((runs.COMMON_OHM + ohm) / runs.COMMON_OHM);
})(Ringfence.interference);
