/* What lies between the two chassis: the screen's resistance, how well the connection keeps a difference out, and what hum
   that leaves. The twin of chassis.py. */

import { EARTHS } from "./assemble.js";
import { net, netName, pieces, resistive, SIGNAL_OPENS, valuesAt } from "./circuit.js";
import { BEST_REJECTION, HUM_FLOOR, MAINS, NO_PATH, VOICE } from "./constants.js";
import { largestAt, signalVolts, size as sizeOf } from "./currents.js";
import { once } from "./kept.js";
import { ONE_SIDED } from "./kinds.js";
import { channelWord, Named, reading as readingOf, at as whereAt } from "./readings.js";
import { decibels, humHertz, MID, pair, signalCorners } from "./signal.js";
import { solveAc } from "./solve.js";
import { quantity } from "./words.js";

const SIDES = ["from", "into"];
const reading = (quantity, subject, where, value, unit, more) =>
  readingOf(quantity, subject, where, value, unit, "signal", more);

/* How well a listener is kept from a difference between the chassis, and how far below the wanted signal what is left of
   it lies, for every way the two may be powered. */
export function* humReadings(signals, i, heard) {
  const balance = signals.balance.get(i.name),
    { assembly } = signals,
    source = EARTHS;
  if (!balance) return;
  const corners = signalCorners(assembly.circuit),
    words = { sink: new Named(i.place, i.listener.channel) };
  const balanced = i.listener.balanced || heard.some((o) => o.source.balanced) ? "yes" : "no";
  const where = channelWord(i.listener.channel);
  const told = balance.map((edges) =>
    edges.map((states) => states.map((one) => Math.max(one, 10 ** (-BEST_REJECTION / 20)))),
  );
  const [corner, at, state] = largestAt(told),
    worst = balance[corner][at][state];
  yield reading("hum-rejection", i.name, where, Math.min(-decibels(worst), BEST_REJECTION), "dB", {
    words,
    flags: { balanced },
    terms: [["heard of a volt between the chassis", worst, "V"]],
    at: whereAt("hum", state, i.nodes, {
      corner: corners[corner],
      hertz: humHertz()[at],
      source,
      level: 1 / signals.between[corner][at][state],
    }),
  });
  const levels = heard.map((o) => wanted(signals, o, i)).filter(Boolean);
  if (!levels.length) return;
  const least = Math.min(...levels),
    found = assembly.pairs.map(function (pair, number) {
      const volts = signals.hum
        .get(i.name)
        [number].map((each) => each.map((one) => Math.max(one, 10 ** (HUM_FLOOR / 20) * least)));
      const [row, state] = largestAt(volts),
        left = volts[row][state];
      const at = { corner: corners[row], hertz: MAINS, source, level: pair.volts, pair: number };
      const below = decibels(least) - decibels(left);
      return { below, number, pair, left, at: whereAt("hum", state, i.nodes, at) };
    });
  const lowest = Math.min(...found.map(({ below }) => below));
  for (const { below, number, pair, left, at } of found) {
    yield reading("hum-below", `${i.name}@${number}`, where, below, "dB", {
      words: { ...words, pair: pair.says, hum: quantity(left, "V") },
      flags: { balanced, worst: below === lowest ? "yes" : "no", pair: pair.says },
      at,
      terms: [
        ["wanted there", least, "V"],
        ["hum there", left, "V"],
      ],
    });
  }
}

/* What is wanted at a listener, V rms: the nominal level, of a microphone a voice; null where it is not known. */
function wanted(signals, o, i) {
  if (!o.source.nominal) return null;
  const size = Math.min(...signals.gains.get(pair(o.name, i.name))[0][MID].map(sizeOf));
  return size * o.source.nominal * (o.source.kind === "microphone" ? 10 ** (VOICE / 20) : 1);
}

/* The resistance between the two chassis: a screen has next to none, a detour through signal legs has kilohms. */
export function* screenReadings(assembly) {
  const kinds = SIDES.flatMap((place) => assembly.places.get(place).sources.map(({ kind }) => kind));
  if (!assembly.linked || (kinds.length && kinds.every((kind) => ONE_SIDED.includes(kind)))) return;
  const ohms = once(assembly, "screen", () => screenOhms(assembly)),
    [state] = largestAt(ohms),
    ohm = ohms[state];
  const joined = ohm < NO_PATH,
    nodes = ends(assembly.circuit).map(netName);
  yield reading("screen-ohm", "screen", "screen", ohm, "ohm", {
    words: { device: new Named("from"), other: new Named("into") },
    flags: { isolated: once(assembly, "isolated", () => isolated(assembly)) ? "yes" : "no" },
    terms: joined ? [["ohm", ohm, "ohm"]] : [],
    at: whereAt("test", state, nodes, { level: Number(joined) }),
  });
}

/* The nets of both chassis. */
const ends = (circuit) => SIDES.map((place) => net(circuit, `${place}/chassis`));

/* Does neither a resistance nor a capacitor lead from one chassis to the other, in any home state? The capacitance of
   cables left aside. */
function isolated({ bare, home }) {
  const [near, far] = ends(bare);
  return home.every(function (state) {
    const piece = pieces(bare, state, SIGNAL_OPENS);
    return piece[near] !== piece[far];
  });
}

/* Ohm between the chassis of From and Into in every home state; NO_PATH where nothing joins them. */
export function screenOhms({ circuit, home }) {
  const lean = resistive(circuit),
    nodes = ends(circuit).map(netName);
  const [near, far] = nodes.map((node) => net(lean, node));
  const probe = new Map([[nodes, -1]]),
    values = valuesAt(lean, "nominal");
  const [[found]] = solveAc(lean, [values], [0], home, [probe]);
  return home.map(function (state, number) {
    const piece = pieces(lean, state, SIGNAL_OPENS);
    const volts = sizeOf(signalVolts(found[number][0], near, far));
    return piece[near] === piece[far] ? volts : NO_PATH;
  });
}
