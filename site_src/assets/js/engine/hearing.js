/* Signal readings: from solved signals to the numbers a listener would complain about. The twin of hearing.py. */

import { group } from "./assemble.js";
import { humReadings, screenReadings } from "./chassis.js";
import { BESIDE, HEARD, SUM_FLOOR } from "./constants.js";
import { largestAt, size } from "./currents.js";
import { wayOf } from "./direct.js";
import { BITS, DIGITAL, expected, said, sameKind, TIMECODE, UNHUMMED, UNTURNED } from "./kinds.js";
import { levelReadings, pairWords } from "./levels.js";
import { floored, named, negative, outputReading, shorted, signal, stages } from "./output.js";
import { askedPairs, comparable, inputs, matched, output, outputs, spilled } from "./pairing.js";
import { channelWord, MAIN, at as whereAt } from "./readings.js";
import { decibels, keptInSum, MID, pair } from "./signal.js";
import { sends, settings, switchedOn } from "./switches.js";
import { amplifiers, unsuited } from "./unsuited.js";
import { quantity } from "./words.js";

const different = (items) => [...new Set(items)];
const left = (kept) => Math.max(kept, 10 ** (SUM_FLOOR / 20));

/* Readings in both directions between From and Into. */
export function* signalReadings(assembly, signals) {
  const start = assembly.places.get("from"),
    target = assembly.places.get("into");
  for (const [here, there, device, other] of [
    ["from", "into", start, target],
    ["into", "from", target, start],
  ]) {
    const way = wayOf(assembly, here);
    if (device.sources.length && other.listeners.length) {
      const found = [...switchedOff(assembly, here), ...direction(assembly, signals, here, there)];
      yield* found.map((reading) => ({ ...reading, flags: { ...reading.flags, way } }));
    } else if (other.sources.length || device.listeners.length) {
      yield* device.sources.map((source) =>
        unheard(output(here, source), there, { way: "forth" }, here === "into"),
      );
    }
  }
  if (
    !(start.sources.length && target.listeners.length) &&
    !(target.sources.length && start.listeners.length)
  ) {
    yield signal("path-gain", "connection", "connection", decibels(0), "dB", {
      words: { device: named("from"), other: named("into") },
      flags: { cause: "nothing" },
    });
  }
  yield* amplifiers(assembly);
  yield* stages(signals);
  yield* screenReadings(assembly);
}

/* Sources that a setting turns off. */
function* switchedOff(assembly, here) {
  for (const [number, setting] of settings(assembly.ports).entries()) {
    const on = switchedOn(assembly.ports, setting);
    for (const o of outputs(assembly, here)) {
      if (sends(on, o.place, o.source)) continue;
      yield signal("source-off", o.name, channelWord(o.source.channel), 1, "", {
        setting: number,
        words: { device: named(o.place) },
      });
    }
  }
}

function* direction(assembly, signals, here, there) {
  const sent = outputs(assembly, here),
    heardBy = inputs(assembly, there);
  const sizes = (o, i) => signals.bare.get(pair(o.name, i.name))[MID].map(size);
  const gain = ([o, i]) => Math.min(...sizes(o, i)),
    loud = (pair) => decibels(gain(pair)) > HEARD;
  const every = askedPairs(sent, heardBy),
    beside = spilled(every, loud),
    asked = every.filter((pair) => !beside.includes(pair)),
    same = ([o, i]) => sameKind(o.source, i.listener);
  const alike = comparable(sent, heardBy),
    fit = asked.filter(same);
  const own = fit.filter(([o, i]) => alike.some(([one, other]) => one === o && other === i)),
    pairs = own.length ? own : fit;
  const words = { device: named(here), other: named(there) };
  // The picture beside the sound of an audio and video socket does no harm to a lead that leaves it where it is.
  const apart = asked.find((pair) => !same(pair) && (!pairs.length || loud(pair)));
  if (apart) {
    const kinds = { sent: said(apart[0].source), wanted: expected(apart[1].listener) };
    yield signal("kinds-apart", here, "signal", 1, "", { words: { ...words, ...kinds } });
    return;
  }
  yield* unsuited(assembly, here, there, pairs, beside.some(loud));
  const [number] = largestAt(alike.map((pair) => floored(gain(pair))));
  const loudest = alike[number],
    best = decibels(gain(loudest));
  const cause = sent.some((o) => shorted(signals, o)) ? "shorted" : "open";
  yield signal("path-gain", here, "connection", best, "dB", {
    words,
    flags: { cause },
    ...arrival(signals, ...loudest),
  });
  yield* sent.filter((o) => pairs.every(([other]) => o !== other)).map((o) => unheard(o, there));
  if (best < HEARD) return;
  for (const o of sent) yield outputReading(signals, o);
  const relative = (pair) => decibels(gain(pair)) - best;
  const several = group(assembly, here).length + group(assembly, there).length > 2;
  yield* sidesOfPairs(signals, pairs, relative, best, several);
  const heard = pairs.filter((pair) => relative(pair) > BESIDE);
  for (const [o, i] of heard) yield* levelReadings(signals, o, i, wordsOf(o, i));
  for (const i of heardBy) {
    if (!sent.some((o) => loud([o, i]))) continue;
    yield* listenerReadings(
      signals,
      i,
      sent,
      heard.filter(([, hearing]) => hearing === i).map(([o]) => o),
    );
  }
  for (const o of sent) {
    const hearing = heard.filter(([sender, i]) => sender === o && i.listener.kind !== DIGITAL);
    yield* summed(
      signals,
      o,
      hearing.map(([, i]) => i),
    );
  }
}

