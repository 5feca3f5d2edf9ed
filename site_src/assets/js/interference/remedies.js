"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What helps this run, and by how much; the reading worth taking. The twin of remedies.py and reading.py. */
(function (runs) {
  const FARTHER = 10, FEW = 0.5, FARTHEST = 32;
  const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
  const gainOf = (before, after) => (after ? runs.db(before / after) : before ? null : 0);
  const rank = (one) => (one.gains[runs.TYPICAL] === null ? 999 : Math.round(one.gains[runs.TYPICAL] * 1e6) / 1e6); // alike but for rounding: by cost

  /* One cure by its id: {id, words, gains, radio, of}; null where it does not apply or makes it worse. `before` is totalHeard of the run. */
  runs.cure = function (id, run, tables, before) {
    const of = runs.CHANGES[id] ? runs.CHANGES[id](run, tables) : null;
    if (!of || same(of, run)) return null;
    const after = runs.totalHeard(of, tables), gains = before.map((one, end) => gainOf(one, after[end])), typical = gains[runs.TYPICAL];
    const words = tables.remedies[id].words.replace("{device}", runs.mainsDevice(run, tables)).replace("{cable}", runs.betterName(run, tables));
    return typical === null || typical > -FEW ? { id, words, gains, radio: null, of } : null;
  };

  /* Cures best first, and behind them those for radio. */
  runs.ranked = (found, run, tables) => [...found.filter(Boolean).sort((one, other) => rank(other) - rank(one)), ...forRadio(run, tables)];

  runs.remedies = function (run, tables) {
    const before = runs.totalHeard(run, tables);
    return runs.ranked(Object.keys(tables.remedies).map((id) => runs.cure(id, run, tables, before)), run, tables);
  };

  function forRadio(run, tables) {
    if (!run.transmitters.length) return [];
    const cure = (id, radio, of) => ({ id, words: tables.remedies[id].words, gains: [0, 0, 0], radio, of });
    const { ohm } = tables.chokes.ring;
    const farther = { ...run, transmitters: run.transmitters.map((one) => ({ ...one, distance: one.distance * FARTHER })) };
    return [...(run.ferrite ? [] : [cure("ferrite", runs.ferriteLoss(ohm), { ...run, ferrite: ohm })]),
      cure("farther", runs.db(FARTHER), farther), cure("length", null, run)];
  }

  /* How many times as far everything near must be for 6 dB; null where distance does not bring it. */
  runs.sixDecibels = function (run, tables) {
    const before = runs.totalHeard(run, tables)[runs.TYPICAL];
    const reached = function (times) {
      const after = runs.totalHeard(runs.scaled(run, times), tables)[runs.TYPICAL];
      return after === 0 || runs.db(before / after) >= 6;
    };
    if (!before || !(run.beside.length || run.things.length) || !reached(FARTHEST)) return null;
    let low = 1, high = FARTHEST;
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (reached(middle)) high = middle;
      else low = middle;
    }
    return high;
  };

  /* {volts, amps, now, then}: what a meter would typically show, and the spread of the answer in dB without and with it. */
  runs.reading = function (run, tables) {
    if (run.measured_volts || run.measured_amps || [run.source.powered, run.input.powered].includes("battery")) return null;
    const expected = runs.chassis(run, tables, runs.guesses(run, tables), runs.TYPICAL);
    const reactance = expected.farad ? 1 / (runs.omega(run.hertz) * expected.farad) : 0, amps = expected.volts / Math.hypot(expected.ohm, reactance);
    const then = { ...run, measured_volts: expected.volts, measured_amps: amps };
    return { volts: expected.volts, amps, now: spread(run, tables), then: spread(then, tables) };
  };

  function spread(run, tables) {
    const heard = runs.totalHeard(run, tables);
    return heard[runs.QUIET] ? runs.db(heard[runs.LOUD] / heard[runs.QUIET]) : null;
  }

  /* dB left at 20 kHz. */
  runs.trebleOf = function (run, tables) {
    const source = tables.sources[run.source.device], input = tables.inputs[run.input.device];
    const farad = run.leads.reduce((sum, lead) => sum + tables.cables[lead.cable].farad * lead.length, 0);
    return runs.treble(runs.parallel(source.ohm, input.ohm), farad, 20e3);
  };
})(Ringfence.interference);
