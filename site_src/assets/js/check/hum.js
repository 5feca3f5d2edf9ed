"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* Hum, length and powering of what works come after the verdict: their scripts are asked for when there is an answer. The findings about
   balance then say what it means for these two. */
(function (check, ui) {
  const SCRIPTS = ["interference", "runs", "hum"], BALANCE = ["unbalanced", "balance-lost", "hum-on-earthed"];

  /* Where the section will stand; it goes away again where there is nothing to tell. */
  check.hum = function (question, judged, root) {
    if (!["safe", "lossy"].includes(judged.verdict) || !question.through.length) return null;
    const place = ui.el("div", { class: "rf-hum" });
    ui.seen(async () => {
      for (const name of SCRIPTS) if (!await ui.later(name)) { place.remove(); return; }
      const made = place.isConnected && Ringfence.hum.section(question, root);
      if (!made) { place.remove(); return; }
      const answer = place.closest(".rf-answer");
      place.replaceWith(made.element);
      answer.dataset.hum = made.sentence;
      check.balance(answer);
    });
    return place;
  };

  /* Once the sentence is known, the findings about balance tell it. */
  check.balance = function (answer) {
    for (const item of answer.dataset.hum ? answer.querySelectorAll(".rf-finding") : []) {
      if (!BALANCE.includes(item.dataset.finding) || item.querySelector(".rf-hum__finding")) continue;
      item.querySelector(".rf-finding__head").after(ui.el("p", { class: "rf-finding__says rf-hum__finding" }, answer.dataset.hum));
    }
  };
})(Ringfence.check, Ringfence.ui);
