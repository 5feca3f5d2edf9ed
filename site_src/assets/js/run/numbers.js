"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* Below the answer: the numbers, what was guessed, what is never done. */
(function (page, runs, ui) {
  const { el } = ui;
  const short = (value) => Number(value.toPrecision(3));

  /* The table of numbers, quiet to loud. */
  page.numbers = function (answer, run, tables) {
    const row = (name, level) =>
      el(
        "tr",
        {},
        el("th", { scope: "row" }, name),
        ...[0, 1, 2].map((end) => el("td", {}, runs.oneFigure(level.volts[end], "V"))),
        el("td", {}, level.below[1] === null ? "–" : runs.decibels(level.below[1])),
      );
    const rows = runs.PATHS.filter((name) => answer.paths[name].volts[2]).map((name) =>
      row(tables.formulas[name].name, answer.paths[name]),
    );
    const treble = runs.trebleOf(run, tables);
    return el(
      "details",
      { class: "rf-fold" },
      el("summary", {}, el("strong", {}, "Numbers")),
      el(
        "div",
        { class: "rf-scroll", tabindex: "0", role: "group", "aria-label": "Numbers" },
        el(
          "table",
          { class: "rf-table" },
          el(
            "thead",
            {},
            el(
              "tr",
              {},
              ...["at the input", "quiet", "typical", "loud", "below what is wanted"].map((one) =>
                el("th", { scope: "col" }, one),
              ),
            ),
          ),
          el("tbody", {}, ...rows, row("all together", answer.total)),
        ),
      ),
      el(
        "p",
        { class: "rf-fine" },
        `Wanted: ${runs.oneFigure(answer.wanted[1], "V")} at the input. ` +
          (treble < -0.5 ? `Treble at 20 kHz: ${runs.decibels(treble)}.` : "All of the treble is left."),
      ),
    );
  };

  /* What was guessed, with a field for each number that can be replaced. */
  page.guessed = function (answer, run, tables, change) {
    const replaced = Object.keys(run.assume).map((key) => ({
      key,
      words: tables.constants[key] ? tables.constants[key].words : key,
      reason: "Yours.",
    }));
    const field = (one) => {
      const unit = tables.units[one.key] === "1" ? "" : tables.units[one.key];
      return page.number(one.words, unit, 1, runs.LIMITS.assumed, run.assume[one.key] || 0, (value) =>
        change((it) => {
          if (value) it.assume[one.key] = value;
          else delete it.assume[one.key];
        }),
      );
    };
    const values = (one) =>
      one.values && one.values.length
        ? `${one.values.map(short).join(" .. ")} ${one.unit === "1" ? "" : one.unit}. `
        : "";
    return el(
      "details",
      { class: "rf-fold" },
      el("summary", {}, el("strong", {}, "What was guessed")),
      el(
        "ul",
        { class: "rf-run__guesses" },
        [...answer.guesses, ...replaced].map((one) =>
          el(
            "li",
            {},
            el("strong", {}, one.words),
            ` ${values(one)}${one.reason} `,
            one.evidence ? el("span", { class: "rf-grade" }, one.evidence) : null,
            one.key ? el("div", { class: "rf-form" }, field(one)) : null,
          ),
        ),
      ),
    );
  };

  page.never = (tables) =>
    el(
      "details",
      { class: "rf-fold" },
      el("summary", {}, el("strong", {}, "Never")),
      el(
        "ul",
        {},
        Object.values(tables.never).map((row) => el("li", {}, `${row.words} ${row.why}`)),
      ),
    );
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
