"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Leads and inputs that do not suit the signal, whatever the circuit says: the twin of _unsuited in hearing.py. */
(function (engine) {
  const SMALL = ["microphone", "line", "instrument"]; // small enough for fields around the lead to matter
  const FAST = ["digital", "data", "video", "clock"];

  /* What the circuit at audio frequencies does not show: leads that are not made for fast signals, amplifiers into small-signal inputs. */
  engine.unsuited = function* (assembly, here, pairs, words) {
    if (pairs.some(([s]) => FAST.includes(s.kind))) {
      for (const [place, lead] of assembly.places) {
        if (!engine.isPort(lead)) yield engine.signalReading("slow-lead", place, "lead", lead.impedance ? 0 : 1, "", { ...words, lead: engine.short(lead) });
      }
    }
    if (pairs.some(([s, l]) => SMALL.includes(s.kind) && !(s.balanced && l.balanced))) {
      for (const [place, lead] of assembly.places) {
        const bare = () => Number(Boolean(lead.cable) && !lead.joins.some(({ screen }) => screen));
        if (!engine.isPort(lead)) yield engine.signalReading("bare-lead", place, "lead", bare(), "", { ...words, lead: engine.short(lead) });
      }
    }
    if (pairs.some(([s, l]) => s.kind === "loudspeaker" && l.kind !== "loudspeaker")) yield engine.signalReading("amplifier-into", here, "connection", 1, "", words);
  };
})(Ringfence.engine);
