"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* How loud it arrives, and how much treble and bass is left: readings of one source at one listener. The twin of
   levels.py. */
(function (engine) {
  const { HERTZ, PICKUP, SHOUT } = Ringfence.constants;
  const reading = (quantity, pair, where, value, unit, more) =>
    engine.reading(quantity, pair, where, value, unit, "signal", more);
  const highest = (numbers) => numbers.reduce((most, one) => Math.max(most, one));
  const negative = (numbers) => numbers.map((one) => -one);

  /* `left to signal`, or one word where both are called alike. */
  engine.pairWords = (o, i) =>
    [...new Set([engine.channelWord(o.source.channel), engine.channelWord(i.listener.channel)])].join(" to ");

  /* Too hot, too quiet, treble and bass. */
  engine.levelReadings = function* (signals, o, i, words) {
    const s = o.source, l = i.listener, { LOW, MID, HIGH } = engine;
    const name = engine.pair(o.name, i.name), where = engine.pairWords(o, i);
    const size = signals.gains.get(name)[0].map((states) => states.map(engine.size));
    const at = (values, level, hertz = HERTZ[MID]) =>
      engine.at("signal", engine.largestAt(values)[0], i.nodes, { hertz, source: o.name, level });
    const terms = (level, heard, against, what) =>
      [["at the source, open", level, "V"], ["at the input", level * heard, "V"], [what, against, "V"]];

    if (l.maximum && engine.loudest(s)) {
      const loud = engine.loudest(s), most = highest(size[MID]), atMost = "the most the input takes";
      const over = engine.decibels(loud * most / l.maximum);
      yield reading("over-level", name, where, over, "dB", {
        words: { ...words, pad: engine.padWords(over), stands: stands(over) },
        flags: { source: s.kind === "microphone" ? "microphone" : "other" },
        at: at(size[MID], loud), terms: terms(loud, most, l.maximum, atMost),
      });
      if (s.kind === "microphone" && s.nominal) {
        const shout = engine.shout(s), shouted = engine.decibels(shout * most / l.maximum);
        yield reading("shout-level", name, where, shouted, "dB", {
          words: { ...words, pad: engine.padWords(shouted) }, at: at(size[MID], shout),
          terms: terms(shout, most, l.maximum, atMost),
        });
      }
    }
    if (l.sensitivity && s.nominal) {
      const least = -highest(negative(size[MID])), under = -engine.decibels(s.nominal * least / l.sensitivity);
      yield reading("under-level", name, where, under, "dB", {
        words: { ...words, stands: stands(-under) }, at: at(negative(size[MID]), s.nominal),
        terms: terms(s.nominal, least, l.sensitivity, "the least the input is made for"),
      });
    }
    if (engine.AUDIO.includes(s.kind) && !(l.maximum && l.sensitivity && s.maximum && s.nominal)) {
      yield reading("unknown-level", name, where, 1, "", { words });
    }
    const own = signals.openOutput.get(o.name).map(engine.size);
    for (const [quantity, edge] of [["treble", HIGH], ["bass", LOW]]) {
      if (quantity === "treble" && s.kind === "instrument") {
        yield pickup(signals, o, i, where, name, words);
        continue;
      }
      const less = size[edge].map((one, state) => -(one / size[MID][state]) / (own[edge] / own[MID]));
      const [state] = engine.largestAt(less), heard = `heard of 1 V at ${engine.quantity(HERTZ[edge], "Hz")}`;
      yield reading(quantity, name, where, engine.decibels(highest(less)), "dB", {
        words, at: at(less, 1, HERTZ[edge]),
        terms: [[heard, size[edge][state], "V"], ["at 1 kHz", size[MID][state], "V"]],
      });
    }
  };

  /* Treble where a pickup has any, against 1 kHz, plugged against unplugged. */
  function pickup({ assembly }, o, i, where, name, words) {
    const { circuit } = assembly, states = [...assembly.settled, assembly.apart], apart = assembly.settled.length;
    const drive = engine.driveOf(o.place, o.source), hertz = [HERTZ[engine.MID], PICKUP];
    const [found] = engine.solveAc(circuit, [engine.valuesAt(circuit, "nominal")], hertz, states, [drive]);
    const across = function (nodes) {
      const [a, b] = nodes.map((node) => engine.net(circuit, node));
      return found.map((solved) => solved.map(([one]) => engine.size(engine.signalVolts(one, a, b))));
    };
    const heard = across(i.nodes).map((sizes) => sizes.slice(0, apart));
    const own = across(o.source.output.map((node) => `${o.place}/${node}`)).map((sizes) => sizes[apart]);
    const less = heard[1].map((one, state) => -(one / heard[0][state]) / (own[1] / own[0]));
    const [state] = engine.largestAt(less), label = `heard of 1 V at ${engine.quantity(PICKUP, "Hz")}`;
    return reading("pickup-treble", name, where, engine.decibels(less[state]), "dB", {
      words, at: engine.at("signal", state, i.nodes, { hertz: PICKUP, source: o.name }),
      terms: [[label, heard[1][state], "V"], ["at 1 kHz", heard[0][state], "V"]],
    });
  }

  /* What a voice shouting close by makes a microphone give, V rms: never more than it can. */
  engine.shout = (source) => Math.min(source.nominal * 10 ** (SHOUT / 20), engine.loudest(source));

  /* `12 dB below`, `3 dB above`. */
  const stands = (over) => `${engine.quantity(Math.abs(over), "dB")} ${over > 0 ? "above" : "below"}`;
})(Ringfence.engine);