const wordsOf = (o, i) => ({
  source: named(o.place, o.source.channel),
  sink: named(i.place, i.listener.channel),
});

/* Where a source is heard least, without the capacitance of cables, and how much of it: {at, terms}. */
function arrival(signals, o, i) {
  const sizes = signals.bare.get(pair(o.name, i.name))[MID].map(size);
  const [state] = largestAt(negative(sizes.map(floored)));
  return {
    at: whereAt("signal", state, i.nodes, { source: o.name, bare: true }),
    terms: [["heard of 1 V", sizes[state], "V"]],
  };
}

/* Every channel against the best one. Where several devices share a lead, a channel without a partner of its name need not
   reach all of them: it has to reach one, and every input has to hear one. Timecode wants one track, and leaves the other to
   the sound. */
function sidesOfPairs(signals, pairs, relative, best, several) {
  const sent = pairs.filter(([o]) => o.source.kind !== TIMECODE);
  const free = sent.filter(([o, i]) => several && !matched(o, i));
  const nearest = [0, 1].flatMap((side) =>
    different(free.map((pair) => pair[side])).map((one) =>
      loudestOf(
        free.filter((pair) => pair[side] === one),
        relative,
      ),
    ),
  );
  const shown = different([...sent.filter((pair) => !free.includes(pair)), ...nearest]);
  return shown.map(function ([o, i]) {
    const { at, terms } = arrival(signals, o, i),
      against = ["heard of the best channel", 10 ** (best / 20), "V"];
    return signal("side-gain", pair(o.name, i.name), pairWords(o, i), relative([o, i]), "dB", {
      words: wordsOf(o, i),
      at,
      terms: [...terms, against],
    });
  });
}

/* The pair that is heard best; of those alike the first. */
const loudestOf = (pairs, relative) => pairs[largestAt(pairs.map((pair) => 10 ** (relative(pair) / 20)))[0]];

/* `spare`: what was plugged in takes nothing, so nobody asked for it. */
function unheard(o, there, way = {}, spare = false) {
  const words = { source: named(o.place, o.source.channel), other: named(there) };
  const flags = { ...way, spare: spare ? "yes" : "no" };
  return signal("unheard", o.name, channelWord(o.source.channel), 1, "", { words, flags });
}

/* What is left of one source when everything that hears it at the other end is summed to mono. */
function* summed(signals, o, heard) {
  for (const place of different(heard.map((i) => i.place))) {
    const here = heard.filter((i) => i.place === place),
      words = here.map((i) => channelWord(i.listener.channel));
    if (here.length < 2) continue;
    const gains = here.map((i) => signals.gains.get(pair(o.name, i.name))[0][MID]);
    const kept = keptInSum(gains).map(left),
      [state] = largestAt(negative(kept));
    const lost = Math.max(decibels(kept[state]), SUM_FLOOR);
    const subject = `${o.name}>${here.map((i) => i.name).join("+")}`;
    yield signal("sides-sum", subject, words.join(" and "), lost, "dB", {
      words: { source: named(o.place, o.source.channel), sink: named(place), sum: falls(lost) },
      at: whereAt("signal", state, here[here.length - 1].nodes, { source: o.name }),
      terms: gains.map((states, n) => [`heard of +1 V at ${words[n]}`, states[state][0], "V"]),
    });
  }
}

