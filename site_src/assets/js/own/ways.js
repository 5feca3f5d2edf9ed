"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.own = Ringfence.own || {};

/* What to use instead, ranked again by own numbers: every way the table has between the two classes is judged anew, one after the other. */
(function (own, ui) {
  const { el } = ui;
  const SHOWN = 4;

  own.ways = function (judged, question, root) {
    if (judged.verdict === "safe") return null;
    const { check } = Ringfence, place = el("span", { "aria-hidden": "true" }), rows = ui.rows(question.from, question.into).filter(({ through }) => through.every(check.carried));
    const told = el("p", { class: "rf-form__note", role: "status" }, "Ranking the ways again by your numbers …", place), list = el("div", {});
    const found = [], section = el("section", { class: "rf-remedies" }, el("h3", {}, "Use instead, by your numbers"), told, list);
    check.judgeAll(rows.map(({ through }) => ({ ...question, through })), ({ judged: way }, { through }, number) => {
      place.textContent = ` ${number} of ${rows.length}`;
      if (way && ui.works(way) && ui.worth(way) < ui.worth(judged) || way && ui.works(way) && ui.worth(way) === ui.worth(judged) && losses(way) < losses(judged)) found.push({ ...way, through });
    }, done);
    return section;

    function done() {
      found.sort((a, b) => ui.worth(a) - ui.worth(b) || losses(a) - losses(b) || ui.effort(a) - ui.effort(b));
      told.textContent = found.length ? `${ui.count(found.length, "way does", "ways do")} better.` : "No single lead in this catalogue does better between these two.";
      list.append(el("ul", {}, found.slice(0, SHOWN).map(item)), found.length > SHOWN
        ? el("details", { class: "rf-more" }, el("summary", {}, `${found.length - SHOWN} more`), el("ul", {}, found.slice(SHOWN).map(item))) : "");
    }

    function item({ through, verdict, findings, offer }) {
      const href = own.address(question, through, root), lost = [...new Set(check.deciding({ verdict, findings }).map(({ id }) => id.replaceAll("-", " ")))];
      return el("li", {}, el("a", { class: "rf-option", href }, el("span", { class: "rf-option__name" }, through.map((id) => ui.lead(id).name).join(", then ") || "No lead, plugged straight in"),
        lost.length ? el("span", { class: "rf-option__more" }, lost.join(", ")) : null, offer ? el("span", { class: "rf-option__more rf-option__order" }, offer) : null, own.verdict(verdict)));
    }
  };

  const losses = ({ findings }) => Ringfence.engine.loss(Ringfence.rulebook, findings.map(({ id }) => id));
})(Ringfence.own, Ringfence.ui);
