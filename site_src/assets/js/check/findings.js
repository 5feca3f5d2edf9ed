"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The findings, worst first, each with its number, its limit, when, where and how we know; and the verdict per setting. */
(function (check, ui) {
  const { el } = ui;
  const SHOWN = 4;

  /* `work(finding)` makes what stands under a finding to show how it was worked out, and `work(null)` how the signal arrives where nothing
     stands against it. */
  check.findings = function (judged, root, work = () => null) {
    const arrives = check.deciding(judged).length ? null : work(null);
    if (!judged.findings.length && !arrives) return null;
    const [first, later] = shared(judged);
    return el("section", { class: "rf-findings" },
      el("h3", {}, judged.verdict === "does not fit" ? "Why" : "Why, in numbers"),
      arrives ? el("p", { class: "rf-finding__arrives" }, "Nothing decides against it: the signal arrives.") : null, arrives,
      el("ul", {}, first.map(item)),
      later.length ? el("details", { class: "rf-more" }, el("summary", {}, ui.count(later.length, "more finding", "more findings")), el("ul", {}, later.map(item))) : null);

    function item(finding) {
      return el("li", { class: "rf-finding", "data-finding": finding.id }, card(finding, root), work(finding));
    }
  };

  /* Worst first; what says the same of two like parts is told once. The first few stand open. */
  function shared(judged) {
    const seen = new Set();
    const once = judged.findings.filter((finding) => {
      const told = JSON.stringify([finding.id, finding.severity, finding.says, finding.when]);
      return !seen.has(told) && seen.add(told);
    });
    const sorted = once.sort((a, b) => ui.rank(b.severity) - ui.rank(a.severity));
    return [sorted.slice(0, SHOWN), sorted.slice(SHOWN)];
  }

  function card(finding, root) {
    const known = ui.rank(finding.severity) >= 0;
    return [
      el("p", { class: "rf-finding__head" }, known ? ui.verdict(finding.severity) : el("span", { class: "rf-note" }, finding.severity),
        el("a", { class: "rf-finding__id", href: `${root}guides/glossary/#${encodeURIComponent(finding.id)}` }, finding.id.replaceAll("-", " "))),
      finding.says ? el("p", { class: "rf-finding__says" }, ui.sentence(finding.says)) : null,
      measured(finding),
      el("dl", { class: "rf-finding__facts" },
        fact("Where", finding.where), fact("When", finding.when), fact("Do", finding.remedy), proof(finding, root)),
    ];
  }

  function measured({ value, unit, limit }) {
    if (value === null || value === undefined || !unit) return null;
    const held = limit === null || limit === undefined ? null : el("span", { class: "rf-finding__limit" }, `limit ${ui.amount(limit, unit)}`);
    return el("p", { class: "rf-finding__number" }, el("strong", {}, ui.amount(value, unit)), held);
  }

  const fact = (name, text) => (text ? el("div", {}, el("dt", {}, name), el("dd", {}, text)) : null);

  function proof({ evidence, cite }, root) {
    if (!evidence) return null;
    const sources = (cite || []).map((id) => {
      const source = ui.own(Ringfence.data.sources, id);
      return el("a", { href: `${root}sources/#${encodeURIComponent(id)}` }, source ? source.title : id);
    });
    return el("div", {}, el("dt", {}, "Known from"),
      el("dd", {}, el("span", { class: "rf-grade" }, evidence), sources.map((link) => el("span", { class: "rf-source" }, link))));
  }

  /* One line per switch position, and one for the moment of plugging. Nothing to say when there is only one case. */
  check.settings = function (judged, question) {
    const rows = judged.settings.map(({ supplies, verdict }) => [ui.capital(check.setting(supplies, question)), verdict]);
    if (ui.rank(judged.plugging) >= 0) rows.push(["While plugging, the worst moment", judged.plugging]);
    if (rows.length < 2) return null;
    return el("section", { class: "rf-settings" },
      el("h3", {}, "Setting by setting"),
      el("table", { class: "rf-table" }, el("tbody", {}, rows.map(([name, verdict]) =>
        el("tr", {}, el("th", { scope: "row" }, name), el("td", {}, ui.verdict(verdict)))))));
  };
})(Ringfence.check, Ringfence.ui);
