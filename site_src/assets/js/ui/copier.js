"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* A button that copies a text, and shows it for copying by hand where the browser refuses. */
(function (ui) {
  ui.copier = function (words, text, label) {
    const place = ui.el("textarea", { class: "rf-copy__text", readonly: true, rows: "3", "aria-label": label, hidden: true }, text);
    const copy = ui.button({ class: "rf-button rf-button--quiet", "data-key": words, onclick: copied }, words);
    return ui.el("div", { class: "rf-copy" }, copy, place);

    async function copied() {
      try {
        await navigator.clipboard.writeText(text);
        copy.textContent = "Copied";
      } catch (refused) {
        place.hidden = false;
        place.select();
      }
    }
  };
})(Ringfence.ui);
