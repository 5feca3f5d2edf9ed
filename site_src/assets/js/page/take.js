/* What a record page offers to take along: copying, PNG files, and the address the page is read at where no other is known. */

import { button } from "./button.js";
import { drawing, saver } from "./picture.js";

/* Copies the text of an element; where the browser refuses, selects it. */
async function copy(text, told) {
  try {
    await navigator.clipboard.writeText(text.textContent);
    told.textContent = "Copied";
  } catch {
    getSelection().selectAllChildren(text);
  }
}

function start() {
  const list = document.querySelector(".rf-take");
  if (!list) return;
  if (location.protocol !== "file:") {
    const here = new URL(list.dataset.root, location.href).href;
    list.querySelectorAll(".rf-site:empty").forEach((place) => {
      place.textContent = here;
    });
    list.querySelectorAll(".rf-take__bare").forEach((note) => note.remove());
  }
  list.querySelectorAll(".rf-take__text").forEach((text) => {
    const what = text.closest("dd").previousElementSibling.textContent;
    text.after(button("Copy", (told) => copy(text, told), `Copy: ${what}`));
  });
  const which = list.querySelector(".rf-take__which"),
    several = list.querySelectorAll(".rf-take__svg").length > 1;
  list.querySelectorAll(".rf-take__svg").forEach((link, place) => {
    const name = link.pathname
        .split("/")
        .pop()
        .replace(/\.svg$/, ""),
      caption = link.previousElementSibling.textContent;
    link.setAttribute("aria-label", `SVG: ${caption}`);
    link.after(saver("PNG", `PNG: ${caption}`, () => drawing(link.href, `${name}.png`)));
    if (several)
      link.parentNode.append(
        button(
          "Embed",
          (told) => {
            which.textContent = place ? `#${name}` : "";
            copy(which.parentNode, told);
          },
          `Embed: ${caption}`,
        ),
      );
  });
}

document.addEventListener("DOMContentLoaded", start);
