/* What the length of a connection does: two runs told in one sentence, and treble against length for each kind of cable. The twin of apart.py. */

import { answer } from "./answer.js";
import { parallel } from "./formulas/basics.js";
import { treble } from "./formulas/length.js";

const SHORT = 3,
  LONG = 30,
  UNHEARD = ["inaudible", "in the noise", "under the voice"],
  TOP = 20e3;
const SAYS = [
  "you will hear no hum",
  "you may hear hum",
  "you will hear hum in the pauses",
  "hum drowns the sound",
];
const PAIRS = ["mic-pair", "star-quad", "foil-pair"],
  COAXES = ["coax-heavy", "coax-thin", "instrument-lead"];
export const DIMMER = {
  cable: "round-feeder",
  load: "dimmer-rack",
  amps: 0,
  distance: 0.1,
  along: 10,
  lies: "alongside",
};

/* The same with its first lead so long, beside something. */
export const ofLength = (run, metres, beside = []) => ({
  ...run,
  leads: [{ ...run.leads[0], length: metres }, ...run.leads.slice(1)],
  beside,
});

export function heard(found) {
  if (UNHEARD.includes(found.said)) return UNHEARD.includes(found.worst) ? 0 : 1;
  return found.said === "unusable" ? 3 : 2;
}

export const saysOf = (found) => SAYS[heard(found)];

export function inASentence(run, tables) {
  const near = heard(answer(ofLength(run, SHORT), tables)),
    far = heard(answer(ofLength(run, LONG, [DIMMER]), tables));
  if (near === far) return `Between these two ${SAYS[near]}, on ${SHORT} m as on ${LONG} m beside a dimmer.`;
  return `On ${SHORT} m between these two ${SAYS[near]}; on ${LONG} m beside a dimmer ${SAYS[far]}.`;
}

/* The cable of the run, then the other kinds one would take in its place. */
export function kindsFor(run, tables) {
  const own = run.leads[0].cable,
    pair = ["pair", "quad", "open pair"].includes(tables.cables[own].build);
  return [own, ...(pair ? PAIRS : COAXES).filter((kind) => kind !== own)].slice(0, 3);
}

/* dB left at 20 kHz on so much of a cable. */
export const trebleAt = (run, cable, metres, tables) =>
  treble(
    parallel(tables.sources[run.source.device].ohm, tables.inputs[run.input.device].ohm),
    tables.cables[cable].farad * metres,
    TOP,
  );
