/* What lies beside the run: fields into the pair, the loop and the spare coil; capacitance of live wires. The twin of nearby.py. */

import { fromDb, omega, parallel } from "./formulas/basics.js";
import { twoWires } from "./formulas/electric.js";
import { cableField, falling, twist as twistOf, wire } from "./formulas/field.js";
import {
  coilArea as coilAreaOf,
  crossing,
  loopBesideDipole,
  stripBesideCable,
  stripBesideWire,
  twistedArea,
  untwistedArea,
} from "./formulas/pickup.js";

const HIGH_OHM = 10e3,
  LEAST_GAP = 1.05,
  CONNECTORS = ["pair", "quad", "open pair"],
  WORN = [0.03, 0.1, 0.3];

export const lengthOf = (run) => run.leads.reduce((sum, lead) => sum + lead.length, 0);
export const longest = (run) => run.leads.reduce((most, lead) => (lead.length > most.length ? lead : most));

/* {pair, loop, coil}: lists of {volts, shape}, volts at the mains frequency if all of the current were there. */
export function fields(run, tables, guess, end) {
  const found = { pair: [], loop: [], coil: [] },
    w = omega(run.hertz),
    facing = guess.constant("alignment", end);
  for (const one of run.beside) cableFields(found, one, w, facing, { run, tables, guess, end });
  for (const thing of run.things) thingFields(found, thing, w, facing, { run, tables, guess, end });
  if (run.spare)
    found.coil.push({
      volts: w * guess.constant("room-field", end) * coilArea(run, guess, end) * facing,
      shape: "sine",
    });
  return found;
}

function cableFields(found, one, w, facing, { run, tables, guess, end }) {
  const [amps, shape] = currentOf(one, tables, guess, end),
    row = tables.mains[one.cable];
  guess.note(row, row.name);
  const spacing = row.spacing[end],
    lay = row.lay[end],
    alone = row.alone[end],
    { distance } = one;
  const along = alongOf(one, run),
    misfit = misfitOf(one, guess, end);
  const area = pairArea(run, tables, guess, end, along) + connector(run, tables, guess, end);
  found.pair.push(
    { volts: w * amps * cableField(1, spacing, lay, distance) * area * facing * misfit, shape },
    { volts: w * wire(alone, distance) * area * facing * misfit, shape: "sine" },
  );
  const width = guess.constant("loop-width", end),
    twist = lay ? twistOf(distance, lay) : 1;
  const strip = stripBesideCable(spacing, twist, distance, width);
  found.loop.push(
    { volts: w * amps * along * strip * facing * misfit, shape },
    { volts: w * alone * along * stripBesideWire(distance, width) * facing * misfit, shape: "sine" },
  );
  if (!run.spare) return;
  const away = run.spare.distance || distance,
    turns = coilArea(run, guess, end) * w * facing;
  found.coil.push(
    { volts: turns * amps * cableField(1, spacing, lay, away), shape },
    { volts: turns * wire(alone, away), shape: "sine" },
  );
}

function thingFields(found, thing, w, facing, { run, tables, guess, end }) {
  const row = tables.things[thing.thing],
    at = row.at[end],
    shape = tables.waves[row.wave].shapes[end];
  guess.note(row, row.name);
  const away = Math.max(thing.distance, at),
    tesla = falling(row.field[end], at, away);
  const area = pairArea(run, tables, guess, end, Math.min(2 * away, lengthOf(run)));
  found.pair.push({ volts: w * tesla * area * facing, shape });
  found.loop.push({ volts: w * tesla * loopBesideDipole(away) * facing, shape });
  if (!run.spare) return;
  const there = falling(row.field[end], at, Math.max(run.spare.distance || thing.distance, at));
  found.coil.push({ volts: w * there * coilArea(run, guess, end) * facing, shape });
}

/* Amps of a mains cable and the shape of their wave. */
export function currentOf(one, tables, guess, end) {
  const load = tables.loads[one.load],
    wave = tables.waves[load.wave];
  if (!one.amps) guess.note(load, load.name, load.amps, "A");
  guess.note(wave, wave.name);
  return [one.amps || load.amps[end], wave.shapes[end]];
}

const alongOf = (one, run) => Math.min(one.along || lengthOf(run), lengthOf(run));
const misfitOf = (one, guess, end) =>
  one.lies === "crossing" ? crossing(guess.constant("angle-off", end)) : 1;

function pairArea(run, tables, guess, end, along) {
  const row = tables.cables[longest(run).cable];
  if (row.build === "coax") return 0;
  if (row.build === "two wires") return untwistedArea(row.spacing, along);
  const area = twistedArea(row.spacing, row.lay[end], along, guess.constant("uneven-lay", end));
  return row.build === "quad" ? area * fromDb(-guess.constant("quad", end)) : area;
}

const connector = (run, tables, guess, end) =>
  CONNECTORS.includes(tables.cables[longest(run).cable].build) ? guess.constant("connector-area", end) : 0;

function coilArea(run, guess, end) {
  const area = coilAreaOf(run.spare.turns, run.spare.across);
  return run.spare.lies === "figure of eight" ? area * guess.constant("figure-of-eight", end) : area;
}

/* {all, ohm, ownFarad, uneven}: live wires that the screen does not keep out. */
export function electric(run, tables, guess, end) {
  const source = tables.sources[run.source.device],
    input = tables.inputs[run.input.device],
    lead = longest(run);
  const row = tables.cables[lead.cable],
    ohm = parallel(source.ohm, input.ohm);
  const ownFarad = run.leads.reduce((sum, one) => sum + tables.cables[one.cable].farad * one.length, 0);
  const leak =
    lead.screen === "open at both ends"
      ? 1
      : lead.screen === "worn"
        ? Math.max(row.leak[end], WORN[end])
        : row.leak[end];
  if (leak < 0.05 && ohm <= HIGH_OHM && lead.screen !== "worn") return { all: [], ohm, ownFarad, uneven: 1 };
  const all = run.beside.map((one) => {
    const [, shape] = currentOf(one, tables, guess, end),
      thick = guess.constant("wire-diameter", end);
    const metre = twoWires(Math.max(one.distance, LEAST_GAP * thick), thick);
    const farad =
      metre * alongOf(one, run) * guess.constant("one-pole", end) * leak * misfitOf(one, guess, end);
    return { volts: run.volts, farad, shape: shape.startsWith("dimmer") ? shape : "sine" };
  });
  const pairs = input.balanced && CONNECTORS.includes(row.build);
  return { all, ohm, ownFarad, uneven: pairs ? guess.constant("capacitance-balance", end) : 1 };
}
