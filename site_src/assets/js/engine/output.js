/* What a source's own output meets: the load it sees, what that costs, and the current through its stages. The twin of that part of hearing.py. */

import { GAIN_FLOOR, NO_PATH, SHORT_SHARE, SHORTED } from "./constants.js";
import { largestAt, size } from "./currents.js";
import { AMPLIFIED } from "./kinds.js";
import { output } from "./pairing.js";
import { MAIN, Named, reading, at as whereAt } from "./readings.js";
import { decibels, MID } from "./signal.js";
import { quantity } from "./words.js";

export const signal = (quantity, subject, where, value, unit, more) =>
  reading(quantity, subject, where, value, unit, "signal", more);
export const named = (place, channel) => new Named(place, channel);
export const negative = (numbers) => numbers.map((one) => -one);
export const floored = (gain) => Math.max(gain, GAIN_FLOOR); // what is below is nothing, and no case of it is worse

const outputWord = ({ source }) => (source.channel === MAIN ? "output" : `${source.channel} output`);

/* A source's own output at 1 kHz: volts with nothing plugged, and plugged, [state]. */
const atOutput = (signals, o) => [
  size(signals.openOutput.get(o.name)[MID]),
  signals.output.get(o.name)[MID].map(size),
];

/* Level lost at a source's own output because of what is plugged into it, dB at 1 kHz. */
function drop(signals, o) {
  const [open, plugged] = atOutput(signals, o);
  return decibels(open) - decibels(Math.min(...plugged));
}

/* Is next to nothing left at the output, or does an amplifier see a small part of the least load it is made for? */
export function shorted(signals, o) {
  const least = AMPLIFIED.includes(o.source.kind) ? o.source.least_load : null;
  const low = () => Math.min(...signals.load.get(o.name)) < SHORT_SHARE * least;
  return drop(signals, o) > SHORTED || Boolean(least && low());
}

/* The load an output sees against the least it is made for; where none is named, what it costs. */
export function outputReading(signals, o) {
  const lost = drop(signals, o),
    where = outputWord(o),
    nodes = o.source.output.map((node) => `${o.place}/${node}`);
  const words = { source: named(o.place, o.source.channel), drop: quantity(lost, "dB") };
  const at = (state) => whereAt("signal", state, nodes, { source: o.name });
  if (o.source.least_load) {
    const load = signals.load.get(o.name),
      [plugged, free] = signals.loads.get(o.name);
    const [state] = largestAt(negative(load)),
      unplugged = "impedance at the output, nothing plugged";
    return signal("load-ohm", o.name, where, Math.min(load[state], NO_PATH), "ohm", {
      limit: o.source.least_load,
      words,
      at: at(state),
      terms: [
        [unplugged, free, "ohm"],
        ["plugged", plugged[state], "ohm"],
      ],
    });
  }
  const [free, left] = atOutput(signals, o),
    [state] = largestAt(negative(left.map(floored)));
  const terms = [
    ["at the output, nothing plugged", free, "V"],
    ["plugged", left[state], "V"],
  ];
  return signal("load-drop", o.name, where, lost, "dB", { words, at: at(state), terms });
}

/* The current through every output stage: its own at full level, and what the other outputs push into it. */
export function* stages(signals) {
  const all = [...signals.sources];
  for (const [column, [name, [place, source]]] of all.entries()) {
    const { stages: parts, amps } = signals.stageAmps(name),
      o = output(place, source);
    if (!parts.length) continue;
    const others = [...all.keys()].filter((k) => all[k][1][0] !== place);
    const words = { source: named(place, source.channel) };
    for (const [quantity, counted, flags] of [
      ["forced-amps", others, {}],
      ["driven-amps", [column], { kind: source.kind }],
    ]) {
      const sum = (sources) => counted.reduce((total, k) => total + sources[k], 0);
      const [stage, corner, edge, state] = largestAt(
        amps.map((corners) => corners.map((edges) => edges.map((states) => states.map(sum)))),
      );
      const here = amps[stage][corner][edge][state],
        found = sum(here);
      const main = found ? counted[largestAt(counted.map((k) => here[k]))[0]] : column;
      const at = () => signals.stageAt(parts[stage], corner, edge, state, all[main][0]);
      const terms = counted.length > 1 ? counted.map((k) => [`from ${all[k][0]}`, here[k], "A"]) : [];
      yield signal(quantity, name, outputWord(o), found, "A", {
        words,
        flags,
        at: found ? at() : null,
        terms,
      });
    }
  }
}
