/* The cures as changes of a run. The twin of changes.py. */

import { rowOf } from "./between.js";
import { longest } from "./nearby.js";
import { isBalanced, TYPICAL } from "./numbers.js";

const BETTER = {
  "coax-thin": "coax-heavy",
  "instrument-lead": "coax-heavy",
  "headphone-lead": "coax-heavy",
  "zip-cord": "coax-heavy",
  "foil-pair": "mic-pair",
  "served-pair": "mic-pair",
  "network-pair": "mic-pair",
  "digital-pair": "mic-pair",
  "video-coax": "coax-heavy",
};
const TWISTED = {
  "lamp-lead": "flex",
  "flat-feeder": "round-feeder",
  "single-cores": "round-feeder",
  "loudspeaker-or-busbar": "round-feeder",
};
const of = (map, key) => (Object.hasOwn(map, key) ? map[key] : key);
const unmeasured = (run, change) => ({ ...run, measured_volts: 0, measured_amps: 0, ...change });
const leads = (run, change) => ({ ...run, leads: run.leads.map((lead) => ({ ...lead, ...change(lead) })) });
const beside = (run, change) => ({ ...run, beside: run.beside.map((one) => ({ ...one, ...change(one) })) });
const pairs = (run) => leads(run, () => ({ cable: "mic-pair", cold: "through", screen: "whole" }));
const isLine = (row) => ["line", "headphone"].includes(row.kind);
const both = (run, tables) => [tables.sources[run.source.device], tables.inputs[run.input.device]];

/* Everything near, so many times as far. */
export const scaled = (run, times) => ({
  ...beside(run, (one) => ({ distance: one.distance * times })),
  things: run.things.map((one) => ({ ...one, distance: one.distance * times })),
});

const onMains = (run) =>
  ["insulated", "earthed"].flatMap((powered) =>
    ["source", "input"].filter((side) => run[side].powered === powered),
  );

/* The device to run from a battery, and the better cable, in words. */
export function mainsDevice(run, tables) {
  const [side] = onMains(run);
  return side ? tables[side === "source" ? "sources" : "inputs"][run[side].device].name : "the device";
}
const better = function (cable, run, tables) {
  const [source, input] = both(run, tables);
  return tables.cables[cable].build === "two wires" && source.balanced && input.balanced
    ? "mic-pair"
    : of(BETTER, cable);
};
export const betterName = (run, tables) => tables.cables[better(longest(run).cable, run, tables)].name;

/* id -> (run, tables) -> the run with the cure, or null where it does not apply. */
export const CHANGES = {
  "same-strip": (run) =>
    run.source.powered !== "earthed" || run.input.powered !== "earthed" || run.sockets === "same strip"
      ? null
      : unmeasured(run, { sockets: "same strip", dimmers: false }),
  undim: (run, tables) => ({
    ...beside(run, (one) =>
      tables.loads[one.load].wave === "dimmer"
        ? { load: "lamp", amps: one.amps || tables.loads[one.load].amps[TYPICAL] }
        : {},
    ),
    dimmers: false,
  }),
  away: (run) => (run.beside.length || run.things.length ? scaled(run, 2) : null),
  cross: (run) => beside(run, () => ({ lies: "crossing" })),
  uncoil: (run) => ({ ...run, spare: null }),
  "figure-of-eight": (run) =>
    run.spare ? { ...run, spare: { ...run.spare, lies: "figure of eight" } } : null,
  battery(run) {
    const [side] = onMains(run);
    return side ? unmeasured(run, { [side]: { ...run[side], powered: "battery" } }) : null;
  },
  mend: (run) => leads(run, () => ({ screen: "whole" })),
  "contact-one": (run) => ({
    ...run,
    source: { ...run.source, contact_one: false },
    input: { ...run.input, contact_one: false },
  }),
  bond: (run, tables) =>
    run.bond || [run.source.powered, run.input.powered].includes("battery")
      ? null
      : { ...run, bond: tables.constants.bond.values[TYPICAL] },
  half: (run) =>
    leads(
      beside(run, (one) => ({ along: one.along / 2 })),
      (lead) => ({ length: lead.length / 2 }),
    ),
  cable: (run, tables) => leads(run, (lead) => ({ cable: better(lead.cable, run, tables) })),
  quad: (run, tables) =>
    run.leads.every((lead) => ["pair", "open pair"].includes(tables.cables[lead.cable].build))
      ? leads(run, () => ({ cable: "star-quad" }))
      : null,
  "two-core"(run, tables) {
    const [source, input] = both(run, tables);
    return input.balanced && !source.balanced && !isBalanced(run, tables) ? pairs(run) : null;
  },
  transformer: (run, tables) =>
    isLine(both(run, tables)[0]) && rowOf(run, tables).ohm ? { ...run, transformer: true } : null,
  balanced(run, tables) {
    const [source, input] = both(run, tables),
      done = source.balanced && input.balanced && isBalanced(run, tables);
    if (!isLine(source) || input.kind !== "line" || done) return null;
    return pairs({
      ...run,
      source: { ...run.source, device: "line-balanced" },
      input: { ...run.input, device: "line-input" },
    });
  },
  "transformer-input"(run, tables) {
    const [, input] = both(run, tables);
    if (!isBalanced(run, tables) || !input.common || !["line", "microphone"].includes(input.kind))
      return null;
    return {
      ...run,
      input: { ...run.input, device: `${input.kind === "microphone" ? "mic" : "line"}-input-transformer` },
    };
  },
  "twist-feeder": (run) => beside(run, (one) => ({ cable: of(TWISTED, one.cable) })),
};
