/* How loud it arrives, and how much treble and bass is left: readings of one source at one listener. The twin of
   levels.py. */

import { net, valuesAt } from "./circuit.js";
import { HERTZ, PICKUP, SHOUT } from "./constants.js";
import { largestAt, signalVolts, size as sizeOf } from "./currents.js";
import { once } from "./kept.js";
import { AUDIO, PHONES } from "./kinds.js";
import { padWords } from "./pad.js";
import { channelWord, reading as readingOf, at as whereAt } from "./readings.js";
import { decibels, driveOf, HIGH, LOW, loudest, MID, pair } from "./signal.js";
import { solveAc } from "./solve.js";
import { quantity as quantityOf } from "./words.js";

const reading = (quantity, pair, where, value, unit, more) =>
  readingOf(quantity, pair, where, value, unit, "signal", more);
const highest = (numbers) => numbers.reduce((most, one) => Math.max(most, one));
const negative = (numbers) => numbers.map((one) => -one);

/* `left to signal`, or one word where both are called alike. */
export const pairWords = (o, i) =>
  [...new Set([channelWord(o.source.channel), channelWord(i.listener.channel)])].join(" to ");

/* Too hot, too quiet, treble and bass. */
export function* levelReadings(signals, o, i, words) {
  const s = o.source,
    l = i.listener;
  const name = pair(o.name, i.name),
    where = pairWords(o, i);
  const size = signals.gains.get(name)[0].map((states) => states.map(sizeOf));
  const at = (values, level, hertz = HERTZ[MID]) =>
    whereAt("signal", largestAt(values)[0], i.nodes, { hertz, source: o.name, level });
  const terms = (level, heard, against, what) => [
    ["at the source, open", level, "V"],
    ["at the input", level * heard, "V"],
    [what, against, "V"],
  ];

  if (l.maximum && loudest(s)) {
    const loud = loudest(s),
      most = highest(size[MID]),
      atMost = "the most the input takes";
    const over = decibels((loud * most) / l.maximum);
    yield reading("over-level", name, where, over, "dB", {
      words: { ...words, pad: padWords(over), stands: stands(over) },
      flags: { source: which(s, l) },
      at: at(size[MID], loud),
      terms: terms(loud, most, l.maximum, atMost),
    });
    if (s.kind === "microphone" && s.nominal) {
      const shout = shoutOf(s),
        shouted = decibels((shout * most) / l.maximum);
      yield reading("shout-level", name, where, shouted, "dB", {
        words: { ...words, pad: padWords(shouted) },
        at: at(size[MID], shout),
        terms: terms(shout, most, l.maximum, atMost),
      });
    }
  }
  if (l.sensitivity && s.nominal) {
    const least = -highest(negative(size[MID])),
      under = -decibels((s.nominal * least) / l.sensitivity);
    yield reading("under-level", name, where, under, "dB", {
      words: { ...words, stands: stands(-under) },
      at: at(negative(size[MID]), s.nominal),
      terms: terms(s.nominal, least, l.sensitivity, "the least the input is made for"),
    });
  }
  if (AUDIO.includes(s.kind) && !(l.maximum && l.sensitivity && s.maximum && s.nominal)) {
    yield reading("unknown-level", name, where, 1, "", { words });
  }
  const own = signals.openOutput.get(o.name).map(sizeOf);
  for (const [quantity, edge] of [
    ["treble", HIGH],
    ["bass", LOW],
  ]) {
    if (quantity === "treble" && s.kind === "instrument") {
      yield pickup(signals, o, i, where, name, words);
      continue;
    }
    const less = size[edge].map((one, state) => -(one / size[MID][state]) / (own[edge] / own[MID]));
    const [state] = largestAt(less),
      heard = `heard of 1 V at ${quantityOf(HERTZ[edge], "Hz")}`;
    yield reading(quantity, name, where, decibels(highest(less)), "dB", {
      words,
      at: at(less, 1, HERTZ[edge]),
      terms: [
        [heard, size[edge][state], "V"],
        ["at 1 kHz", size[MID][state], "V"],
      ],
    });
  }
}

/* Treble where a pickup has any, against 1 kHz, plugged against unplugged. */
function pickup({ assembly }, o, i, where, name, words) {
  const { circuit } = assembly,
    states = [...assembly.settled, assembly.apart],
    apart = assembly.settled.length;
  const drive = driveOf(o.place, o.source),
    hertz = [HERTZ[MID], PICKUP];
  const solved = () => solveAc(circuit, [valuesAt(circuit, "nominal")], hertz, states, [drive]),
    [found] = once(assembly, `pickup ${o.name}`, solved, 4 * states.length * circuit.size);
  const across = function (nodes) {
    const [a, b] = nodes.map((node) => net(circuit, node));
    return found.map((solved) => solved.map(([one]) => sizeOf(signalVolts(one, a, b))));
  };
  const heard = across(i.nodes).map((sizes) => sizes.slice(0, apart));
  const own = across(o.source.output.map((node) => `${o.place}/${node}`)).map((sizes) => sizes[apart]);
  const less = heard[1].map((one, state) => -(one / heard[0][state]) / (own[1] / own[0]));
  const [state] = largestAt(less),
    label = `heard of 1 V at ${quantityOf(PICKUP, "Hz")}`;
  return reading("pickup-treble", name, where, decibels(less[state]), "dB", {
    words,
    at: whereAt("signal", state, i.nodes, { hertz: PICKUP, source: o.name }),
    terms: [
      [label, heard[1][state], "V"],
      ["at 1 kHz", heard[0][state], "V"],
    ],
  });
}

/* What a voice shouting close by makes a microphone give, V rms: never more than it can. */
const shoutOf = (source) => Math.min(source.nominal * 10 ** (SHOUT / 20), loudest(source));

/* Whose full level is loud: of a microphone in loud places, of phones at full volume, or any other's. */
function which(source, listener) {
  if (source.kind === "microphone") return "microphone";
  return source.kind === PHONES && listener.kind === PHONES ? PHONES : "other";
}

/* `12 dB below`, `3 dB above`. */
const stands = (over) => `${quantityOf(Math.abs(over), "dB")} ${over > 0 ? "above" : "below"}`;

export { shoutOf as shout };
