"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* A run turned into plain numbers at the quiet end, typical, and at the loud end of what is guessed. The twin of numbers.py. */
(function (runs) {
  const PAIRS = ["pair", "quad", "open pair"], SHORT = 30;
  Object.assign(runs, { QUIET: 0, TYPICAL: 1, LOUD: 2, ENDS: [0, 1, 2] });

  runs.isBalanced = (run, tables) => tables.inputs[run.input.device].balanced
    && run.leads.every((lead) => PAIRS.includes(tables.cables[lead.cable].build) && lead.cold !== "to the screen at the input");

  /* Volts of what is wanted, unloaded. */
  runs.wanted = (source, tables) =>
    (source.kind === "microphone" ? runs.microphoneVolts(source.level, tables.hearing.talker.value) : source.level);

  runs.numbers = function (run, tables, end, guesses) {
    const guess = guesses || runs.guesses(run, tables), source = tables.sources[run.source.device], input = tables.inputs[run.input.device];
    guess.note(source, source.name);
    guess.note(input, input.name);
    const balanced = runs.isBalanced(run, tables), alike = source.balanced && run.leads.every((lead) => lead.cold === "through");
    const near = runs.fields(run, tables, guess, end), coupled = runs.electric(run, tables, guess, end);
    const divider = runs.divider(source.ohm, input.ohm), wandering = run.source.contact_one || run.input.contact_one;
    const n = {
      worst: end === runs.LOUD, balanced, sourceOhm: source.ohm, inputOhm: input.ohm, divider,
      imbalance: guess.given("imbalance", alike ? source.imbalance : source.ohm), leg: alike ? source.ohm / 2 : 0,
      common: input.common, commonFarad: input.farad, rejection: runs.fromDb(-guess.given("rejection", input.rejection[end])),
      chassis: runs.chassis(run, tables, guess, end),
      closed: !run.leads.some((lead) => lead.screen.startsWith("open")),
      screenOhm: run.leads.reduce((sum, lead) => sum + returnOhm(lead, tables, guess, end), 0),
      loopHenry: guess.constant("loop-inductance", end) * runs.lengthOf(run), bond: run.bond,
      transformer: run.transformer ? guess.constant("transformer", end) : 0,
      induced: near.pair, loop: near.loop, coil: near.coil,
      electric: coupled.all, electricOhm: coupled.ohm, ownFarad: coupled.ownFarad, uneven: coupled.uneven,
      nearness: balanced ? run.leads.reduce((sum, lead) => sum + tables.cables[lead.cable].nearness[end] * lead.length, 0) : 0,
      contactOne: wandering ? guess.constant("contact-1", end) : 0,
      wanted: runs.wanted(source, tables) * divider, noise: runs.together([input.noise, source.noise * divider]),
    };
    n.inRange = (n.balanced && n.common ? n.common + n.leg : n.sourceOhm + n.inputOhm) > SHORT * n.screenOhm;
    return n;
  };

  function returnOhm(lead, tables, guess, end) {
    const row = tables.cables[lead.cable];
    guess.note(row, row.name, row.return, "ohm/m");
    return row.return[end] * lead.length + guess.constant("contacts", end);
  }
})(Ringfence.interference);
