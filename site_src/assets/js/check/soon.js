/* The verdict as the generator's table has it, shown at once, while the engine works out its numbers: the same engine made the table. Beside it
   stands what is wrong with this copy; where parts of two versions met, there is no verdict. */

import { el, mark, slug } from "../ui/dom.js";
import { mixed } from "../ui/editions.js";
import { row as rowOf } from "../ui/table.js";
import { sentence as asSentence, capital, listed } from "../ui/words.js";
import { byOwn } from "./by-own.js";
import { sentence } from "./judged.js";

/* The head of an answer. What the table does not know, several leads in a row or own numbers, is told to be under way. */
export function soon(question) {
  const own = byOwn(question),
    row = own || mixed() ? null : rowOf(question.from, question.through, question.into);
  const answer = (...parts) =>
    el(
      "section",
      { class: "rf-answer", "aria-label": "Answer", "aria-busy": "true" },
      Ringfence.page?.standing?.() || null,
      parts,
    );
  if (!row)
    return answer(
      el(
        "h2",
        { class: "rf-answer__head", tabindex: "-1" },
        own ? "Judging by your number …" : "Working it out …",
      ),
    );
  const says = row.findings.length
    ? asSentence(listed(row.findings))
    : sentence({ ...question, verdict: row.verdict, findings: [] });
  return answer(
    el(
      "div",
      { class: `rf-banner rf-banner--${slug(row.verdict)}` },
      mark(row.verdict),
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, capital(row.verdict)),
      el("p", { class: "rf-banner__says" }, says),
      row.offer ? el("p", { class: "rf-banner__order" }, row.offer) : null,
    ),
  );
}
