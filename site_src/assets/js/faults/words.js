globalThis.Ringfence = globalThis.Ringfence || {};

/* Faults and readings in words. The twin of telling.py. */

import { conductors, contactOf, endOf, SHELL } from "./bench.js";

const SHORT = 0.5,
  PREFIXES = [
    [1e6, "M"],
    [1e3, "k"],
    [1, ""],
  ];
const digits = (value, places) => {
  const text = (Math.floor(value * 10 ** places + 0.5 + 1e-6) / 10 ** places).toFixed(places);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
};

/* As the display has it. */
function metered(ohms) {
  if (ohms < 100) return `${(Math.floor(ohms * 10 + 0.5 + 1e-6) / 10).toFixed(1).replace(/\.0$/, "")} Ω`;
  const [size, prefix] = PREFIXES.find(([factor]) => ohms * 1.0005 >= factor),
    scaled = ohms / size;
  return `${digits(scaled, Math.max(0, 2 - Math.floor(Math.log10(scaled * 1.0005))))} ${prefix}Ω`;
}

/* A class of readings as a person would see it. */
export function shows({ low, high, moves }, { says }) {
  if (moves) return says.moves;
  if (low === Infinity) return says.none;
  if (high === Infinity) return says.anything;
  if (high < SHORT) return says.wire;
  const middle = (low + high) / 2;
  return `about ${metered(middle >= 10 ? twoDigits(middle) : middle)}`;
}

/* Two digits; what lies in the middle goes to the even one, as in Python. */
function twoDigits(ohms) {
  const step = 10 ** (Math.floor(Math.log10(ohms)) - 1),
    steps = ohms / step,
    low = Math.floor(steps);
  return (steps - low === 0.5 ? low + (low % 2) : Math.round(steps)) * step;
}

/* `2 of the XLR male to the input (b)`. */
export function place({ lead }, terminal) {
  const { label, id } = lead.ends[endOf(terminal)],
    contact = contactOf(terminal);
  return `${contact === SHELL ? "the metal shell" : contact} of the ${label} (${id})`;
}

const at = ({ kind, at: all }) =>
  (kind === "crossed-both" ? all.slice(0, 2).map(contactOf) : all).join(" and ");

/* The same fault at either end of a conductor is one: [[words, [number of a fault]]]. */
export function grouped(specimen, all, tables) {
  const nets = conductors(specimen, tables),
    found = new Map();
  all.forEach((fault, f) => {
    const key = JSON.stringify([
      fault.kind,
      [...new Set(fault.at.map((one) => nets.get(one) || one))].sort(),
    ]);
    found.set(key, [...(found.get(key) || []), f]);
  });
  return [...found.values()].map((alike) => [
    tables.faults[all[alike[0]].kind].brief.replace("{at}", alike.map((f) => at(all[f])).join(" or ")),
    alike,
  ]);
}
