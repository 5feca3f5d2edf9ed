/* How numbers, halves and switch settings are said; numbers as on the generated pages. */

import { own } from "./dom.js";

const SIGNS = { ohm: "Ω", V: "V", A: "A", W: "W", F: "F", H: "H", Hz: "Hz" };
const PREFIXES = [
  [1e9, "G"],
  [1e6, "M"],
  [1e3, "k"],
  [1, ""],
  [1e-3, "m"],
  [1e-6, "µ"],
  [1e-9, "n"],
  [1e-12, "p"],
];

function number(value) {
  if (value === 0) return "0";
  const places = Math.min(6, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
  const text = value.toFixed(places);
  return (text.includes(".") ? text.replace(/\.?0+$/, "") : text).replace("-", "−");
}

/* amount(0.00705, "A") is "7.05 mA"; a value nobody knows is said to be so. */
export function amount(value, unit) {
  if (value === null || value === undefined) return "not known";
  if (!Number.isFinite(value)) return "without end";
  if (unit === "dB" && value < -120) return "below −120 dB"; // nothing is left; the exact figure means nothing
  if (unit === "dB") return `${number(Math.round(value * 10) / 10)} dB`; // as the sentences have it
  const sign = own(SIGNS, unit);
  if (value === 0 || !sign) return `${number(value)} ${sign || unit || ""}`.trim();
  const [size, prefix] =
    PREFIXES.find(([step]) => Math.abs(value) >= step * 0.9995) || PREFIXES[PREFIXES.length - 1];
  return `${number(value / size)} ${prefix}${sign}`;
}

/* Two texts in alphabetical order, whatever their case, as a sort asks for it. All of ours are English: a browser's own collator takes a phone longer to start than the rest of a page. */
export function inOrder(a, b) {
  const [one, two] = [a, b].map((text) => text.toLowerCase());
  return one === two ? 0 : one < two ? -1 : 1;
}

export const listed = (items, last = "and") =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} ${last} ${items[items.length - 1]}`;

export const count = (number, one, many) => `${number} ${number === 1 ? one : many}`;

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

export const sentence = (text) => (/[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`);
