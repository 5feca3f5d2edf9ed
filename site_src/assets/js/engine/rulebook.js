"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What the rulebook holds beside its sentences. The twin of the last part of rulebook.py; a rulebook is the published list
   of rules. */
(function (engine) {
  /* What findings cost together, by id; the same thing lost on both channels is one loss. */
  engine.loss = (rulebook, ids) => [...new Set(ids)]
    .reduce((sum, id) => sum + (rulebook.find((rule) => rule.id === id) || { weighs: 0 }).weighs, 0);

  /* What findings of an answer that lose something cost. */
  engine.lost = (rulebook, findings) =>
    engine.loss(rulebook, findings.filter(({ severity }) => severity === "lossy").map(({ id }) => id));

  /* Which way the numbers of a rule get worse. */
  engine.lowerIsWorse = (rulebook, id) => rulebook.find((rule) => rule.id === id).compare === "below";
})(Ringfence.engine);
