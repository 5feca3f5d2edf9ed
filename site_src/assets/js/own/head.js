"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.own = Ringfence.own || {};

/* The head of an answer that rests on own numbers: the verdict with whose number it is, what the number does not settle, and the verdict without it. */
(function (own, ui) {
  const { el, button } = ui;

  /* `alone` is what own.compared found. */
  own.head = function (judged, question, alone, onown) {
    const { check } = Ringfence, used = own.used(question);
    if (!used.length) return null;
    const danger = judged.verdict === "dangerous", ours = !danger || own.caused(judged, alone);
    const line = (name, words) => (words ? el("p", { class: `rf-banner__${name}` }, words) : null);
    return el("div", { class: `rf-banner rf-banner--${ui.slug(judged.verdict)} rf-banner--own`, "data-verdict": judged.verdict, "data-own": String(ours) },
      danger ? ui.mark(judged.verdict) : own.mark(judged.verdict),
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, ui.capital(judged.verdict), ours ? [",", el("span", { class: "rf-own__by" }, judged.own.slice(1).replace(/(\d) /g, "$1\u00a0"))] : null),
      line("when", check.condition(judged)), line("says", check.sentence(judged)), ours ? null : line("own", own.remains(judged, used)),
      line("order", judged.offer), line("plugs", check.marked(judged)), ours ? null : check.toNumbers(judged, onown), without(question, alone));
  };

  /* What the catalogue says of the same connection; nothing for a port of somebody's own file, which has no other numbers. */
  own.alone = async ({ from, through, into }) => (own.isLocal(from) || own.isLocal(into) ? {} : Ringfence.check.judge({ from, through, into }, { lane: "alone" }));

  /* The same where only that tells whether our number makes it dangerous, else null. */
  own.compared = async (judged, question) => (judged.verdict !== "dangerous" || byNumbers(judged) ? null : own.alone(question));

  /* Is it our number that makes it dangerous? */
  own.caused = (judged, alone) => byNumbers(judged) || Boolean(alone && alone.judged) && alone.judged.verdict !== "dangerous";

  function byNumbers(judged) {
    const deciding = Ringfence.check.deciding(judged);
    return deciding.length > 0 && deciding.every(({ evidence }) => evidence === own.GRADE);
  }

  /* What a danger rests on that the number does not settle. */
  own.remains = function (judged, used) {
    const finding = Ringfence.check.deciding(judged).find(({ evidence }) => evidence !== own.GRADE) || judged.findings[0];
    const what = used.length > 1 ? "Your numbers do not settle it" : `Your number, ${own.pretty(used[0].shown)}, does not settle it`;
    const limit = finding.limit === null || finding.limit === undefined ? "a rating that is not known" : `its limit of ${ui.amount(finding.limit, finding.unit)}`;
    return `${what}: what decides is the ${finding.where}, with ${limit} (${finding.evidence}).`;
  };

  /* One tap shows the verdict without it. */
  function without(question, alone) {
    const place = el("div", { class: "rf-own__alone", role: "status", hidden: true });
    const open = button({ class: "rf-own__without", "data-key": "without", "aria-expanded": "false", onclick: show }, "Show it without your number");
    return el("div", { class: "rf-own__foot" }, open, place);

    async function show() {
      place.hidden = !place.hidden;
      open.setAttribute("aria-expanded", String(!place.hidden));
      open.textContent = place.hidden ? "Show it without your number" : "Hide it";
      if (place.childElementCount) return;
      place.append(el("p", {}, "Working it out …"));
      const { judged, failed } = alone || await own.alone(question);
      place.replaceChildren(...(judged ? [ui.verdict(judged.verdict), el("p", {}, `By the catalogue alone: ${Ringfence.check.sentence(judged)}`)]
        : [el("p", {}, failed || "This device stands in a file of its own; the catalogue has no other numbers for it.")]));
    }
  }
})(Ringfence.own, Ringfence.ui);
