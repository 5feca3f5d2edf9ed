"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What stands between two chassis, by how the two devices are powered: the twin of powering.py. The rows are published as
   Ringfence.powering, volts and ohm or farad each as low, typical and high. */
(function (engine) {
  const MAINS = engine.MAINS = 50; // Hz
  // ohm, F: what stands in for the part a pair does not have; neither drops anything beside the other
  const CLOSED = 1e-3, THROUGH = 1;

  /* Every way two devices may be powered, the worst first: {powered, says, volts, ohm, farad}, the open voltage (V rms at
     MAINS) and the resistance and capacitance in series behind which it stands, all typical. */
  engine.pairs = function (one, other) {
    const either = ({ pair: [a, b] }) => (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a));
    return Ringfence.powering.filter(either).map(typical).sort((a, b) => amps(b) - amps(a));
  };

  const typical = ({ pair, says, volts, ohm = [0, CLOSED], farad = [0, THROUGH] }) =>
    ({ powered: pair, says, volts: volts[1], ohm: ohm[1], farad: farad[1] });

  /* What flows where the chassis are joined by a tenth of an ohm: which of several pairs is the worst. */
  const amps = ({ volts, ohm, farad }) => volts / Math.hypot(ohm + 0.1, 1 / (2 * Math.PI * MAINS * farad));
})(Ringfence.engine);
