/* A button that copies a text, and shows it for copying by hand where the browser refuses. */

import { button, el } from "./dom.js";

export function copier(words, text, label) {
  const place = el(
    "textarea",
    { class: "rf-copy__text", readonly: true, rows: "3", "aria-label": label, hidden: true },
    text,
  );
  const copy = button({ class: "rf-button rf-button--quiet", "data-key": words, onclick: copied }, words);
  return el("div", { class: "rf-copy" }, copy, place);

  async function copied() {
    try {
      await navigator.clipboard.writeText(text);
      copy.textContent = "Copied";
    } catch {
      place.hidden = false;
      place.select();
    }
  }
}
