/* What helps this run, and by how much; the reading worth taking. The twin of remedies.py and reading.py. */

import { totalHeard } from "./answer.js";
import { chassis } from "./between.js";
import { betterName, CHANGES, mainsDevice, scaled } from "./changes.js";
import { ferriteLoss } from "./formulas/aerial.js";
import { db, omega, parallel } from "./formulas/basics.js";
import { treble } from "./formulas/length.js";
import { guesses } from "./guesses.js";
import { LOUD, QUIET, TYPICAL } from "./numbers.js";

const FARTHER = 10,
  FEW = 0.5,
  FARTHEST = 32;
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
const gainOf = (before, after) => (after ? db(before / after) : before ? null : 0);
const rank = (one) => (one.gains[TYPICAL] === null ? 999 : Math.round(one.gains[TYPICAL] * 1e6) / 1e6); // alike but for rounding: by cost

/* One cure by its id: {id, words, gains, radio, of}; null where it does not apply or makes it worse. `before` is totalHeard of the run. */
export function cure(id, run, tables, before) {
  const of = CHANGES[id] ? CHANGES[id](run, tables) : null;
  if (!of || same(of, run)) return null;
  const after = totalHeard(of, tables),
    gains = before.map((one, end) => gainOf(one, after[end])),
    typical = gains[TYPICAL];
  const words = tables.remedies[id].words
    .replace("{device}", mainsDevice(run, tables))
    .replace("{cable}", betterName(run, tables));
  return typical === null || typical > -FEW ? { id, words, gains, radio: null, of } : null;
}

/* Cures best first, and behind them those for radio. */
export const ranked = (found, run, tables) => [
  ...found.filter(Boolean).sort((one, other) => rank(other) - rank(one)),
  ...forRadio(run, tables),
];

export function remedies(run, tables) {
  const before = totalHeard(run, tables);
  return ranked(
    Object.keys(tables.remedies).map((id) => cure(id, run, tables, before)),
    run,
    tables,
  );
}

function forRadio(run, tables) {
  if (!run.transmitters.length) return [];
  const cure = (id, radio, of) => ({ id, words: tables.remedies[id].words, gains: [0, 0, 0], radio, of });
  const { ohm } = tables.chokes.ring;
  const farther = {
    ...run,
    transmitters: run.transmitters.map((one) => ({ ...one, distance: one.distance * FARTHER })),
  };
  return [
    ...(run.ferrite ? [] : [cure("ferrite", ferriteLoss(ohm), { ...run, ferrite: ohm })]),
    cure("farther", db(FARTHER), farther),
    cure("length", null, run),
  ];
}

/* How many times as far everything near must be for 6 dB; null where distance does not bring it. */
export function sixDecibels(run, tables) {
  const before = totalHeard(run, tables)[TYPICAL];
  const reached = function (times) {
    const after = totalHeard(scaled(run, times), tables)[TYPICAL];
    return after === 0 || db(before / after) >= 6;
  };
  if (!before || !(run.beside.length || run.things.length) || !reached(FARTHEST)) return null;
  let low = 1,
    high = FARTHEST;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/* {volts, amps, now, then}: what a meter would typically show, and the spread of the answer in dB without and with it. */
export function reading(run, tables) {
  if (run.measured_volts || run.measured_amps || [run.source.powered, run.input.powered].includes("battery"))
    return null;
  const expected = chassis(run, tables, guesses(run, tables), TYPICAL);
  const reactance = expected.farad ? 1 / (omega(run.hertz) * expected.farad) : 0,
    amps = expected.volts / Math.hypot(expected.ohm, reactance);
  const then = { ...run, measured_volts: expected.volts, measured_amps: amps };
  return { volts: expected.volts, amps, now: spread(run, tables), then: spread(then, tables) };
}

function spread(run, tables) {
  const heard = totalHeard(run, tables);
  return heard[QUIET] ? db(heard[LOUD] / heard[QUIET]) : null;
}

/* dB left at 20 kHz. */
export function trebleOf(run, tables) {
  const source = tables.sources[run.source.device],
    input = tables.inputs[run.input.device];
  const farad = run.leads.reduce((sum, lead) => sum + tables.cables[lead.cable].farad * lead.length, 0);
  return treble(parallel(source.ohm, input.ohm), farad, 20e3);
}
