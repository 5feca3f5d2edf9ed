/* Which lead, by own numbers: every way the table has between the two classes is judged anew, then ranked and shown as ways are. */

import { el } from "../ui/dom.js";
import { rows as rowsOf } from "../ui/table.js";
import { count } from "../ui/words.js";
import { read, write } from "./asked.js";

/* Stands for the list until it is there; `ondone(words)` is told what it comes to. `asked` has the ids that were asked for, `question` those of the classes. */
export function which(question, asked, root, onkit, ondone) {
  const rows = rowsOf(question.from, question.into).filter(({ through }) =>
      through.every(Ringfence.check.carried),
    ),
    found = [];
  const place = el("p", { class: "rf-form__note" }),
    section = el(
      "section",
      { class: "rf-ways", "aria-label": "Ways", "aria-busy": "true" },
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, "Which lead? Judging by your numbers …"),
      place,
    );
  let broken = 0;
  Ringfence.check.judgeAll(
    rows.map(({ through }) => ({ ...question, through })),
    ({ judged }, { through }, number) => {
      place.textContent = `${number} of ${rows.length} ways`;
      if (judged)
        found.push({
          from: asked.from,
          into: asked.into,
          through,
          own: true,
          verdict: judged.verdict,
          offered: judged.offered,
          offer: judged.offer,
          findings: Ringfence.check.deciding(judged).map(({ id }) => id),
        });
      else broken += 1;
    },
    done,
  );
  return section;

  function done() {
    const { element, announce } = Ringfence.ways.list(
      { ...asked, own: asked.own || null },
      root,
      onkit,
      Ringfence.ways.ranked(found),
    );
    element
      .querySelector(".rf-banner")
      .append(
        el(
          "p",
          { class: "rf-banner__own" },
          `By your numbers${broken ? `; ${count(broken, "way", "ways")} could not be worked out` : ""}.`,
        ),
      );
    const attended = section.contains(document.activeElement);
    section.replaceWith(element);
    if (attended) element.querySelector(".rf-answer__head").focus({ preventScroll: true });
    ondone(announce);
  }
}

/* The same question with other leads, for an address on this device: a device of one's own keeps its name. */
export function address(question, through, root) {
  const { from, into, named = {} } = question,
    typed = read(question.own);
  for (const side of ["from", "into"]) if (named[side]) typed[side] = {};
  return `${root}check/${Ringfence.check.write({ from: named.from ? named.from.id : from, through, into: named.into ? named.into.id : into, own: write(typed), set: [] })}`;
}
