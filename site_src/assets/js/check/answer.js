"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The answer: verdict, why, per setting, what to switch, what to use instead, the chain, cautions, and what to pass on. */
(function (check, ui) {
  const { el } = ui;

  /* {element, announce}: `announce` is what a screen reader is told. `root` leads to the top of the site. In `brief`, what a frame on
     another page has room for: the verdict, what to switch, cautions and the chain. */
  check.answer = function (question, root, brief = false) {
    const { judged, failed } = check.judge(question);
    const told = judged ? null : broken(failed, question);
    const parts = judged ? verdict(judged, question, root, brief) : banner(told, question);
    return {
      element: el("section", { class: "rf-answer", "aria-label": "Answer" }, parts,
        check.chain(question, root), brief ? null : check.share(question, judged, root)),
      announce: judged ? `Verdict: ${judged.verdict}. ${check.sentence(judged)} ${check.condition(judged)}`.trim() : `${told.head}. ${told.says}`,
    };
  };

  function verdict(judged, question, root, brief) {
    const better = check.better(judged, question);
    return [
      el("div", { class: `rf-banner rf-banner--${ui.slug(judged.verdict)}`, "data-verdict": judged.verdict },
        ui.mark(judged.verdict),
        el("h2", { class: "rf-answer__head", tabindex: "-1" }, ui.capital(judged.verdict)),
        el("p", { class: "rf-banner__says" }, check.sentence(judged)),
        check.condition(judged) ? el("p", { class: "rf-banner__when" }, check.condition(judged)) : null),
      better ? el("p", { class: "rf-switch" }, better) : null,
      brief ? null : check.remedies(judged, question, root),
      ui.takeCare(check.careful(question)),
      ...(brief ? [] : [check.findings(judged, root, (finding) => check.working(question, finding)), check.settings(judged, question)]),
    ];
  }

  /* No live answer: say so, and give the generator's verdict where there is one, with its name on it. */
  function broken(failed, question) {
    const row = ui.row(question.from, question.through, question.into);
    if (!row) return { head: "Not worked out", says: `${failed} Treat this connection as dangerous until you know better.` };
    const why = row.findings.length ? ` (${row.findings.join(", ")})` : "";
    return { row, head: `${ui.capital(row.verdict)}, from the table`, says: `${failed} The table made with this page says: ${row.verdict}${why}.` };
  }

  function banner({ row, head, says }, question) {
    return [
      el("div", { class: "rf-banner rf-banner--broken" }, row ? ui.mark(row.verdict) : null,
        el("h2", { class: "rf-answer__head", tabindex: "-1" }, head), el("p", { class: "rf-banner__says" }, says)),
      ui.takeCare(check.careful(question)),
    ];
  }

  check.notFound = (texts) => el("div", { class: "rf-unknown", role: "alert" },
    texts.map((text) => el("p", {}, "Not found: ", el("code", {}, text))),
    el("p", {}, "Nothing here goes by that id, so there is no answer for this address. Choose again below."));
})(Ringfence.check, Ringfence.ui);
