"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Long work in short slices, so that the page answers to a thumb while it goes on. */
(function (ui) {
  const SLICE = 24; // ms; two frames
  const SOME = 8; // rows

  /* Drives an iterator to its end: `onstep(value)` once a slice, `ondone(returned)` after the last. Returns a function that stops it. */
  ui.steps = function (iterator, onstep, ondone) {
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
  };

  /* Calls `work(item, number from 1)` for every item in turn, and `ondone()` after the last. Returns a function that stops it. */
  ui.slices = (items, work, ondone) => ui.steps((function* () {
    for (const [place, item] of items.entries()) yield work(item, place + 1);
  })(), () => null, ondone);

  /* A long list that is not laid out yet (class `rf-later`), some rows whenever the page has nothing else to do: all at once would keep a phone
     busy. Left until they come near, rows of unknown height would move what a thumb is aiming at. */
  ui.layOut = function (rows) {
    if (!rows.length || !rows[0].isConnected) return;
    idle(() => {
      rows.slice(0, SOME).forEach((row) => row.classList.remove("rf-later"));
      ui.layOut(rows[0].offsetHeight ? rows.slice(SOME) : []);
    });
  };

  const idle = (work) => (window.requestIdleCallback ? window.requestIdleCallback(work) : setTimeout(work, SLICE));
})(Ringfence.ui);
