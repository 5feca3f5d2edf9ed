"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* Own numbers in an answer: what the engine is asked then, and the places they are shown and typed in, filled when their scripts are here. */
(function (check, ui) {
  /* Does this question rest on somebody's own numbers? */
  check.byOwn = (question) => Boolean(question.own) || ["from", "into"].some((side) => (Ringfence.data.local || []).includes(question[side]));

  /* {data, question} for the engine; null where the numbers cannot be put in. */
  check.asking = (question, data) => (!check.byOwn(question) ? { data, question } : Ringfence.own ? Ringfence.own.asked(question) : null);

  /* What check.judge resolves to, and with it `alone`: the catalogue's own answer, where that tells whether our number makes the danger. */
  check.found = async function (question) {
    const found = await check.judge(question);
    return found.judged && check.byOwn(question) ? { ...found, alone: await Ringfence.own.compared(found.judged, question) } : found;
  };

  /* The head of an answer by own numbers; null for any other. */
  check.ownHead = (judged, question, alone, onown) => (check.byOwn(question) ? Ringfence.own.head(judged, question, alone, onown) : null);

  /* The ways between two of which one is somebody's own, or a number of it; null for any other: the table has them. */
  check.ownWays = function (asked, root, onkit, ondone) {
    const question = ui.ownQuestion({ from: asked.from, into: asked.into, through: [], ...(asked.own ? { own: asked.own } : {}) });
    return question.own || question.named ? Ringfence.own.which(question, asked, root, onkit, ondone) : null;
  };

  check.instead = (judged, question, root) => (check.byOwn(question) ? Ringfence.own.ways(judged, question, root) : check.remedies(judged, question, root));

  /* The way from a verdict to the numbers that decide it, where a manual may know them; they stand further down, and come a little later. */
  const MANUAL = ["over-volts", "over-current", "over-power", "reversed-capacitor", "rating-not-known", "starved", "not-powered", "part-unpowered", "too-hot", "too-quiet", "level-not-known", "loaded-down"];

  check.toNumbers = function (judged, onown) {
    if (!onown || judged.verdict === "safe" || !check.deciding(judged).some(({ id }) => MANUAL.includes(id))) return null;
    return ui.button({ class: "rf-banner__manual", "data-key": "manual", onclick: (event) => opened(event.currentTarget) }, "What does your manual say? Type its number");
  };

  async function opened(button) {
    const answer = button.closest(".rf-answer"), section = () => answer.querySelector("section.rf-own");
    if (!await ui.withOwn()) return void button.replaceWith("The numbers did not load. Try again with a network.");
    while (!section() && answer.isConnected) await new Promise(ui.seen);
    const first = section()?.querySelector(".rf-own__open");
    if (!first) return;
    first.closest("details")?.setAttribute("open", "");
    if (first.getAttribute("aria-expanded") === "false") first.click();
    section().scrollIntoView();
  }

  /* Where the numbers of this answer can be typed. `onown({own})` asks the question anew with other numbers. */
  check.numbers = function (judged, question, onown) {
    const place = ui.el("div", { class: "rf-own" });
    if (onown) ui.withOwn().then((here) => { if (here && judged) place.replaceWith(Ringfence.own.fields(judged, question, onown)); });
    return place;
  };
})(Ringfence.check, Ringfence.ui);
