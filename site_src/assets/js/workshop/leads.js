/* The field over the list of leads: every word typed has to be in the name or the id. */

import { count as counted } from "../ui/words.js";

export const matches = (typed, text) =>
  typed
    .toLowerCase()
    .split(/\s+/)
    .filter(Boolean)
    .every((word) => text.toLowerCase().includes(word));

function start() {
  const field = document.getElementById("rf-leads-find"),
    count = document.getElementById("rf-leads-count");
  if (!field) return;
  const items = [...document.querySelectorAll(".rf-workshop__leads li")].map((item) => [
    item,
    `${item.textContent} ${item.querySelector("a").getAttribute("href")}`,
  ]);
  field.hidden = false;
  field.addEventListener("input", () => {
    let left = 0;
    for (const [item, text] of items) {
      item.hidden = !matches(field.value, text);
      left += item.hidden ? 0 : 1;
    }
    count.textContent = field.value.trim()
      ? left
        ? counted(left, "lead", "leads")
        : "No lead has all of these words in its name. Try fewer."
      : "";
  });
}

document.addEventListener("DOMContentLoaded", start);
