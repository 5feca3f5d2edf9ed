/* A word of the glossary opens where it stands; a second press closes it. Where its text cannot be had, the link leads to it as ever. */

import { script } from "./script.js";

const own = document.currentScript.src,
  said = () => window.Ringfence.glossary || {};

document.addEventListener("DOMContentLoaded", () =>
  document.querySelectorAll("a.rf-term").forEach((link) => link.setAttribute("aria-expanded", "false")),
);

document.addEventListener("click", async (event) => {
  const link = event.target.closest("a.rf-term");
  if (!link || event.button || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  const opened = link.nextElementSibling;
  if (opened && opened.matches(".rf-term__says")) {
    opened.remove();
    link.setAttribute("aria-expanded", "false");
    return;
  }
  const anchor = decodeURIComponent(link.hash.slice(1));
  if (!window.Ringfence.glossary) await script(new URL("glossary.js", own).href);
  if (!Object.hasOwn(said(), anchor)) location.assign(link.href);
  else if (link.getAttribute("aria-expanded") !== "true") open(link, ...said()[anchor]);
});

function open(link, term, says) {
  const box = document.createElement("span"),
    name = document.createElement("strong"),
    all = document.createElement("a");
  name.textContent = term;
  Object.assign(all, { href: link.href, textContent: "All words" });
  Object.assign(box, { className: "rf-term__says" });
  box.setAttribute("role", "note");
  box.append(name, `: ${says} `, all);
  link.after(box);
  link.setAttribute("aria-expanded", "true");
}
