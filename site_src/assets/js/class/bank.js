/* The questions that came with the page, and whether an answer is right. */

import { own as ownOf } from "../ui/dom.js";
import { mixed } from "./seed.js";

const FIXED = new Set(["verdict"]); // kinds whose choices have an order of their own

export const bank = () => Ringfence.lessons.questions;
export const core = () => bank().slice(0, Ringfence.lessons.core);
export const find = (id) => bank().find((one) => one.id === id) || null;
export const ready = (id) => Ringfence.lessons.lessons.find((one) => one.id === id) || null;

/* The choices as they are shown: [id, text, why] each; contacts and verdicts keep their order. */
export const choices = (one, chance) =>
  one.form === "tap" || FIXED.has(one.kind) ? one.choices : mixed(one.choices, chance);

/* A number as people type it, or null. */
export function number(text) {
  const said = String(text).trim().replace(",", ".").replace("−", "-");
  const found = /^[+-]?(\d+\.?\d*|\.\d+)/.exec(said);
  return found ? Number(found[0]) : null;
}

/* `given`: choice ids in the order they were chosen, or the typed number. */
export const right = (one, given) =>
  one.target
    ? given !== null && Math.abs(given - one.target[0]) <= one.target[2]
    : given.join("\n") === one.answer.join("\n");

/* What would have been right, in words. */
export function answer(one) {
  if (one.target) return `${String(one.target[0]).replace("-", "−")} ${one.target[1]}`;
  return one.answer.map((id) => one.choices.find(([each]) => each === id)[1]).join(", then ");
}

/* Why a wrong choice is wrong, where that is listed. */
export const why = (one, given) =>
  one.target || one.form === "order" || right(one, given)
    ? ""
    : (one.choices.find(([id]) => id === given[0]) || [])[2] || "";

/* What is given, in one line: for those who do not see the drawing. */
export const said = (one) =>
  (one.given || []).map(([name, value]) => `${name}: ${value}`).join("; ") ||
  "The drawing this question is about";
export const own = ownOf;
