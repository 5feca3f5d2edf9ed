/* A question of the check with somebody's own numbers: what stands in the address, the records the engine is given, and the question without them.
   In the address: own=from.main.highest-volts-at-output:63_V,into.main.phantom-voltage:48_V */

import { port as portOf } from "../ui/catalogue.js";
import { asksOf, changed, GRADE, question as questionOf } from "./apply.js";
import { baseOf, device } from "./devices.js";

const MOST = 24; // numbers; a hostile address must not stop the page
const ENTRY = /^(from|into)\.([a-z0-9.-]{1,120}):(.{1,40})$/;

/* {from: {ask: typed}, into: {ask: typed}} of the text in an address. */
export function read(text) {
  const found = { from: {}, into: {} };
  for (const one of (text || "").split(",", MOST)) {
    const entry = ENTRY.exec(one);
    if (entry) found[entry[1]][entry[2]] = entry[3].replaceAll("_", " ");
  }
  return found;
}

export const write = (answers) =>
  ["from", "into"]
    .flatMap((side) =>
      Object.entries(answers[side]).map(([id, typed]) => `${side}.${id}:${typed.replaceAll(" ", "_")}`),
    )
    .join(",");

export const isLocal = (port) => (Ringfence.data.local || []).includes(port);

/* A question about classes: a device of one's own becomes its class with its numbers, typed ones before kept ones; `named` tells which it was. */
export function plain(question) {
  const typed = read(question.own),
    found = { from: device(question.from), into: device(question.into) };
  if (!found.from && !found.into) return question; // a link to somebody else knows no device of mine
  const answers = Object.fromEntries(
    ["from", "into"].map((side) => [side, { ...(found[side] ? found[side].answers : {}), ...typed[side] }]),
  );
  return {
    ...question,
    from: baseOf(question.from),
    into: baseOf(question.into),
    own: write(answers),
    named: found,
  };
}

/* Every own number of a question: [{side, ask, question, shown}]. */
export function used(question) {
  const typed = read(question.own);
  return ["from", "into"].flatMap((side) => {
    const port = portOf(question[side]),
      { used } = changed(port, typed[side]);
    const local = asksOf(port.id)
      .filter((ask) => isLocal(port.id) && ask.evidence.grade === GRADE && ask.value)
      .map((ask) => ({ ask, question: questionOf(ask), shown: ask.value }));
    return [...local, ...used].map((one) => ({ side, ...one }));
  });
}

/* {data, question} for the engine. The two ends may be one class of device with different numbers, so each has an id of its own. */
export function asked(question) {
  const typed = read(question.own),
    ports = { ...Ringfence.data.ports },
    ids = {};
  for (const side of ["from", "into"]) {
    const port = portOf(question[side]),
      device = question.named && question.named[side];
    ids[side] = `${side}.${port.id}`;
    ports[ids[side]] = {
      ...changed(port, typed[side]).port,
      id: ids[side],
      name: device ? device.name : port.name,
    };
  }
  return { data: { ...Ringfence.data, ports }, question: { ...question, ...ids } };
}

/* What is asked about the port at a side, with what was typed. */
export function sheet(question, side) {
  const typed = read(question.own)[side];
  return asksOf(question[side]).map((ask) => ({
    ask,
    side,
    of: question[side],
    key: `${side}.${ask.id}`,
    question: questionOf(ask),
    typed: typed[ask.id] || "",
  }));
}

/* The question with a number typed, or without it where `typed` is empty. */
export function withNumber(question, side, id, typed) {
  const answers = read(question.own);
  if (typed) answers[side][id] = typed;
  else delete answers[side][id];
  return { ...question, own: write(answers) };
}
