"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ways = Ringfence.ways || {};

/* What a finding costs, in three words or so: to follow "Works, but" or "Will not work:", or to stand alone. */
Ringfence.ways.LOSSES = {
  "balance-lost": "hum on long runs", "bias-through-coil": "plug-in power through the coil", "cancels-in-mono": "the middle of the sound cancels",
  "channels-crossed": "left and right swapped", "crosstalk": "the sides mix", "dull": "dull treble", "level-not-known": "level not known", "loaded-down": "a little quieter",
  "not-for-data": "may click or drop out", "not-heard": "one channel unused", "one-side-only": "one side only", "output-strained": "the output works hard",
  "outputs-joined": "two outputs fight", "part-unpowered": "part of it stays dead", "reversed": "polarity reversed", "screen-open": "no screen, picks up noise",
  "sides-opposed": "vanishes in mono", "starved": "short of supply", "supply-reversed": "plus and minus swapped", "thin": "thin bass", "timecode-as-sound": "timecode on a sound track", "too-hot": "too hot, distorts",
  "too-quiet": "too quiet", "unbalanced": "hum likely", "uneven-phantom": "uneven phantom", "unscreened": "no screen, picks up hum",
  "not-powered": "nothing powers it", "switched-off": "it is switched off", "other-kind": "another kind of signal", "shorted-signal": "the signal is shorted",
  "open-path": "the signal path is broken", "nothing-listens": "nothing listens there",
  "over-volts": "too many volts", "over-current": "too much current", "over-power": "too much power", "reversed-capacitor": "volts the wrong way round",
  "rating-not-known": "volts into an unknown rating", "supply-against-supply": "two supplies fight", "amplifier-output": "amplifier into a delicate input",
  "does-not-mate": "the plugs do not fit",
};
