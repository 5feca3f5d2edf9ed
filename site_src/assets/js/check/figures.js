"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The numbers of what works: what is left of a supply, how much room there is, what a run keeps out. */
(function (check, ui) {
  const { el } = ui;

  check.figures = function ({ figures, settings }) {
    if (!figures || !figures.length) return null;
    const note = settings.length > 1 ? "With every supply on, at the worst tolerances." : "At the worst tolerances.";
    return el("section", { class: "rf-got" }, el("h3", {}, "What you get"),
      el("dl", { class: "rf-got__list" }, figures.map(({ id, says }) =>
        el("div", { "data-figure": id }, el("dt", {}, ui.capital(id.replaceAll("-", " "))), el("dd", {}, ui.sentence(says))))),
      el("p", { class: "rf-form__note" }, note));
  };
})(Ringfence.check, Ringfence.ui);
