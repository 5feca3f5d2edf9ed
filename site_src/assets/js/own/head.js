"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.own = Ringfence.own || {};

/* The head of an answer that rests on own numbers: the verdict with whose number it is, what the number does not settle, and the verdict without it. */
(function (own, ui) {
  const { el, button } = ui;

  own.head = function (judged, question) {
    const { check } = Ringfence, used = own.used(question), alone = once(() => own.alone(question));
    if (!used.length) return null;
    const danger = judged.verdict === "dangerous", ours = !danger || own.caused(judged, alone);
    const line = (name, words) => (words ? el("p", { class: `rf-banner__${name}` }, words) : null);
    return el("div", { class: `rf-banner rf-banner--${ui.slug(judged.verdict)} rf-banner--own`, "data-verdict": judged.verdict, "data-own": String(ours) },
      danger ? ui.mark(judged.verdict) : own.mark(judged.verdict),
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, ui.capital(judged.verdict), ours ? [",", el("span", { class: "rf-own__by" }, judged.own.slice(1).replace(/(\d) /g, "$1\u00a0"))] : null),
      line("when", check.condition(judged)), line("says", check.sentence(judged)), ours ? null : line("own", own.remains(judged, used)),
      line("order", judged.offer), line("plugs", check.marked(judged)), without(alone));
  };

  const once = (make) => { let made = null; return () => (made = made || make()); };

  /* What the catalogue says of the same connection; null for a port of somebody's own file, which has no other numbers. */
  own.alone = (question) => (own.isLocal(question.from) || own.isLocal(question.into) ? {} : Ringfence.check.judge({ from: question.from, through: question.through, into: question.into }));

  /* Is it our number that makes it dangerous? */
  own.caused = function (judged, alone) {
    const deciding = Ringfence.check.deciding(judged);
    if (deciding.length && deciding.every(({ evidence }) => evidence === own.GRADE)) return true;
    const { judged: other } = alone();
    return Boolean(other) && other.verdict !== "dangerous";
  };

  /* What a danger rests on that the number does not settle. */
  own.remains = function (judged, used) {
    const finding = Ringfence.check.deciding(judged).find(({ evidence }) => evidence !== own.GRADE) || judged.findings[0];
    const what = used.length > 1 ? "Your numbers do not settle it" : `Your number, ${own.pretty(used[0].shown)}, does not settle it`;
    const limit = finding.limit === null || finding.limit === undefined ? "a rating that is not known" : `its limit of ${ui.amount(finding.limit, finding.unit)}`;
    return `${what}: what decides is the ${finding.where}, with ${limit} (${finding.evidence}).`;
  };

  /* One tap shows the verdict without it. */
  function without(alone) {
    const place = el("div", { class: "rf-own__alone", role: "status", hidden: true });
    const open = button({ class: "rf-own__without", "data-key": "without", "aria-expanded": "false", onclick: show }, "Show it without your number");
    return el("div", { class: "rf-own__foot" }, open, place);

    function show() {
      const { judged, failed } = alone();
      place.hidden = !place.hidden;
      open.setAttribute("aria-expanded", String(!place.hidden));
      open.textContent = place.hidden ? "Show it without your number" : "Hide it";
      if (!place.childElementCount) place.append(...(judged ? [ui.verdict(judged.verdict), el("p", {}, `By the catalogue alone: ${Ringfence.check.sentence(judged)}`)]
        : [el("p", {}, failed || "This device stands in a file of its own; the catalogue has no other numbers for it.")]));
    }
  }
})(Ringfence.own, Ringfence.ui);
