/* Each sheet prints alone: a button under its heading leaves everything else of the page off the paper. */

import { button } from "../ui/dom.js";

const SHEETS = ["test-sheet", "build-sheet", "ordering-sheet"];

function start() {
  for (const id of SHEETS) {
    const heading = document.getElementById(id);
    if (heading)
      heading.after(
        button(
          { class: "rf-button rf-button--quiet rf-noprint", onclick: () => print(heading) },
          "Print this sheet",
        ),
      );
  }
  window.addEventListener("afterprint", whole);
}

function whole() {
  for (const hidden of document.querySelectorAll(".rf-off-paper")) hidden.classList.remove("rf-off-paper");
}

function print(heading) {
  whole();
  let on = false;
  for (const one of heading.parentElement.children) {
    if (one.tagName === "H2") on = one === heading;
    if (!on && one.tagName !== "H1") one.classList.add("rf-off-paper");
  }
  window.print();
}

document.addEventListener("DOMContentLoaded", start);
