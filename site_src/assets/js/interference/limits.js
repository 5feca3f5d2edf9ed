"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What a run may say and how far its numbers may go, as run.py and grammar.py have it. */
(function (runs) {
  const POWERED = ["earthed", "insulated", "battery"];
  const SOCKETS = ["same strip", "same room", "other circuit", "other supply", "same battery", "unknown"];
  const SCREENS = ["whole", "worn", "open at one end", "open at both ends"];
  const COLD = ["through", "to the screen at the source", "to the screen at the input"];
  const LIES = ["alongside", "crossing"],
    SPARE = ["coiled", "figure of eight"],
    MOST = 12;
  Object.assign(runs, { POWERED, SOCKETS, SCREENS, COLD, LIES, SPARE, MOST });
  const LIMITS = {
    length: [1e-3, 2000],
    distance: [1e-4, 100],
    far: [5e-3, 1e5],
    amps: [0, 400],
    along: [0, 2000],
    watts: [0, 1e6],
    turns: [1, 500],
    across: [1e-3, 3],
    volts: [0, 400],
    read: [0, 32],
    bond: [0, 10],
    ferrite: [0, 20e3],
    assumed: [0, 1e7],
  };
  runs.LIMITS = LIMITS;
})(Ringfence.interference);