/* `drops by 12 dB`, `vanishes`. */
const falls = (kept) => (kept > HEARD ? `drops by ${quantity(-kept, "dB")}` : "vanishes");

function* listenerReadings(signals, i, sent, heard) {
  const words = { sink: named(i.place, i.listener.channel) },
    where = channelWord(i.listener.channel);
  const gains = new Map(sent.map((o) => [o, signals.gains.get(pair(o.name, i.name))[0][MID]]));
  if (gains.size > 1) {
    const every = [...gains.values()],
      kept = keptInSum(every).map(left),
      [state] = largestAt(negative(kept));
    const lost = Math.max(decibels(kept[state]), SUM_FLOOR),
      here = every.map((states) => states[state]);
    const alike = size(here.reduce(([re, im], one) => [re + one[0], im + one[1]], [0, 0]));
    const alone = here.reduce((all, one) => all + size(one), 0);
    yield signal("mono-sum", i.name, where, lost, "dB", {
      words: { ...words, sum: falls(lost) },
      at: whereAt("signal", state, i.nodes, { source: sent[0].place }),
      terms: [
        ["heard with 1 V on every channel alike", alike, "V"],
        ["heard of each channel alone, added", alone, "V"],
      ],
    });
  }
  if (heard.length && !UNTURNED.includes(i.listener.kind)) yield* polarity(signals, i, heard, gains, words);
  yield* strays(i, sent, gains);
  if (!UNHUMMED.includes(i.listener.kind)) yield* humReadings(signals, i, heard);
}

/* All that is heard upside down is reversed, where the plug lands worst; one of several upside down is what the mono sum
   tells. A plug that goes in two ways round is told of apart: a person sees its marks. */
function* polarity({ assembly }, i, heard, gains, words) {
  const turned = [...assembly.turned, ...(assembly.joined.length ? assembly.turned : [])];
  const source = named(heard[0].place, heard.length === 1 ? heard[0].source.channel : MAIN);
  for (const [quantity, wanted] of [
    ["polarity", false],
    ["polarity-turned", true],
  ]) {
    const states = [...turned.keys()].filter((state) => turned[state] === wanted);
    if (!states.length) continue;
    const worst = heard.map(function (o) {
      const real = states.map((state) => gains.get(o)[state][0] / size(gains.get(o)[state]));
      const [at] = largestAt(negative(real));
      return { value: real[at], o, state: states[at] };
    });
    const [number] = largestAt(worst.map(({ value }) => value)),
      { value, o, state } = worst[number];
    yield signal(quantity, i.name, channelWord(i.listener.channel), value, "", {
      words: { ...words, source },
      flags: { bits: BITS.includes(i.listener.kind) ? "yes" : "no" },
      at: whereAt("signal", state, i.nodes, { source: o.name }),
      terms: [["heard of +1 V", gains.get(o)[state][0], "V"]],
    });
  }
}

/* Channels heard where another belongs. */
function* strays(i, sent, gains) {
  const own = sent.filter((o) => matched(o, i)),
    least = (o) => Math.min(...gains.get(o).map(size));
  if (!own.length) return;
  const belongs = Math.min(...own.map(least)),
    right = Math.max(decibels(belongs), HEARD);
  for (const o of sent.filter((one) => !matched(one, i))) {
    const sizes = gains.get(o).map(size),
      [state] = largestAt(sizes.map(floored));
    const subject = pair(o.name, i.name),
      where = channelWord(i.listener.channel);
    yield signal("crosstalk", subject, where, decibels(sizes[state]) - right, "dB", {
      words: wordsOf(o, i),
      at: whereAt("signal", state, i.nodes, { source: o.name }),
      terms: [
        ["heard of 1 V of this channel", sizes[state], "V"],
        ["heard of 1 V of the one that belongs there", belongs, "V"],
      ],
    });
  }
}
