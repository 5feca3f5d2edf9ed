/* A port with some of its numbers replaced by those of a manual: the engine is given a changed record and knows of nothing else. The twin of apply.py. */

import { parse } from "./quantity.js";
import { said } from "./said.js";

export const GRADE = "your manual";
const lately = new WeakMap(); // port -> what it was changed to last
const GROUNDED = ["limits settled", "needs least"]; // numbers that bring the evidence of their record

export const asksOf = (port) =>
  Ringfence.manual && Object.hasOwn(Ringfence.manual.asks, port) ? Ringfence.manual.asks[port] : [];
export const question = (ask) => Ringfence.manual.questions[ask.question];

/* `answers`: id of an ask -> what was typed. {port, used: [{ask, question, shown}], refused: [{id, reason}]}; what is silent changes nothing, and
   what means nothing is told. */
export function changed(port, answers) {
  const asked = JSON.stringify(answers),
    before = lately.get(port);
  if (before && before.asked === asked) return before.found; // a list of ways asks the same of each
  const found = made(port, answers, asksOf(port.id));
  lately.set(port, { asked, found });
  return found;
}

function made(port, answers, asks) {
  const refused = Object.keys(answers)
    .filter((id) => !asks.some((ask) => ask.id === id))
    .map((id) => ({ id, reason: "Nothing here is asked so." }));
  const given = asks
    .filter(({ id }) => Object.hasOwn(answers, id))
    .map((ask) => ({ ask, question: question(ask), ...said(answers[ask.id], ask, question(ask)) }));
  for (const { ask, reason } of given) if (reason) refused.push({ id: ask.id, reason });
  const used = given.filter(({ text }) => text).sort((a, b) => numeric(a) - numeric(b)); // a number has the last word
  const known = { grade: GRADE, cite: [], checked: port.evidence ? port.evidence.checked : null, note: null };
  let changed = port;
  for (const { ask, text } of used) {
    for (const [name, value] of valuesOf(ask, text))
      for (const one of ask.feeds[name]) changed = put(changed, one, parse(value), known);
  }
  return { port: changed, used, refused };
}

const numeric = ({ ask }) => Number(!Object.keys(ask.answers).length);

/* [parameter, value] of an answer. */
export const valuesOf = (ask, text) =>
  Object.keys(ask.answers).length
    ? Object.entries(ask.answers[text])
    : Object.keys(ask.feeds).map((name) => [name, text]);

function put(port, { kind, id, field, take }, value, known) {
  const number = value === null ? null : take === "whole" ? value : value[take];
  const fields = GROUNDED.includes(`${kind} ${field}`)
    ? { [field]: number, evidence: known }
    : { [field]: number };
  const changed = (records) =>
    records.map((record) => (record.id === id ? { ...record, ...fields } : record));
  if (kind === "parts" || kind === "limits")
    return { ...port, network: { ...port.network, [kind]: changed(port.network[kind]) } };
  return { ...port, [kind]: changed(port[kind]) };
}
