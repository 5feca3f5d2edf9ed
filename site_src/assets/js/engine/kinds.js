/* Kinds of signal, and which of them an input takes for its own. The twin of kinds.py. */

export const AUDIO = ["microphone", "line", "instrument", "headphone", "loudspeaker"];
export const SMALL = ["microphone", "line", "instrument"]; // small enough for fields around the lead to matter
export const FAST = ["digital", "data", "video", "clock"];
export const ONE_SIDED = ["midi", "power"]; // kinds whose screen, if any, is tied at the sender only
export const DIGITAL = "digital";
export const LOUDSPEAKER = "loudspeaker";
export const PHONES = "headphone";
export const AMPLIFIED = [PHONES, LOUDSPEAKER];
export const CLOSURE = "contact"; // a switch: made to be fed by what it closes
export const DARK = "dark"; // the node that light is measured against, in devices and leads alike
export const TIMECODE = "timecode";
export const BITS = ["data", "midi"]; // not understood upside down
export const UNTURNED = [DIGITAL, "power", CLOSURE]; // coded so that it does not matter, or told by what it does
export const UNHUMMED = [DIGITAL, "data", "clock", TIMECODE, ...ONE_SIDED, CLOSURE]; // read or fed, not listened to
const TRACKS = ["line", "microphone"]; // inputs of a sound track, which can hold timecode as sound

const family = (kind) => (AUDIO.includes(kind) ? "audio" : kind);

/* Does this input hear what this output sends? */
export const sameKind = (source, listener) => oneFamily(source, listener) || asSound(source, listener);

/* Does either send a kind that the other hears? Where not, no lead can help. */
export const somethingToHear = (one, other) =>
  [
    [one, other],
    [other, one],
  ].some(([a, b]) => a.sources.some((source) => b.listeners.some((listener) => sameKind(source, listener))));

/* Are both sound, or else of the very same kind, and of a form that is understood? */
export const oneFamily = (source, listener) =>
  family(source.kind) === family(listener.kind) &&
  (listener.forms.length ? listener.forms : [""]).includes(source.form);

/* What it sends, in words: its form, or its kind where that tells all. */
export const said = (source) => source.form || source.kind;

/* What it expects, in words. */
export const expected = (listener) => listener.forms.join(" or ") || listener.kind;

/* Timecode is a sound: it goes onto a sound track and comes back from one. No microphone sends it. */
export const asSound = (source, listener) =>
  (source.kind === TIMECODE && TRACKS.includes(listener.kind)) ||
  (source.kind === "line" && listener.kind === TIMECODE);
