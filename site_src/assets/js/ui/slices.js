/* Long work in short slices, so that the page answers to a thumb while it goes on. */

import { el } from "./dom.js";

const SLICE = 24; // ms; two frames
const SOME = 12; // rows; a phone shows ten

/* Drives an iterator to its end: `onstep(value)` once a slice, `ondone(returned)` after the last. Returns a function that stops it. */
export function steps(iterator, onstep, ondone) {
  let timer = setTimeout(slice, 0);

  function slice() {
    const until = Date.now() + SLICE;
    let step = iterator.next();
    while (!step.done && Date.now() < until) step = iterator.next();
    if (step.done) return ondone(step.value);
    timer = setTimeout(slice, 0);
    onstep(step.value);
  }
  return () => clearTimeout(timer);
}

/* Calls `work(item, number from 1)` for every item in turn, and `ondone()` after the last. Returns a function that stops it. */
export const slices = (items, work, ondone) =>
  steps(
    (function* () {
      for (const [place, item] of items.entries()) yield work(item, place + 1);
    })(),
    () => null,
    ondone,
  );

/* Calls back when what is on the page now has been seen; at once where nobody looks. */
export const seen = (done) =>
  document.hidden ? setTimeout(done) : requestAnimationFrame(() => setTimeout(done));

/* A long list that grows at its end, so that nothing a thumb is aiming at ever moves: some rows at once, more after every frame, for all at once
   would keep a phone busy. (Not when the page is idle: after a tap a browser may not call that for a long while.) `rows(body)` is a generator that
   puts one row into `body` at each step; `ondone()` is called after the last. `list` is `aria-busy` until then; when it is filled anew or taken
   off the page, nothing more comes. */
export function grow(list, rows, ondone = () => null) {
  const body = el("div"),
    left = rows(body);
  list.replaceChildren(body);
  list.setAttribute("aria-busy", "true");
  more();

  function more() {
    for (let row = 0; row < SOME; row++) {
      if (left.next().done) {
        list.removeAttribute("aria-busy");
        ondone();
        return;
      }
    }
    seen(() => {
      if (body.isConnected) more();
    });
  }
}
