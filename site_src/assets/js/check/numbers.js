/* Own numbers in an answer: the places they are shown and typed in, filled when their scripts are here. */

import { button, el } from "../ui/dom.js";
import { ownQuestion, withOwn } from "../ui/own.js";
import { seen } from "../ui/slices.js";
import { byOwn } from "./by-own.js";
import { deciding, judge } from "./judged.js";
import { remedies } from "./remedies.js";

/* What check.judge resolves to, and with it `alone`: the catalogue's own answer, where that tells whether our number makes the danger. */
export async function found(question) {
  const found = await judge(question);
  return found.judged && byOwn(question)
    ? { ...found, alone: await Ringfence.own.compared(found.judged, question) }
    : found;
}

/* The head of an answer by own numbers; null for any other. */
export const ownHead = (judged, question, alone, onown) =>
  byOwn(question) ? Ringfence.own.head(judged, question, alone, onown) : null;

/* The ways between two of which one is somebody's own, or a number of it; null for any other: the table has them. */
export function ownWays(asked, root, onkit, ondone) {
  const question = ownQuestion({
    from: asked.from,
    into: asked.into,
    through: [],
    ...(asked.own ? { own: asked.own } : {}),
  });
  return question.own || question.named ? Ringfence.own.which(question, asked, root, onkit, ondone) : null;
}

export const instead = (judged, question, root) =>
  byOwn(question) ? Ringfence.own.ways(judged, question, root) : remedies(judged, question, root);

/* The way from a verdict to the numbers that decide it, where a manual may know them; they stand further down, and come a little later. */
const MANUAL = [
  "over-volts",
  "over-current",
  "over-power",
  "reversed-capacitor",
  "rating-not-known",
  "starved",
  "not-powered",
  "part-unpowered",
  "too-hot",
  "too-quiet",
  "level-not-known",
  "loaded-down",
];

export function toNumbers(judged, onown) {
  if (!onown || judged.verdict === "safe" || !deciding(judged).some(({ id }) => MANUAL.includes(id)))
    return null;
  return button(
    { class: "rf-banner__manual", "data-key": "manual", onclick: (event) => opened(event.currentTarget) },
    "What does your manual say? Type its number",
  );
}

async function opened(button) {
  const answer = button.closest(".rf-answer"),
    section = () => answer.querySelector("section.rf-own");
  if (!(await withOwn()))
    return void button.replaceWith("The numbers did not load. Try again with a network.");
  while (!section() && answer.isConnected) await new Promise(seen);
  const first = section()?.querySelector(".rf-own__open");
  if (!first) return;
  first.closest("details")?.setAttribute("open", "");
  if (first.getAttribute("aria-expanded") === "false") first.click();
  section().scrollIntoView();
}

/* Where the numbers of this answer can be typed. `onown({own})` asks the question anew with other numbers. */
export function numbers(judged, question, onown) {
  const place = el("div", { class: "rf-own" });
  if (onown)
    withOwn().then((here) => {
      if (here && judged) place.replaceWith(Ringfence.own.fields(judged, question, onown));
    });
  return place;
}
