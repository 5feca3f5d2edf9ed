/* Every way in, as volts at the input at each harmonic. The twin of paths.py. */

import { conversionOf, inSeries, legOhm } from "./formulas/balance.js";
import { parallel, together } from "./formulas/basics.js";
import { capacitorOhm, openScreen, screenCurrent, screenDrop } from "./formulas/chassis.js";
import { capacitiveCurrent, drainWire, onCircuit } from "./formulas/electric.js";

export const PATHS = ["chassis", "induced", "loop", "coil", "electric", "drain", "contact-one"];

/* Path -> Map of hertz -> volts at the input. */
export function paths(n, spectra, hertz) {
  const found = Object.fromEntries(PATHS.map((name) => [name, new Map()])),
    between = n.chassis;
  for (const [f, volts] of harmonics(spectra, between.shape, between.hertz, between.volts, 0)) {
    found.chassis.set(f, volts * through(n, f));
    const amps = volts * screenAmps(n, f);
    if (n.nearness) found.drain.set(f, drainWire(amps, n.nearness, f) * n.divider);
    if (n.contactOne) found["contact-one"].set(f, amps * n.contactOne);
  }
  induced(found.induced, n.induced, spectra, hertz, () => n.divider);
  induced(found.loop, n.loop, spectra, hertz, (f) => through(n, f));
  induced(found.coil, n.coil, spectra, hertz, (f) => through(n, f));
  for (const one of n.electric) {
    for (const [f, volts] of harmonics(spectra, one.shape, hertz, one.volts, 0)) {
      const amps = capacitiveCurrent(volts, one.farad, f);
      add(found.electric, f, onCircuit(amps, one.farad, n.electricOhm, n.ownFarad, f) * n.uneven);
    }
  }
  for (const lines of Object.values(found)) for (const [f, volts] of lines) if (!(volts > 0)) lines.delete(f);
  return found;
}

/* Volts at the input for each volt between the two cases. */
export function through(n, f) {
  const { ohm, farad } = n.chassis;
  if (n.transformer)
    return (
      (n.sourceOhm / Math.hypot(ohm + n.sourceOhm, capacitorOhm(series(n.transformer, farad), f))) * n.divider
    );
  const share = n.balanced ? conversion(n, f) : n.divider;
  if (n.closed) return screenDrop(1, ohm, farad, n.loopHenry, n.screenOhm, n.bond, f) * share;
  if (n.bond) return screenDrop(1, ohm, farad, 0, n.bond, 0, f) * share;
  if (!n.balanced) return openScreen(1, ohm, farad, n.sourceOhm + n.inputOhm, f, false) * n.divider;
  const common = legOhm(n.common, n.commonFarad, f),
    capacitive = !n.common;
  const legs = [n.leg, n.leg + n.imbalance].map((leg) => inSeries(leg, common, capacitive));
  return openScreen(1, ohm, farad, parallel(...legs), f, capacitive) * share;
}

function conversion(n, f) {
  const bySource = conversionOf(n.imbalance, n.leg, legOhm(n.common, n.commonFarad, f), !n.common);
  return n.worst ? bySource + n.rejection : Math.hypot(bySource, n.rejection);
}

function screenAmps(n, f) {
  const { ohm, farad } = n.chassis;
  if (!n.closed || n.transformer) return 0;
  if (!n.bond) return screenCurrent(1, ohm, farad, n.loopHenry, n.screenOhm, f);
  return (
    (screenCurrent(1, ohm, farad, 0, parallel(n.screenOhm, n.bond), f) * n.bond) / (n.bond + n.screenOhm)
  );
}

const series = (one, other) => (other ? (one * other) / (one + other) : one);

function induced(lines, emfs, spectra, hertz, share) {
  for (const shape of new Set(emfs.map((emf) => emf.shape))) {
    const volts = together(emfs.filter((emf) => emf.shape === shape).map((emf) => emf.volts));
    if (volts)
      for (const [f, made] of harmonics(spectra, shape, hertz, volts, 1)) add(lines, f, made * share(f));
  }
}

const add = (lines, f, volts) => lines.set(f, Math.hypot(lines.get(f) || 0, volts));

/* [hertz, volts] of the odd harmonics of a shape; `order` 1 for what grows with frequency. */
const harmonics = (spectra, shape, hertz, volts, order) =>
  spectra[shape].map((h, i) => [(2 * i + 1) * hertz, volts * h * (order ? 2 * i + 1 : 1)]);
