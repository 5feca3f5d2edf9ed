/* A row of words that narrow a list to one of them. For the keyboard the row is one stop; arrows go along it. */

import { button, el } from "../ui/dom.js";
import { capital, inOrder } from "../ui/words.js";

const LEAST = 8; // entries below which nothing needs narrowing

/* `words(entry)` are the words an entry answers to; `onpick(word)` is told the word pressed, "" when none is. null where there is nothing
   to choose. The most common word stands first. */
export function chips(entries, label, words, onpick) {
  const tally = new Map();
  for (const word of entries.flatMap((entry) => [...new Set(words(entry))]))
    tally.set(word, (tally.get(word) || 0) + 1);
  if (tally.size < 2 || entries.length < LEAST) return null;
  const names = [...tally].sort(([a, one], [b, two]) => two - one || inOrder(a, b)).map(([name]) => name);
  const chips = names.map((name, i) =>
    button(
      { class: "rf-chip", "aria-pressed": "false", tabindex: i ? "-1" : "0", onclick: () => press(i) },
      capital(name),
    ),
  );
  return el("div", { class: "rf-chips", role: "toolbar", "aria-label": label, onkeydown: walk }, chips);

  function press(i) {
    const on = chips[i].getAttribute("aria-pressed") !== "true";
    chips.forEach((chip, k) => chip.setAttribute("aria-pressed", String(on && k === i)));
    reach(i);
    onpick(on ? names[i] : "");
  }

  function reach(i) {
    chips.forEach((chip, k) => {
      chip.tabIndex = k === i ? 0 : -1;
    });
  }

  function walk(event) {
    const here = chips.indexOf(document.activeElement),
      last = chips.length - 1;
    const to = { ArrowRight: Math.min(here + 1, last), ArrowLeft: Math.max(here - 1, 0), Home: 0, End: last }[
      event.key
    ];
    if (to === undefined) return;
    event.preventDefault();
    reach(to);
    chips[to].focus();
  }
}
