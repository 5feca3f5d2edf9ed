"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* Every way in, as volts at the input at each harmonic. The twin of paths.py. */
(function (runs) {
  runs.PATHS = ["chassis", "induced", "loop", "coil", "electric", "drain", "contact-one"];

  /* Path -> Map of hertz -> volts at the input. */
  runs.paths = function (n, spectra, hertz) {
    const found = Object.fromEntries(runs.PATHS.map((name) => [name, new Map()])), between = n.chassis;
    for (const [f, volts] of harmonics(spectra, between.shape, between.hertz, between.volts, 0)) {
      found.chassis.set(f, volts * runs.through(n, f));
      const amps = volts * screenAmps(n, f);
      if (n.nearness) found.drain.set(f, runs.drainWire(amps, n.nearness, f) * n.divider);
      if (n.contactOne) found["contact-one"].set(f, amps * n.contactOne);
    }
    induced(found.induced, n.induced, spectra, hertz, () => n.divider);
    induced(found.loop, n.loop, spectra, hertz, (f) => runs.through(n, f));
    induced(found.coil, n.coil, spectra, hertz, (f) => runs.through(n, f));
    for (const one of n.electric) {
      for (const [f, volts] of harmonics(spectra, one.shape, hertz, one.volts, 0)) {
        const amps = runs.capacitiveCurrent(volts, one.farad, f);
        add(found.electric, f, runs.onCircuit(amps, one.farad, n.electricOhm, n.ownFarad, f) * n.uneven);
      }
    }
    for (const lines of Object.values(found)) for (const [f, volts] of lines) if (!(volts > 0)) lines.delete(f);
    return found;
  };

  /* Volts at the input for each volt between the two cases. */
  runs.through = function (n, f) {
    const { ohm, farad } = n.chassis;
    if (n.transformer) return n.sourceOhm / Math.hypot(ohm + n.sourceOhm, runs.capacitorOhm(series(n.transformer, farad), f)) * n.divider;
    const share = n.balanced ? conversion(n, f) : n.divider;
    if (n.closed) return runs.screenDrop(1, ohm, farad, n.loopHenry, n.screenOhm, n.bond, f) * share;
    if (n.bond) return runs.screenDrop(1, ohm, farad, 0, n.bond, 0, f) * share;
    if (!n.balanced) return runs.openScreen(1, ohm, farad, n.sourceOhm + n.inputOhm, f, false) * n.divider;
    const common = runs.legOhm(n.common, n.commonFarad, f), capacitive = !n.common;
    const legs = [n.leg, n.leg + n.imbalance].map((leg) => runs.inSeries(leg, common, capacitive));
    return runs.openScreen(1, ohm, farad, runs.parallel(...legs), f, capacitive) * share;
  };

  function conversion(n, f) {
    const bySource = runs.conversionOf(n.imbalance, n.leg, runs.legOhm(n.common, n.commonFarad, f), !n.common);
    return n.worst ? bySource + n.rejection : Math.hypot(bySource, n.rejection);
  }

  function screenAmps(n, f) {
    const { ohm, farad } = n.chassis;
    if (!n.closed || n.transformer) return 0;
    if (!n.bond) return runs.screenCurrent(1, ohm, farad, n.loopHenry, n.screenOhm, f);
    return runs.screenCurrent(1, ohm, farad, 0, runs.parallel(n.screenOhm, n.bond), f) * n.bond / (n.bond + n.screenOhm);
  }

  const series = (one, other) => (other ? one * other / (one + other) : one);

  function induced(lines, emfs, spectra, hertz, share) {
    for (const shape of new Set(emfs.map((emf) => emf.shape))) {
      const volts = runs.together(emfs.filter((emf) => emf.shape === shape).map((emf) => emf.volts));
      if (volts) for (const [f, made] of harmonics(spectra, shape, hertz, volts, 1)) add(lines, f, made * share(f));
    }
  }

  const add = (lines, f, volts) => lines.set(f, Math.hypot(lines.get(f) || 0, volts));

  /* [hertz, volts] of the odd harmonics of a shape; `order` 1 for what grows with frequency. */
  const harmonics = (spectra, shape, hertz, volts, order) =>
    spectra[shape].map((h, i) => [(2 * i + 1) * hertz, volts * h * (order ? 2 * i + 1 : 1)]);
})(Ringfence.interference);
