/* Radio near a run: three steps, never volts. The twin of radio.py. */

import { clearDistance, ferriteLoss, proximityField, quarterWaves, wave } from "./formulas/aerial.js";
import { lengthOf } from "./nearby.js";

export const STEPS = ["unlikely", "test it", "expect it"];

export const radio = (run, tables, balanced) =>
  run.transmitters.map((one) => heard(one, run, tables, balanced));

function heard(one, run, tables, balanced) {
  const row = tables.transmitters[one.transmitter],
    rules = tables.radio,
    watts = one.watts || row.watts,
    factor = rules.factor.values[2];
  const loss = run.ferrite ? 10 ** (-ferriteLoss(run.ferrite) / 20) : 1,
    field = proximityField(watts, one.distance, factor);
  const tuned = row.hertz.some((hertz) => isTuned(lengthOf(run), hertz, rules)),
    why = worse(run, tables, balanced, tuned);
  const felt = field * loss,
    step = felt >= rules.expect.value ? 2 : felt >= rules.test.value ? 1 : 0;
  return {
    transmitter: one.transmitter,
    distance: one.distance,
    field,
    step: STEPS[Math.min(2, step + (why.length ? 1 : 0))],
    why,
    clear: clearDistance(watts, rules.test.value, factor) * loss,
    tuned,
    near: one.distance < wave(Math.min(...row.hertz)) / 6,
  };
}

/* Within a share of an odd quarter wave; not asked of runs so long that nobody can know. */
function isTuned(length, hertz, rules) {
  if (length > rules.longest.value * wave(hertz)) return false;
  const quarters = quarterWaves(length, hertz, rules.velocity.value),
    odd = 2 * Math.max(0, Math.floor(quarters / 2)) + 1;
  return Math.abs(quarters - odd) <= rules.tuned.value;
}

function worse(run, tables, balanced, tuned) {
  const open = run.leads.some(
    (lead) => lead.screen !== "whole" || tables.cables[lead.cable].screen === "none",
  );
  return [
    [!balanced, "unbalanced"],
    [run.source.contact_one || run.input.contact_one, "contact 1"],
    [open, "screen"],
    [tables.inputs[run.input.device].kind === "microphone", "high gain"],
    [tuned, "length"],
  ]
    .filter(([is]) => is)
    .map(([, why]) => why);
}
