/* Numbers as a meter would show them, and sentences about settings. The twin of words.py. A setting is a Map of switch ->
   position. */

import { HALF_DIGIT, NOTHING, SILENT } from "./constants.js";

const PREFIXES = [
  [1e6, "M"],
  [1e3, "k"],
  [1, ""],
  [1e-3, "m"],
  [1e-6, "µ"],
  [1e-9, "n"],
];
const SYMBOLS = { ohm: "Ω" };

/* Three significant digits with an engineering prefix: 44.6 V, 7.05 mA, 2.4 kΩ; decibels with one decimal, bare numbers as
   they are. */
export function quantity(value, unit) {
  if (!Number.isFinite(value)) return "no number";
  if (unit === "dB" && value < SILENT) return `under ${fixed(SILENT, 0)} dB`;
  if (unit === "dB") return `${fixed(value, 1)} dB`;
  const symbol = SYMBOLS[unit] || unit;
  if (Math.abs(value) < NOTHING || !symbol) return `${fixed(value, 0)} ${symbol}`.trim();
  const [factor, prefix] =
    PREFIXES.find(([step]) => Math.abs(value) * 1.0005 >= step) || PREFIXES[PREFIXES.length - 1];
  const scaled = value / factor;
  const places =
    Math.abs(scaled) >= 1e-3 ? Math.max(0, 2 - Math.floor(Math.log10(Math.abs(scaled) * 1.0005))) : 2;
  const text = fixed(scaled, places);
  return `${text.includes(".") ? text.replace(/\.?0+$/, "") : text} ${prefix}${symbol}`;
}

/* Round half away from zero, and what is a half but for a solver's rounding too. */
export function fixed(value, places) {
  const whole = Math.floor(Math.abs(value) * 10 ** places + 0.5 + HALF_DIGIT);
  const sign = value < 0 && whole ? "−" : "";
  const digits = whole.toFixed(0).padStart(places + 1, "0");
  return sign + (places ? `${digits.slice(0, -places)}.${digits.slice(-places)}` : digits);
}

/* `phantom 48 V on, plug-in power off`; empty when nothing can be switched. `names` tells what each switch is called. */
export const settingWords = (setting, names) =>
  [...setting].map(([key, state]) => `${names.get(key)} ${state}`).join(", ");

/* One sentence that says which setting ends how, from a list of [setting, verdict]; empty when all end alike. */
export function conditions(settings, names) {
  const verdicts = [...new Set(settings.map(([, verdict]) => verdict))];
  const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}.`;
  if (verdicts.length < 2)
    return (verdicts[0] || "").startsWith("dangerous ") ? sentence(`${verdicts[0]} only`) : "";
  const cases = (verdict) => settings.filter(([, found]) => found === verdict).map(([setting]) => setting);
  const told = new Map(verdicts.map((verdict) => [verdict, condition(cases(verdict), settings, names)]));
  const unclear = verdicts.filter((verdict) => told.get(verdict) === null);
  const more = (best, verdict) =>
    best === null || cases(verdict).length > cases(best).length ? verdict : best;
  const rest = unclear.reduce(more, null),
    all = (verdict) => cases(verdict).map((setting) => settingWords(setting, names));
  const clauses = verdicts
    .filter((verdict) => verdict !== rest)
    .map((verdict) => `${verdict} with ${told.get(verdict) || all(verdict).join(" or ")}`);
  if (rest) clauses.push(`${rest} otherwise`);
  return sentence(clauses.join("; "));
}

/* `Plug it with the amplifier off, wait a moment, then the amplifier on: then it is safe.` */
export function inOrder(end, start, goal, stays, names) {
  const changed = [...goal.keys()].filter((key) => start.get(key) !== goal.get(key));
  const told = (setting) => changed.map((key) => `${names.get(key)} ${setting.get(key)}`).join(", ");
  const result = { safe: "it is safe", lossy: "it works and loses something" }[end];
  if (stays) return `Plug it with ${told(start)}, and leave it so: then ${result}.`;
  return `Plug it with ${told(start)}, wait a moment, then ${told(goal)}: then ${result}.`;
}

/* The switch positions that all cases of a verdict share and no other setting has; null if there is no such set. */
function condition(cases, settings, names) {
  const shared = new Map(
    [...cases[0]].filter(
      ([key, state]) =>
        cases.every((one) => one.get(key) === state) && settings.some(([one]) => one.get(key) !== state),
    ),
  );
  const matching = settings.filter(([setting]) => within(shared, setting));
  return shared.size && matching.length === cases.length ? settingWords(shared, names) : null;
}

/* Does a setting have all positions of another? */
export const within = (part, setting) => [...part].every(([key, state]) => setting.get(key) === state);
