"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What to use instead: every way that ends better, the engine's own suggestions first, each one tap away. */
(function (check, ui) {
  const { el } = ui;
  const SHOWN = 4;

  check.remedies = function (judged, question, root) {
    if (judged.verdict === "safe") return null;
    const ways = better(judged, question).filter(({ through }) => through.every(check.carried));
    const choice = check.bagSwitch(switched);
    if (!ways.length) {
      return section(el("h3", {}, "Instead"), choice,
        el("p", {}, ui.bagOnly() ? "No single lead in your bag does better between these two." : "No single lead in this catalogue does better between these two."));
    }
    const [first, later] = [ways.slice(0, SHOWN), ways.slice(SHOWN)];
    return section(el("h3", {}, "Use instead"), choice,
      el("ul", {}, first.map(item)),
      later.length ? el("details", { class: "rf-more" }, el("summary", {}, `${later.length} more`), el("ul", {}, later.map(item))) : null);

    function section(...inside) {
      return el("section", { class: "rf-remedies" }, inside);
    }

    function switched() {
      const shown = document.querySelector(".rf-remedies"), anew = check.remedies(judged, question, root);
      shown.replaceWith(anew);
      anew.querySelector("[role=switch]").focus();
    }

    function item(way) {
      const names = way.through.map((id) => ui.lead(id).name).join(", then ") || "No lead, plugged straight in";
      return el("li", {}, el("a", { class: "rf-option", href: ui.address(root, question.from, way.through, question.into) },
        el("span", { class: "rf-option__name" }, names),
        way.findings && way.findings.length ? el("span", { class: "rf-option__more" }, way.findings.join(", ")) : null,
        ui.verdict(way.verdict)));
    }
  };

  /* Ways with a better verdict than this one and at least a working signal, best and simplest first, none twice. */
  function better(judged, { from, into }) {
    const found = new Map();
    for (const way of [...(judged.remedies || []), ...ui.rows(from, into)]) {
      const name = way.through.join();
      if (works(way.verdict) && ui.rank(way.verdict) < ui.rank(judged.verdict) && !found.has(name)) found.set(name, way);
    }
    return [...found.values()].sort((a, b) => ui.rank(a.verdict) - ui.rank(b.verdict) || ui.effort(a) - ui.effort(b));
  }

  const works = (verdict) => verdict === "safe" || verdict === "lossy";
})(Ringfence.check, Ringfence.ui);
