"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Kinds of signal, and which of them an input takes for its own. The twin of kinds.py. */
(function (engine) {
  const AUDIO = engine.AUDIO = ["microphone", "line", "instrument", "headphone", "loudspeaker"];
  engine.SMALL = ["microphone", "line", "instrument"]; // small enough for fields around the lead to matter
  engine.FAST = ["digital", "data", "video", "clock"];
  engine.ONE_SIDED = ["midi", "power"]; // kinds whose screen, if any, is tied at the sender only
  engine.AMPLIFIED = ["headphone", "loudspeaker"];
  engine.DIGITAL = "digital";
  engine.LOUDSPEAKER = "loudspeaker";
  const TRACKS = ["line", "microphone"]; // inputs and outputs of a sound track, which can hold timecode as sound

  const family = (kind) => (AUDIO.includes(kind) ? "audio" : kind);

  /* Does this input hear what this output sends? */
  engine.sameKind = (source, listener) => engine.oneFamily(source, listener) || engine.asSound(source, listener);

  /* Does either send a kind that the other hears? Where not, no lead can help. */
  engine.somethingToHear = (one, other) => [[one, other], [other, one]].some(([a, b]) =>
    a.sources.some((source) => b.listeners.some((listener) => engine.sameKind(source, listener))));

  /* Are both sound, or else of the very same kind? */
  engine.oneFamily = (source, listener) => family(source.kind) === family(listener.kind);

  /* Timecode is a sound: it goes onto a sound track and comes back from one. */
  engine.asSound = function (source, listener) {
    const kinds = [source.kind, listener.kind];
    return kinds.includes("timecode") && kinds.some((kind) => TRACKS.includes(kind));
  };
})(Ringfence.engine);
