/* What to use where no lead can help, as a part of an answer: other sockets of the two devices, and the box with a question for each of its sides. */

import { port } from "../ui/catalogue.js";
import { el, verdict } from "../ui/dom.js";
import { address, row } from "../ui/table.js";
import { capital } from "../ui/words.js";
import { converting } from "./converting.js";
import { of } from "./rank.js";

/* Null where a lead may do it, or nothing is known. */
export function instead({ from, into }, root) {
  const told = converting(from, into);
  if (!told) return null;
  const sockets = told.says.slice(0, told.first.length),
    [box, ...more] = told.says.slice(told.first.length);
  return el(
    "section",
    { class: "rf-instead", "aria-label": "Instead of a lead" },
    el("h3", {}, "Instead of a lead"),
    sockets.map((words, i) =>
      question(words, told.first[i].on === "from" ? [told.first[i].port, into] : [from, told.first[i].port]),
    ),
    box
      ? [
          el("p", { class: "rf-instead__box" }, box),
          el(
            "ul",
            {},
            more.map((words) => el("li", {}, words)),
          ),
          question(
            `Into its input, which is like “${port(told.enters).name}”`,
            [from, told.enters],
            told.through,
          ),
          question(`Out of its output, which is like “${port(told.leaves).name}”`, [told.leaves, into]),
          el("p", { class: "rf-form__note" }, `${capital(told.evidence)}.`),
        ]
      : null,
  );

  /* A question of two ends, one tap away, with how it ends: through these leads, or by the best way between them. */
  function question(words, [one, other], through = []) {
    const led = through.length > 0,
      best = led ? row(one, through, other) : of(one, other)[0];
    return el(
      "a",
      {
        class: "rf-option",
        href: led ? address(root, one, through, other) : `${root}check/#from=${one}&into=${other}`,
      },
      el("span", { class: "rf-option__name" }, words),
      el("span", { class: "rf-option__more" }, best?.offer || (led ? "Judge it" : "Which lead?")),
      best ? verdict(best.verdict) : null,
    );
  }
}
