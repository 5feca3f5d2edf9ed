/* A run turned into plain numbers at the quiet end, typical, and at the loud end of what is guessed. The twin of numbers.py. */

import { chassis } from "./between.js";
import { fromDb, together } from "./formulas/basics.js";
import { divider as dividerOf } from "./formulas/chassis.js";
import { microphoneVolts } from "./formulas/hearing.js";
import { guesses as guessesOf } from "./guesses.js";
import { electric, fields, lengthOf } from "./nearby.js";

const PAIRS = ["pair", "quad", "open pair"],
  SHORT = 30;
export const QUIET = 0;
export const TYPICAL = 1;
export const LOUD = 2;
export const ENDS = [0, 1, 2];

export const isBalanced = (run, tables) =>
  tables.inputs[run.input.device].balanced &&
  run.leads.every(
    (lead) => PAIRS.includes(tables.cables[lead.cable].build) && lead.cold !== "to the screen at the input",
  );

/* Volts of what is wanted, unloaded. */
export const wanted = (source, tables) =>
  source.kind === "microphone" ? microphoneVolts(source.level, tables.hearing.talker.value) : source.level;

export function numbers(run, tables, end, guesses) {
  const guess = guesses || guessesOf(run, tables),
    source = tables.sources[run.source.device],
    input = tables.inputs[run.input.device];
  guess.note(source, source.name);
  guess.note(input, input.name);
  const balanced = isBalanced(run, tables),
    alike = source.balanced && run.leads.every((lead) => lead.cold === "through");
  const near = fields(run, tables, guess, end),
    coupled = electric(run, tables, guess, end);
  const divider = dividerOf(source.ohm, input.ohm),
    wandering = run.source.contact_one || run.input.contact_one;
  const n = {
    worst: end === LOUD,
    balanced,
    sourceOhm: source.ohm,
    inputOhm: input.ohm,
    divider,
    imbalance: guess.given("imbalance", alike ? source.imbalance : source.ohm),
    leg: alike ? source.ohm / 2 : 0,
    common: input.common,
    commonFarad: input.farad,
    rejection: fromDb(-guess.given("rejection", input.rejection[end])),
    chassis: chassis(run, tables, guess, end),
    closed: !run.leads.some((lead) => lead.screen.startsWith("open")),
    screenOhm: run.leads.reduce((sum, lead) => sum + returnOhm(lead, tables, guess, end), 0),
    loopHenry: guess.constant("loop-inductance", end) * lengthOf(run),
    bond: run.bond,
    transformer: run.transformer ? guess.constant("transformer", end) : 0,
    induced: near.pair,
    loop: near.loop,
    coil: near.coil,
    electric: coupled.all,
    electricOhm: coupled.ohm,
    ownFarad: coupled.ownFarad,
    uneven: coupled.uneven,
    nearness: balanced
      ? run.leads.reduce((sum, lead) => sum + tables.cables[lead.cable].nearness[end] * lead.length, 0)
      : 0,
    contactOne: wandering ? guess.constant("contact-1", end) : 0,
    wanted: wanted(source, tables) * divider,
    noise: together([input.noise, source.noise * divider]),
  };
  n.inRange = (n.balanced && n.common ? n.common + n.leg : n.sourceOhm + n.inputOhm) > SHORT * n.screenOhm;
  return n;
}

function returnOhm(lead, tables, guess, end) {
  const row = tables.cables[lead.cable];
  guess.note(row, row.name, row.return, "ohm/m");
  return row.return[end] * lead.length + guess.constant("contacts", end);
}
