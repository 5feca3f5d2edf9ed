"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ways = Ringfence.ways || {};

/* What a verdict means for the person who asked: what is lost in a few words, how much that matters, and what to do. */
(function (ways, ui) {
  const HEARD = 2, RUINS = 4; // what findings weigh together in the rulebook, where they begin to be heard and where half of what was wanted is gone

  const ids = (findings) => [...new Set(findings.map((one) => (one.id || one).replaceAll(" ", "-")))];

  /* What is lost or harmed, in few words each. That a rating is not known says nothing more where one that is known is passed. */
  ways.losses = function (findings) {
    const every = ids(findings), told = every.filter((id) => id !== "rating-not-known");
    return (told.length ? told : every).map((id) => ui.own(ways.LOSSES, id) || id.replaceAll("-", " "));
  };

  /* How much a loss matters: harmless, audible, ruins it. */
  ways.matters = function (findings) {
    const weighed = Ringfence.engine.loss(Ringfence.rulebook, ids(findings));
    return weighed < HEARD ? "harmless" : weighed < RUINS ? "audible" : "ruins it";
  };

  /* "Works, but: one side only" and its like; `way` is {verdict, offered, findings}, of which those count that decide. */
  ways.means = function ({ verdict, offered, findings }) {
    const lost = ui.listed(ways.losses(findings).slice(0, 3));
    if (offered) return `Harmful while plugging (${lost}); works if plugged in the right order`;
    return { "safe": "Works, nothing lost", "lossy": `Works, but: ${lost} (${ways.matters(findings)})`, "no signal": `Will not work: ${lost}`, "dangerous": `Harmful: ${lost}`,
      "does not fit": "The plugs do not go into each other" }[verdict];
  };

  /* The lead, or the leads, of a way as one says them in a sentence. */
  ways.named = (through) => (through.length ? through.map((id) => ui.lead(id).name).join(", then ") : "no lead, straight in");
})(Ringfence.ways, Ringfence.ui);
