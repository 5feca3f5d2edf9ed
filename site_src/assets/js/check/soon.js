"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The verdict as the generator's table has it, shown at once, while the engine works out its numbers: the same engine made the table. Beside it
   stands what is wrong with this copy; where parts of two versions met, there is no verdict. */
(function (check, ui) {
  const { el } = ui;

  /* The head of an answer. What the table does not know, several leads in a row or own numbers, is told to be under way. */
  check.soon = function (question) {
    const own = check.byOwn(question), row = own || ui.mixed() ? null : ui.row(question.from, question.through, question.into);
    const answer = (...parts) => el("section", { class: "rf-answer", "aria-label": "Answer", "aria-busy": "true" }, Ringfence.page?.standing?.() || null, parts);
    if (!row) return answer(el("h2", { class: "rf-answer__head", tabindex: "-1" }, own ? "Judging by your number …" : "Working it out …"));
    const says = row.findings.length ? ui.sentence(ui.listed(row.findings)) : check.sentence({ ...question, verdict: row.verdict, findings: [] });
    return answer(el("div", { class: `rf-banner rf-banner--${ui.slug(row.verdict)}` }, ui.mark(row.verdict),
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, ui.capital(row.verdict)), el("p", { class: "rf-banner__says" }, says),
      row.offer ? el("p", { class: "rf-banner__order" }, row.offer) : null));
  };
})(Ringfence.check, Ringfence.ui);
