/* The findings, worst first, each with its number, its limit, when, where and how we know. */

import { el, own, verdict } from "../ui/dom.js";
import { rank } from "../ui/table.js";
import { amount as amountOf, count, sentence } from "../ui/words.js";
import { deciding } from "./judged.js";
import { setting } from "./settings.js";
import { inSetting } from "./switches.js";

const SHOWN = 1; // the one that decides stands open

/* `work(finding)` makes what stands under a finding to show how it was worked out, and `work(null)` how the signal arrives where nothing
   stands against it. `number` is the setting that is looked at; without it, the findings of all settings are told together. */
export function findings(judged, root, work = () => null, number = null) {
  const here = number === null ? null : Ringfence.engine.inSetting(judged, number);
  const seen = here ? inSetting(judged, number) : judged,
    arrives = deciding(seen).length ? null : work(null);
  if (!judged.findings.length && !arrives) return null;
  return el(
    "section",
    { class: "rf-findings" },
    el("h3", {}, judged.verdict === "does not fit" ? "Why" : "Why, in numbers"),
    arrives
      ? el("p", { class: "rf-finding__arrives" }, "Nothing decides against it: the signal arrives.")
      : null,
    arrives,
    here ? apart(here) : list(judged.findings),
  );

  /* What hangs on the switches and what does not, the worse of the two first. */
  function apart(held) {
    const { settings } = judged,
      some =
        settings.length > 2
          ? "Not in every setting"
          : `Only with ${setting(settings[number].supplies, judged, judged)}`;
    const group = (title, always, when) => ({
      title,
      findings: held
        .filter((one) => one.always === always)
        .map(({ finding }) => ({ ...finding, when: when(finding), asked: finding })),
    });
    const groups = [
      group(some, false, ({ when }) => when),
      group("In every setting", true, ({ state }) => `in every setting, ${Ringfence.engine.STATES[state]}`),
    ];
    const worst = ({ findings }) => Math.max(-1, ...findings.map(({ severity }) => rank(severity)));
    const told = groups
      .filter(({ findings }) => findings.length)
      .sort((a, b) => worst(b) - worst(a))
      .flatMap(({ title, findings }) => [el("h4", { class: "rf-reach" }, title), ...list(findings)]);
    return told.length ? told : el("p", {}, "Nothing to tell of this setting.");
  }

  function list(findings) {
    const [first, later] = shared(findings);
    return [
      el("ul", {}, first.map(item)),
      later.length
        ? el(
            "details",
            { class: "rf-more" },
            el("summary", {}, count(later.length, "more finding", "more findings")),
            el("ul", {}, later.map(item)),
          )
        : null,
    ];
  }

  function item(finding) {
    return el(
      "li",
      { class: "rf-finding", "data-finding": finding.id },
      card(finding, root),
      work(finding.asked || finding),
    );
  }
}

/* Worst first. What is the same in two places, or in one place at two moments, is told once with both. The first stands open. */
function shared(findings) {
  const told = [];
  for (const finding of findings) {
    const alike = told.find(
      (one) =>
        ["id", "severity", "remedy"].every((name) => one[name] === finding[name]) &&
        (one.where === finding.where
          ? worded(one) === worded(finding)
          : amount(one) === amount(finding) && one.when === finding.when),
    );
    if (!alike) told.push({ ...finding, asked: finding.asked || finding, also: new Set() });
    else if (alike.where !== finding.where) alike.also.add(finding.where);
    else if (alike.when !== finding.when)
      alike.also.add(`${finding.when.split(", ").pop()} ${amount(finding)}`);
  }
  const sorted = told.sort((a, b) => rank(b.severity) - rank(a.severity));
  return [sorted.slice(0, SHOWN), sorted.slice(SHOWN)];
}

const amount = ({ value, unit }) => amountOf(value, unit);
const worded = ({ says }) => says.replace(/[\d.]+/g, ""); // what is said, but for its numbers

function card(finding, root) {
  const known = rank(finding.severity) >= 0;
  return [
    el(
      "p",
      { class: "rf-finding__head" },
      known ? verdict(finding.severity) : el("span", { class: "rf-note" }, finding.severity),
      el(
        "a",
        { class: "rf-finding__id", href: `${root}guides/glossary/#${encodeURIComponent(finding.id)}` },
        finding.id.replaceAll("-", " "),
      ),
    ),
    finding.says ? el("p", { class: "rf-finding__says" }, sentence(finding.says)) : null,
    measured(finding),
    el(
      "dl",
      { class: "rf-finding__facts" },
      fact("Where", finding.where),
      fact("Also", [...finding.also].join(", ")),
      fact("When", finding.when),
      fact("Do", finding.remedy),
      proof(finding, root),
    ),
  ];
}

function measured({ value, unit, limit }) {
  if (value === null || value === undefined || !unit) return null;
  const held =
    limit === null || limit === undefined
      ? null
      : el("span", { class: "rf-finding__limit" }, `limit ${amountOf(limit, unit)}`);
  return el("p", { class: "rf-finding__number" }, el("strong", {}, amountOf(value, unit)), held);
}

const fact = (name, text) => (text ? el("div", {}, el("dt", {}, name), el("dd", {}, text)) : null);

function proof({ evidence, cite }, root) {
  if (!evidence) return null;
  const sources = (cite || []).map((id) => {
    const source = own(Ringfence.data.sources, id);
    return el("a", { href: `${root}sources/#${encodeURIComponent(id)}` }, source ? source.title : id);
  });
  return el(
    "div",
    {},
    el("dt", {}, "Known from"),
    el(
      "dd",
      {},
      el("span", { class: "rf-grade" }, evidence),
      sources.map((link) => el("span", { class: "rf-source" }, link)),
    ),
  );
}
