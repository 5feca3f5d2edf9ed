"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ways = Ringfence.ways || {};
Ringfence.check = Ringfence.check || {};

/* The short lines of an answer: what the verdict means here, whether this lead is the best there is, and what to do. They come with the list of
   ways, after the first load; without it an answer goes without them. */
(function (check, ui) {
  const { el } = ui;
  const named = (findings) => findings.map(({ id }) => id);
  const decided = (judged) => ({ ...judged, findings: named(check.deciding(judged)) });

  /* "Works, but: one side only (audible)". */
  check.means = (judged) => (judged.verdict !== "does not fit" ? `${Ringfence.ways.means(decided(judged))}.` : "");

  /* The best of the table, where it beats the way that was asked about. */
  function beats(judged, question) {
    const [best] = Ringfence.ways.of(question.from, question.into).filter((way) => ui.works(way) && way.through.every(check.carried));
    return best && Ringfence.ways.better(best, { ...decided(judged), ...question }) ? best : null;
  }

  /* That no single lead does better is what a person came to hear. */
  check.best = (judged, question) => (Ringfence.table && ui.works(judged) && judged.verdict !== "safe" && !beats(judged, question)
    ? `${question.through.length ? "This is the best lead there is" : "There is no better way"} between these two.` : "");

  /* One line on what to do; null where nothing is to be done, or the verdict has said it. */
  check.todo = function (judged, question, root) {
    if (judged.verdict === "safe" || judged.offer || check.better(judged, question).startsWith("Before")) return null;
    const best = beats(judged, question), [first] = check.deciding(judged), heading = el("strong", {}, "Do this: ");
    if (best) return el("p", { class: "rf-do" }, heading, "take ", el("a", { href: ui.address(root, question.from, best.through, question.into) }, best.through.length ? Ringfence.ways.named(best.through) : "no lead: plug it straight in"), " instead.");
    return first && first.remedy ? el("p", { class: "rf-do" }, heading, first.remedy) : null;
  };
})(Ringfence.check, Ringfence.ui);
