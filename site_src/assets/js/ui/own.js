"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Own numbers and devices: their scripts are asked for where somebody has any, and with the first answer. */
(function (ui) {
  const KEY = "ringfence.own";
  let loading = null, failed = false;

  function kept() {
    try {
      return localStorage.getItem(KEY) !== null;
    } catch (refused) {
      return false;
    }
  }

  /* Must the scripts be here before a question of this address is shown? */
  ui.ownAwaited = (hash) => !Ringfence.own && !failed && (kept() || /(^#?|&)(own=|(from|into)=my\.)/.test(hash) || Boolean((Ringfence.data.local || []).length));

  /* Resolves to whether they are here. */
  ui.withOwn = function () {
    if (Ringfence.own) return Promise.resolve(true);
    loading = loading || Promise.all(["circuits", "asks"].map(ui.later)).then((came) => !came.includes(false) && ui.later("own")).then((here) => { failed = !here; loading = here ? loading : null; return Boolean(here); });
    return loading;
  };

  /* What is left of the numbers in an address when another device stands at one of its ends. */
  ui.ownAfter = (own, state, changes) => (own || "").split(",")
    .filter((one) => one && ["from", "into"].every((side) => !one.startsWith(`${side}.`) || !(side in changes) || changes[side] === state[side])).join(",");

  /* A question as the engine and the drawings know it: a device of one's own is its class with its numbers. */
  ui.ownQuestion = (question) => (Ringfence.own ? Ringfence.own.plain(question) : question);
})(Ringfence.ui);
