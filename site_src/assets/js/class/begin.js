/* What every page of the class begins with: its place on the page, the way to the top of the site, the line that is read aloud. `open` is called with
   these at once and with every new address. */

import { el } from "../ui/dom.js";

export function begin(id, open) {
  document.addEventListener("DOMContentLoaded", () => {
    const place = document.getElementById(id);
    if (!place) return;
    const opened = () =>
      open({ place, root: place.dataset.root, status: document.getElementById("rf-status") });
    window.addEventListener("hashchange", opened);
    opened();
  });
}

export const field = (label, control) =>
  el("label", { class: "rf-field rf-field--wide" }, el("span", {}, label), control);
