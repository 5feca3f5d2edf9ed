"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.bench = Ringfence.bench || {};

/* The halves most leads of the catalogue end in, before all others: a thumb finds XLR without going through the whole list. */
(function (bench, ui) {
  const { el, button } = ui;
  const SHOWN = 6;

  bench.often = function (halves, onchoose) {
    const counts = new Map();
    for (const lead of ui.leads()) for (const end of Object.values(lead.ends)) counts.set(`${end.connector}/${end.half}`, (counts.get(`${end.connector}/${end.half}`) || 0) + 1);
    const most = halves.filter(({ id }) => counts.has(id)).sort((a, b) => counts.get(b.id) - counts.get(a.id)).slice(0, SHOWN);
    return el("section", { class: "rf-picker__group rf-picker__group--first" }, el("h3", {}, "On most leads"), el("ul", {}, most.map((half) => el("li", {},
      button({ class: "rf-option rf-option--drawn", onclick: () => onchoose(half.id) }, ui.sides(half), el("span", { class: "rf-option__name" }, half.name), el("span", { class: "rf-option__more" }, ui.half(half)))))));
  };
})(Ringfence.bench, Ringfence.ui);
