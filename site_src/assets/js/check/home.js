/* What stands on the first page beside the question: the other doors. And what a question was taken for, where it could have meant something else. */

import { port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";

const DOORS = [
  ["recognise/", "What is this plug?"],
  ["adapter/", "Looking at an adapter?"],
  ["workshop/", "Test a lead"],
  ["bag/", "My kit"],
];

export const doors = (root) =>
  el(
    "nav",
    { class: "rf-doors", "aria-label": "Other questions" },
    el(
      "ul",
      {},
      DOORS.map(([address, words]) => el("li", {}, el("a", { href: `${root}${address}` }, words))),
    ),
  );

/* `words` is what a question in words was understood as, by step; null where nothing was guessed. */
export function guessed(words, choose) {
  const open = Object.entries(words).filter(
    ([step, one]) => step !== "through" && one.id && one.others && one.others.length,
  );
  if (!open.length) return null;
  return el(
    "div",
    { class: "rf-guessed" },
    open.map(([step, { id, text, others }]) =>
      el(
        "div",
        {},
        el("p", {}, `“${text}” taken for: ${port(id).name}. You meant another one?`),
        el(
          "div",
          { class: "rf-chips" },
          others.map((other) =>
            button({ class: "rf-chip", onclick: () => choose(step, other) }, port(other).name),
          ),
        ),
      ),
    ),
  );
}
