"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ways = Ringfence.ways || {};

/* The answer to "I have this, it goes into that": the ways, best first, drawn small, each with its mark and what it loses. */
(function (ways, ui) {
  const { el } = ui, check = Ringfence.check || {};
  const SHOWN = 4;
  const kinds = (channels) => ui.listed([...new Set(channels.map(({ kind }) => kind))]);

  /* {element, announce} for a question {from, into}: of all leads, or only of those in one's kit. Where no single one works, chains are looked for
     at once. `onkit` shows the page anew after that was switched; `rows` are the ways, where they are not those of the table. The
     search knows devices of one's own, and no number that stands in an address alone. */
  ways.list = function (question, root, onkit, rows = ways.of(question.from, question.into)) {
    const found = rows.filter(({ through }) => through.every(check.carried)), good = found.filter(ui.works), bad = found.filter((way) => !ui.works(way));
    const said = ways.sentence(question, found), harm = bad.filter(({ verdict }) => verdict === "dangerous"), dead = bad.filter(({ verdict }) => verdict !== "dangerous");
    const head = el("h2", { class: "rf-answer__head", tabindex: "-1" }, good.length ? "Which lead?" : `No single lead ${ofKit()}works`);
    const further = !question.own && ways.speak(question.from, question.into) ? chains(question, root, good) : null;
    const element = el("section", { class: "rf-ways", "aria-label": "Ways" },
      el("div", { class: `rf-banner${found.some((way) => way.own) ? " rf-banner--own" : ""} rf-banner--${ui.slug(good.length ? (good[0].offered || good[0].verdict) : found.length ? found[0].verdict : "does not fit")}` },
        mark(good.length ? good[0].offered || good[0].verdict : found.length ? found[0].verdict : "does not fit", found[0]), head, el("p", { class: "rf-banner__says" }, said)),
      check.bagSwitch(onkit),
      good.length ? el("ol", { class: "rf-ways__list" }, good.slice(0, SHOWN).map((way, i) => item(way, question, root, i === 0))) : null,
      good.length > SHOWN ? folded(`${good.length - SHOWN} more that work`, good.slice(SHOWN), question, root) : null,
      further,
      harm.length ? folded(`${ui.count(harm.length, "way that fits", "ways that fit")} and ${harm.length > 1 ? "harm" : "harms"} something`, harm, question, root) : null,
      dead.length ? folded(`${ui.count(dead.length, "way that fits and stays", "ways that fit and stay")} silent`, dead, question, root) : null,
      check.shareNow ? el("div", { class: "rf-actions" }, check.shareNow({ ...ui.ownQuestion(question), through: null }, said, root)) : null);
    return { element, announce: said };
  };

  /* The first sentence: does it work, what with, what is lost. */
  ways.sentence = function ({ from, into }, found) {
    const [best] = found, silent = [from, into].every((id) => !ui.port(id).sources.length);
    if (silent) return `${brief(from)} sends nothing, nor does the ${brief(into).slice(4)}: nothing is heard, and phantom or another supply of one may harm the other.`;
    if (!ways.speak(from, into)) return `${brief(from)} sends ${kinds(ui.port(from).sources)}; ${brief(into)} takes ${kinds(ui.port(into).listeners)}. No lead turns one into the other.`;
    if (!best) return `The plugs do not fit, and no single lead ${ofKit()}joins these two.`;
    const take = best.through.length ? `take the ${ways.named(best.through)}` : "plug it straight in, no lead needed";
    if (best.offered) return `Works in the right order: ${take}. ${best.offer}`;
    if (best.verdict === "safe") return `Works: ${take}.`;
    if (best.verdict === "lossy") return `Works, but ${ui.listed(ways.losses(best.findings).slice(0, 3))}: ${take}.`;
    if (best.verdict === "no signal") return `Nothing is heard through any single lead${ui.bagOnly() ? " of your kit" : ""}: ${ui.listed(ways.losses(best.findings).slice(0, 2))}.`;
    return `No single lead ${ofKit()}does this without harm: ${ui.listed(ways.losses(best.findings).slice(0, 2))}.`;
  };

  /* A verdict by own numbers has a mark of its own, but for a danger. */
  const mark = (verdict, way) => (way && way.own && verdict !== "dangerous" ? Ringfence.own : ui).mark(verdict);

  const ofKit = () => (ui.bagOnly() ? "of your kit " : "");
  const brief = (id) => `The ${ui.port(id).name.split(",")[0].replace(/^[A-Z](?=[a-z])/, (first) => first.toLowerCase())}`;

  function item(way, question, root, best) {
    const [name, ...more] = way.through.length === 1 ? ui.lead(way.through[0]).name.split(", ") : [way.through.length ? ways.named(way.through) : "No lead"];
    const words = way.verdict === "lossy" && !way.offered ? [ui.listed(ways.losses(way.findings).slice(0, 3)), ways.matters(way.findings)] : [way.offer || ui.listed(ways.losses(way.findings).slice(0, 2)) || "nothing lost"];
    return el("li", {}, el("a", { class: `rf-way${best ? " rf-way--best" : ""}`, "data-through": way.through.join(), href: `${ui.address(root, question.from, way.through, question.into)}${question.own ? `&own=${encodeURIComponent(question.own)}` : ""}` },
      el("span", { class: "rf-way__drawn", "aria-hidden": "true" }, way.through.length ? way.through.map((id) => ui.sides(ui.lead(id))) : el("span", { class: "rf-way__straight" }, "→")),
      el("span", { class: "rf-way__name" }, best ? el("span", { class: "rf-way__best" }, "Best: ") : null, name),
      el("span", { class: "rf-way__more" }, way.through.length ? more.join(", ") : "plugged straight in"),
      el("span", { class: "rf-way__ends" }, (way.own ? Ringfence.own : ui).verdict(way.verdict), el("span", { class: "rf-way__loses" }, ui.capital(words[0])), words[1] ? el("span", { class: "rf-way__matters" }, words[1]) : null)));
  }

  const folded = (words, list, question, root) => el("details", { class: "rf-more" }, el("summary", {}, words), el("ol", { class: "rf-ways__list" }, list.map((way) => item(way, question, root, false))));

  /* Two and three leads in a row: at once where no single lead works, else on request. */
  function chains(question, root, good) {
    return check.further(question, (found) => {
      const better = ways.ranked(found.filter((way) => way.through.length > 1).map((way) => ({ ...question, ...way, findings: check.deciding(way).map(({ id }) => id) })));
      return better.length ? el("ol", { class: "rf-ways__list" }, better.map((way, i) => item(way, question, root, !good.length && i === 0))) : null;
    }, { atOnce: !good.length });
  }
})(Ringfence.ways, Ringfence.ui);
