"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Long work in short slices, so that the page answers to a thumb while it goes on. */
(function (ui) {
  const SLICE = 24; // ms; two frames

  /* Calls `work(item)` for every item in turn, and `ondone()` after the last. Returns a function that stops it. */
  ui.slices = function (items, work, ondone) {
    let place = 0, timer = setTimeout(step, 0);

    function step() {
      const until = Date.now() + SLICE;
      while (place < items.length && Date.now() < until) work(items[place++], place);
      if (place < items.length) timer = setTimeout(step, 0);
      else ondone();
    }
    return () => clearTimeout(timer);
  };
})(Ringfence.ui);
