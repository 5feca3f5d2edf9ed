/* How an answer is said: sentences, and numbers with as many figures as they are worth. The twin of words.py. */

import { TYPICAL } from "./numbers.js";

const SENTENCES = {
  inaudible: "You will not hear it.",
  "in the noise": "It lies just in the noise.",
  "under the voice": "It stays under the voice, and you hear it in no pause.",
  "in pauses": "You hear it in the pauses, {as}.",
  unusable: "You hear it under the words, {as}: not usable.",
};
const RADIO = {
  unlikely: "Radio from {name} at {distance} is unlikely to be heard.",
  "test it": "Radio from {name} at {distance} may be heard: test it before the take.",
  "expect it": "Expect to hear {name} at {distance}.",
};
const WHY = {
  unbalanced: "the run is unbalanced",
  "contact 1": "contact 1 wanders through a device",
  screen: "the screen is not whole",
  "high gain": "a microphone input has much gain",
  length: "the length is near an odd quarter wave",
};
const PREFIXES = [
    [1, ""],
    [1e-3, "m"],
    [1e-6, "µ"],
    [1e-9, "n"],
    [1e-12, "p"],
  ],
  FEW = 0.5;
export const OUT_OF_RANGE =
  "Rough only: source and input carry some of the screen's current, out of the formula's range.";

export function oneFigure(value, unit) {
  if (!value) return `0 ${unit}`;
  const rounded = Number(value.toPrecision(1)),
    found = PREFIXES.find(([size]) => Math.abs(rounded) >= size * 0.9999) || PREFIXES[4];
  return `${Number((rounded / found[0]).toPrecision(6))} ${found[1]}${unit}`;
}

export const decibels = (value) =>
  value === null ? "all of it" : `${Math.round(value)} dB`.replace("-", "−");
export const metres = (value) =>
  value < 1
    ? `${Number((value * 100).toPrecision(6))} cm`
    : value < 1000
      ? `${Number(value.toPrecision(6))} m`
      : `${Number((value / 1000).toPrecision(6))} km`;

const asWhat = (hertz) =>
  hertz >= 900 && hertz <= 1100
    ? "as a whine"
    : hertz < 90
      ? `as a hum of ${Math.round(hertz)} Hz`
      : `as a buzz, most at ${Math.round(hertz)} Hz`;
const sentence = (answer, said) => SENTENCES[said].replace("{as}", asWhat(answer.loudest));

export function headline(answer) {
  const first = sentence(answer, answer.said),
    worst = sentence(answer, answer.worst);
  return answer.worst === answer.said
    ? first
    : `${first} At worst: ${worst[0].toLowerCase()}${worst.slice(1)}`;
}

export function ofRadio(heard, tables) {
  const { name } = tables.transmitters[heard.transmitter];
  const said = RADIO[heard.step].replace("{name}", name).replace("{distance}", metres(heard.distance));
  const why = heard.why.length
    ? ` It counts one step more because ${heard.why.map((one) => WHY[one]).join(" and ")}.`
    : "";
  const clear = ` Beyond ${metres(Number(heard.clear.toPrecision(1)))} its field is below what ordinary gear is tested with.`;
  return `${said}${why}${clear}${heard.near ? " Nearer than a sixth of its wave no formula holds: keep it off the lead." : ""}`;
}

export const forRadio = (one) => one.radio !== null || one.id === "length";
export const helps = (one) => forRadio(one) || one.gains[TYPICAL] === null || one.gains[TYPICAL] >= FEW;

/* What to do. Where no hum is heard even at its worst, nothing is to be done about it. */
export const worthTelling = (answer, found) =>
  found.filter((one) => helps(one) && (forRadio(one) || answer.worst !== "inaudible"));

export function ofRemedy(one, tables) {
  if (one.radio !== null)
    return `${one.words} ${Math.round(one.radio)} dB of radio, ${Math.round(2 * one.radio)} dB of what is heard; 0 dB of hum.`;
  if (one.id === "length") return `${one.words} ${tables.remedies.length.but}`;
  const typical = one.gains[TYPICAL];
  if (typical !== null && Math.abs(typical) < FEW)
    return `${one.words} 0 dB: it does not touch what is loudest here.`;
  return `${one.words} ${decibels(typical)}.`;
}

export function betterCable(found) {
  const gains = found.filter((one) => ["cable", "quad"].includes(one.id)).map((one) => one.gains[TYPICAL]);
  if (gains.includes(null)) return "A better cable takes all of it.";
  const most = Math.max(0, ...gains);
  return most >= FEW
    ? `A better cable gains ${Math.round(most)} dB.`
    : "A better cable gains nothing here: 0 dB.";
}

export function ofReading(one) {
  const narrow =
    one.now && one.then && one.then < one.now
      ? ` It narrows the answer from ${Math.round(one.now)} dB to ${Math.round(one.then)} dB.`
      : "";
  return (
    `Measure AC volts and amps between the two cases; some ${oneFigure(one.volts, "V")} and ${oneFigure(one.amps, "A")} ` +
    `are expected.${narrow}`
  );
}

/* The cautions whose condition is there. */
export function cautions(run, tables) {
  const mains = run.source.powered !== "battery" || run.input.powered !== "battery";
  const watts = run.transmitters.some(
    (one) => (one.watts || tables.transmitters[one.transmitter].watts) >= 1,
  );
  const feeders = run.beside.some((one) => tables.mains[one.cable].carries > 16);
  return [
    [mains, "mains"],
    [mains, "measure"],
    [feeders, "feeders"],
    [watts, "radio"],
  ]
    .filter(([is]) => is)
    .map(([, id]) => tables.cautions[id].words);
}
