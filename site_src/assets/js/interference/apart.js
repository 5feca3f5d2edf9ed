"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What the length of a connection does: two runs told in one sentence, and treble against length for each kind of cable. The twin of apart.py. */
(function (runs) {
  const SHORT = 3, LONG = 30, UNHEARD = ["inaudible", "in the noise", "under the voice"], TOP = 20e3;
  const SAYS = ["you will hear no hum", "you may hear hum", "you will hear hum in the pauses", "hum drowns the sound"];
  const PAIRS = ["mic-pair", "star-quad", "foil-pair"], COAXES = ["coax-heavy", "coax-thin", "instrument-lead"];
  runs.DIMMER = { cable: "round-feeder", load: "dimmer-rack", amps: 0, distance: 0.1, along: 10, lies: "alongside" };

  /* The same with its first lead so long, beside something. */
  runs.ofLength = (run, metres, beside = []) => ({ ...run, leads: [{ ...run.leads[0], length: metres }, ...run.leads.slice(1)], beside });

  function heard(found) {
    if (UNHEARD.includes(found.said)) return UNHEARD.includes(found.worst) ? 0 : 1;
    return found.said === "unusable" ? 3 : 2;
  }

  runs.heard = heard;
  runs.saysOf = (found) => SAYS[heard(found)];

  runs.inASentence = function (run, tables) {
    const near = heard(runs.answer(runs.ofLength(run, SHORT), tables)), far = heard(runs.answer(runs.ofLength(run, LONG, [runs.DIMMER]), tables));
    if (near === far) return `Between these two ${SAYS[near]}, on ${SHORT} m as on ${LONG} m beside a dimmer.`;
    return `On ${SHORT} m between these two ${SAYS[near]}; on ${LONG} m beside a dimmer ${SAYS[far]}.`;
  };

  /* The cable of the run, then the other kinds one would take in its place. */
  runs.kindsFor = function (run, tables) {
    const own = run.leads[0].cable, pair = ["pair", "quad", "open pair"].includes(tables.cables[own].build);
    return [own, ...(pair ? PAIRS : COAXES).filter((kind) => kind !== own)].slice(0, 3);
  };

  /* dB left at 20 kHz on so much of a cable. */
  runs.trebleAt = (run, cable, metres, tables) =>
    runs.treble(runs.parallel(tables.sources[run.source.device].ohm, tables.inputs[run.input.device].ohm), tables.cables[cable].farad * metres, TOP);
})(Ringfence.interference);
