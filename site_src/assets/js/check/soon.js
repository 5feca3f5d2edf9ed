"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The verdict as the generator's table has it, shown at once, while the engine works out its numbers: the same engine made the table. */
(function (check, ui) {
  const { el } = ui;

  /* The head of an answer, or null where the table has no such connection. By own numbers the table knows nothing: that they are being judged
     is said at once, and the tap on the number is over. */
  check.soon = function (question) {
    const { from, through, into } = question;
    if (check.byOwn(question)) return el("section", { class: "rf-answer", "aria-label": "Answer", "aria-busy": "true" }, el("h2", { class: "rf-answer__head", tabindex: "-1" }, "Judging by your number …"));
    const row = ui.row(from, through, into);
    if (!row) return null;
    const says = row.findings.length ? ui.sentence(ui.listed(row.findings)) : check.sentence({ verdict: row.verdict, findings: [] });
    return el("section", { class: "rf-answer", "aria-label": "Answer", "aria-busy": "true" },
      el("div", { class: `rf-banner rf-banner--${ui.slug(row.verdict)}` }, ui.mark(row.verdict),
        el("h2", { class: "rf-answer__head", tabindex: "-1" }, ui.capital(row.verdict)), el("p", { class: "rf-banner__says" }, says),
        row.offer ? el("p", { class: "rf-banner__order" }, row.offer) : null));
  };
})(Ringfence.check, Ringfence.ui);
