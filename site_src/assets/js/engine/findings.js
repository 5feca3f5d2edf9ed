/* Readings held against the rulebook: each rule that is met makes a finding, with its sentences filled in. The twin of
   findings.py. A finding has the fields of Finding in verdict.py, what its rule `weighs`, and `at`, where its reading was
   found (null where no voltage or current decides). */

import { SLACK } from "./constants.js";
import { Named } from "./readings.js";
import { quantity } from "./words.js";

const UNRATED = ["rating-not-known", "supply-reversed"]; // what such a number is held against is no rating of the part
const sorted = new WeakMap(); // rulebook -> its rules by quantity
const WORD_UNITS = { energy: "J", charge: "V", seconds: "s" };
export const STATES = {
  settled: "settled",
  plugging: "while plugging",
  switching: "when switched",
  signal: "with signal",
};

/* Is the value beyond the limit, by more than rounding? */
export function met(rule, value, limit) {
  const rounding = SLACK * Math.max(Math.abs(limit), Math.abs(value), 1e-6);
  const slack = Math.max(rounding, rule.margin * Math.abs(limit));
  return rule.compare === "above" ? value > limit + slack : value < limit - slack;
}

/* The limit a rule holds a reading against. */
export const limitOf = (rule, reading) => (rule.limit === "own" ? reading.limit : rule.limit);

/* The rules about a quantity, in the rulebook's order. */
function about(rulebook, quantity) {
  if (!sorted.has(rulebook)) {
    const rules = new Map(rulebook.map((rule) => [rule.quantity, []]));
    for (const rule of rulebook) rules.get(rule.quantity).push(rule);
    sorted.set(rulebook, rules);
  }
  return sorted.get(rulebook).get(quantity) || [];
}

/* What the rulebook says of a reading, in its order; figures only with every supply on, which is the first setting.
   `switches` are the settings in words, `places` the Map of an assembly. */
export const findingsOf = (rulebook, reading, switches, places) =>
  rulesMet(rulebook, reading).map((rule) => made(rule, reading, switches, places));

/* The rules that a reading meets. */
export function rulesMet(rulebook, reading) {
  const { value, flags } = reading;
  const asked = ({ severity, only }) =>
    !(severity === "figure" && reading.setting) &&
    Object.entries(only).every(([key, want]) => flags[key] === want);
  const beyond = (rule) => met(rule, value, limitOf(rule, reading));
  return about(rulebook, reading.quantity).filter(
    (rule) => asked(rule) && beyond(rule) && (rule.until === null || value <= rule.until),
  );
}

/* What a rule that is met comes to. What the way back lacks is told, but does not spoil what was asked about. */
export const severityOf = ({ severity }, { flags }) =>
  severity === "lossy" && flags.way === "back" ? "note" : severity;

function made(rule, reading, switches, places) {
  const limit = limitOf(rule, reading),
    { value, unit, setting, state } = reading;
  const words = Object.entries(reading.words).map(([name, word]) => [name, shown(name, word, places)]);
  const numbers = Object.entries({ value, limit }).map(([name, one]) => [name, quantity(one, unit)]);
  const told = Object.fromEntries([...words, ...numbers]);
  const known =
    rule.limit === "own" && reading.evidence ? reading.evidence : { grade: rule.evidence, cite: rule.cite };
  const when = [setting === null ? "" : switches[setting], STATES[state]];
  return {
    id: rule.id,
    severity: severityOf(rule, reading),
    subject: reading.subject,
    where: reading.where,
    value,
    unit,
    limit: UNRATED.includes(rule.id) ? null : limit,
    when: when.filter(Boolean).join(", "),
    says: begun(filled(rule.says, told)),
    remedy: filled(rule.remedy, told),
    evidence: known.grade,
    cite: [...known.cite],
    state,
    setting,
    mend: filled(rule.mend, told),
    case: reading.flags.pair || "",
    weighs: rule.weighs,
    at: reading.at,
  };
}

/* A sentence with its {names} filled in. */
function filled(sentence, told) {
  return sentence.replace(/\{(\w+)\}/g, (_, name) => {
    if (!Object.hasOwn(told, name))
      throw new RangeError(`the rulebook asks for {${name}}, and the reading has none`);
    return told[name];
  });
}

/* With a capital, whatever it begins with: `left of Camera ...`. */
const begun = (sentence) => sentence[0].toUpperCase() + sentence.slice(1);

function shown(name, word, places) {
  if (word instanceof Named) return word.among(places);
  return typeof word === "number" ? quantity(word, WORD_UNITS[name]) : word;
}

const plain = {
  subject: "connection",
  value: 0,
  unit: "",
  limit: null,
  when: "always",
  evidence: "derived",
  cite: [],
  state: "settled",
  setting: null,
  mend: "",
  case: "",
  weighs: 0,
  at: null,
};

/* What cannot be worked out is never called safe. */
export const notSolved = (why) => ({
  ...plain,
  id: "not-solved",
  severity: "dangerous",
  where: "connection",
  says: `This connection could not be worked out: ${why}.`,
  remedy: "Do not connect it on the strength of this page; report it.",
});

/* Halves that do not go into each other. */
export const notMating = (where, says) => ({
  ...plain,
  id: "does-not-mate",
  severity: "does not fit",
  where,
  says,
  remedy: "Choose a lead with that end.",
});
