/* What a person types out of a manual -> a quantity in the catalogue's way of writing, or the reason why it is none. The twin of said.py. */

import { parse } from "./quantity.js";

const LONGEST = 40; // characters; no manual prints a longer number
const UNITS = {
  // what may be typed, in small letters, for each SI unit
  V: { v: "V", volt: "V", volts: "V", mv: "mV", uv: "uV" },
  A: { a: "A", ma: "mA", ua: "uA" },
  W: { w: "W", watt: "W", watts: "W", mw: "mW", kw: "kW" },
  ohm: { ohm: "ohm", ohms: "ohm", r: "ohm", kohm: "kohm", kohms: "kohm", k: "kohm" },
};
const LEVELS = { dbu: "dBu", dbv: "dBV" };
const PER_PASCAL = {
  "mv/pa": "mV",
  "v/pa": "V",
  "dbv/pa": "dBV",
  db: "dBV",
  "db re 1 v/pa": "dBV",
  "db re 1v/pa": "dBV",
};
const MEGA = ["M", "Mohm", "Mohms"]; // the one prefix whose letter counts: a small m is a thousandth
const ANSWERS = ["yes", "no", "silent"];
const SHOWN = { V: "63 V", A: "10 mA", W: "0.5 W", ohm: "200 ohm" };
const NUMBER = "[+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)";
const WHOLE = new RegExp(
  `^(${NUMBER})(?:\\s*(?:\\.\\.|to)\\s*(${NUMBER}))?\\s*([A-Za-z][A-Za-z/]*(?: re 1 ?[Vv]/[Pp]a)?)?$`,
);
const BOTH_WAYS = /(?<![\d.])[1-9]\d{0,2},\d{3}(?!\d)/; // thousands or a decimal comma: nobody can tell

class Nonsense extends Error {}

/* Units a question is asked in, the likeliest first. */
export function units({ unit, level, asks }) {
  const plain = { V: ["V", "mV"], A: ["mA", "A"], W: ["W", "mW"], ohm: ["ohm", "kohm"] }[unit];
  if (!level) return plain;
  return asks.includes("Pa") ? ["mV", "dBV", "dBu", "V"] : ["dBu", "dBV", "V", "mV"];
}

/* {text, shown}: the value of the parameters, and what was typed in the catalogue's way; {silent: true}; or {reason}. */
export function said(typed, ask, question) {
  try {
    const text = String(typed).replaceAll("\u00a0", " ").trim().split(/\s+/).join(" ");
    return question.unit === null ? word(text) : number(text, ask, question);
  } catch (fault) {
    if (fault instanceof Nonsense) return { reason: fault.message };
    throw fault;
  }
}

function word(text) {
  const said = text.toLowerCase();
  if (said && !ANSWERS.includes(said)) throw new Nonsense("Answer yes, no or silent.");
  return said === "" || said === "silent" ? { silent: true } : { text: said, shown: said };
}

function number(text, ask, question) {
  if (!text || text.toLowerCase() === "silent") return { silent: true };
  if (text.length > LONGEST) throw new Nonsense("That is too long to be a number.");
  const [low, high, unit] = read(text, question),
    shown = high ? `${low}..${high} ${unit}` : `${low} ${unit}`;
  const value = parse(shown);
  if (!value) throw new Nonsense(`${text}? Write the lower number first.`);
  if (value.low <= 0 && question.least !== 0) throw new Nonsense(`${text}? It must be more than nothing.`);
  const { least, most, beyond } = question;
  if ((least !== null && value.low < least) || (most !== null && value.high > most))
    throw new Nonsense(`${text}? ${beyond}`.trim());
  const written =
    ask.times === 1
      ? shown
      : `${times(value.low, ask.times)}${high ? `..${times(value.high, ask.times)}` : ""} ${question.unit}`;
  return { text: ask.spread && !high ? `${written} +-${ask.spread}` : written, shown };
}

/* Number, the higher one of a range or nothing, and unit. */
function read(text, question) {
  const both = BOTH_WAYS.exec(text);
  if (both)
    throw new Nonsense(
      `${text}? ${both[0]} may be ${both[0].replace(",", "")} or ${both[0].replace(",", ".")}: write one of them.`,
    );
  let plain = text.replace(/[\u2212\u2013\u2014]/g, "-").replace(/(\d),(?=\d)/g, "$1.");
  plain = plain.replace(/[\u00b5\u03bc]/g, "u").replace(/[\u03a9\u2126\u03c9]/g, "ohm");
  if (question.unit === "ohm") plain = plain.replace(/^(\d+)([kKMR])(\d+)( ?ohms?)?$/, "$1.$3 $2");
  const match = WHOLE.exec(plain);
  if (!match) throw new Nonsense(`Write a number and its unit, such as ${SHOWN[question.unit]}.`);
  return [digits(match[1]), match[2] ? digits(match[2]) : "", unitOf(match[3] || "", text, question)];
}

function unitOf(unit, text, question) {
  const small = unit.toLowerCase(),
    of = (table) => (Object.hasOwn(table, small) ? table[small] : null);
  const found =
    (question.unit === "ohm" && MEGA.includes(unit) ? "Mohm" : of(UNITS[question.unit])) ||
    (question.level ? of(LEVELS) || (question.asks.includes("Pa") ? of(PER_PASCAL) : null) : null);
  if (found) return found;
  if (!unit) throw new Nonsense(`${text} of what? Write the unit too, such as ${SHOWN[question.unit]}.`);
  if (small === "dbfs")
    throw new Nonsense(
      "dBFS is a level inside a digital device: write the level at the socket, in dBu, dBV or V.",
    );
  throw new Nonsense(`'${unit}' is no unit here: write ${legal(question)}.`);
}

function legal(question) {
  const units = { V: "V or mV", A: "mA or A", W: "W or mW", ohm: "ohm or kohm" }[question.unit];
  return question.level ? `dBu, dBV, ${units}` : units;
}

/* Without a plus, with a digit before the point. */
const digits = (text) => text.replace(/^\++/, "").replace(/^(-?)\./, "$10.");

/* In plain digits, nine of them. */
const times = (value, factor) =>
  Number((value * factor).toPrecision(9))
    .toFixed(12)
    .replace(/0+$/, "")
    .replace(/\.$/, "");
