"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.class = Ringfence.class || {};

/* The questions that came with the page, and whether an answer is right. */
(function (lessons, ui) {
  const FIXED = new Set(["verdict"]); // kinds whose choices have an order of their own

  lessons.bank = () => Ringfence.lessons.questions;
  lessons.core = () => lessons.bank().slice(0, Ringfence.lessons.core);
  lessons.find = (id) => lessons.bank().find((one) => one.id === id) || null;
  lessons.ready = (id) => Ringfence.lessons.lessons.find((one) => one.id === id) || null;

  /* The choices as they are shown: [id, text, why] each; contacts and verdicts keep their order. */
  lessons.choices = (one, chance) => (one.form === "tap" || FIXED.has(one.kind) ? one.choices : lessons.mixed(one.choices, chance));

  /* A number as people type it, or null. */
  lessons.number = function (text) {
    const said = String(text).trim().replace(",", ".").replace("−", "-");
    const found = /^[+-]?(\d+\.?\d*|\.\d+)/.exec(said);
    return found ? Number(found[0]) : null;
  };

  /* `given`: choice ids in the order they were chosen, or the typed number. */
  lessons.right = (one, given) => (one.target ? given !== null && Math.abs(given - one.target[0]) <= one.target[2] : given.join("\n") === one.answer.join("\n"));

  /* What would have been right, in words. */
  lessons.answer = function (one) {
    if (one.target) return `${String(one.target[0]).replace("-", "−")} ${one.target[1]}`;
    return one.answer.map((id) => one.choices.find(([each]) => each === id)[1]).join(", then ");
  };

  /* Why a wrong choice is wrong, where that is listed. */
  lessons.why = (one, given) => (one.target || one.form === "order" || lessons.right(one, given) ? "" : (one.choices.find(([id]) => id === given[0]) || [])[2] || "");

  /* What is given, in one line: for those who do not see the drawing. */
  lessons.said = (one) => (one.given || []).map(([name, value]) => `${name}: ${value}`).join("; ") || "The drawing this question is about";
  lessons.own = ui.own;
})(Ringfence.class, Ringfence.ui);
