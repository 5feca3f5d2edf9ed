"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What stands on the first page beside the question: the other doors. And what a question was taken for, where it could have meant something else. */
(function (check, ui) {
  const { el } = ui;
  const DOORS = [["recognise/", "What is this plug?"], ["adapter/", "Looking at an adapter?"], ["workshop/", "Test a lead"], ["bag/", "My kit"]];

  check.doors = (root) => el("nav", { class: "rf-doors", "aria-label": "Other questions" }, el("ul", {}, DOORS.map(([address, words]) => el("li", {}, el("a", { href: `${root}${address}` }, words)))));

  /* `words` is what a question in words was understood as, by step; null where nothing was guessed. */
  check.guessed = function (words, choose) {
    const open = Object.entries(words).filter(([step, one]) => step !== "through" && one.id && one.others && one.others.length);
    if (!open.length) return null;
    return el("div", { class: "rf-guessed" }, open.map(([step, { id, text, others }]) => el("div", {},
      el("p", {}, `“${text}” taken for: ${ui.port(id).name}. You meant another one?`),
      el("div", { class: "rf-chips" }, others.map((other) => ui.button({ class: "rf-chip", onclick: () => choose(step, other) }, ui.port(other).name))))));
  };
})(Ringfence.check, Ringfence.ui);
