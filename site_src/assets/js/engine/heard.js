"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What becomes of a source, of a pair, and at a listener: the twin of _drop to _polarity in hearing.py. */
(function (engine) {
  const SILENT = -120; // dB; what a sum leaves below this is rounding
  const SHOUT = 10 ** (26 / 20); // a voice shouting close by, 120 dB SPL, against the 94 dB SPL of a microphone's nominal level; from memory
  const signal = (...reading) => engine.signalReading(...reading);

  /* Level lost at a source's own output because of what is plugged into it, dB at 1 kHz. */
  engine.drop = (signals, name) =>
    engine.decibels(engine.size(signals.openOutput.get(name)[engine.MID])) - engine.decibels(engine.smallest(signals.output.get(name)[engine.MID]));

  engine.sourceReading = function (signals, name, s, device) {
    const drop = engine.drop(signals, name), where = engine.outputWord(s);
    const words = { source: engine.channelName(s.channel, device), drop: engine.quantity(drop, "dB") };
    if (s.least_load) return signal("load-ohm", name, where, Math.min(signals.load.get(name), engine.NO_PATH), "ohm", words, { limit: s.least_load });
    return signal("load-drop", name, where, drop, "dB", words);
  };

  /* What a voice shouting close by makes a microphone give, V rms: never more than it can. */
  engine.shout = (s) => Math.min(s.nominal * SHOUT, engine.loudest(s));

  engine.pairReadings = function* (signals, source, listener, s, l, words) {
    const [low, mid, high] = signals.gains.get(engine.pair(source, listener))[0].map((states) => states.map(engine.size));
    const where = engine.pairWords(s, l), pair = engine.pair(source, listener);
    if (l.maximum && engine.loudest(s)) {
      const over = engine.decibels(engine.loudest(s) * Math.max(...mid) / l.maximum);
      yield signal("over-level", pair, where, over, "dB", { ...words, pad: engine.padWords(over), stands: stands(over) },
        { flags: { source: s.kind === "microphone" ? "microphone" : "other" } });
      if (s.kind === "microphone" && s.nominal) {
        const shouted = engine.decibels(engine.shout(s) * Math.max(...mid) / l.maximum);
        yield signal("shout-level", pair, where, shouted, "dB", { ...words, pad: engine.padWords(shouted) });
      }
    }
    if (l.sensitivity && s.nominal) {
      const above = engine.decibels(s.nominal * Math.min(...mid) / l.sensitivity);
      yield signal("under-level", pair, where, -above, "dB", { ...words, stands: stands(above) });
    }
    if (engine.AUDIO.includes(s.kind) && !(l.maximum && l.sensitivity && s.maximum && s.nominal)) {
      yield signal("unknown-level", pair, where, 1, "", words);
    }
    const own = signals.openOutput.get(source).map(engine.size);
    for (const [quantity, sizes, edge] of [[s.kind === "instrument" ? "pickup-treble" : "treble", high, engine.HIGH], ["bass", low, engine.LOW]]) {
      const change = Math.min(...sizes.map((size, state) => (size / mid[state]) / (own[edge] / own[engine.MID])));
      yield signal(quantity, pair, where, engine.decibels(change), "dB", words);
    }
  };

  /* `12 dB below`, `3 dB above`. */
  const stands = (over) => `${engine.quantity(Math.abs(over), "dB")} ${over > 0 ? "above" : "below"}`;

  /* `drops by 12 dB`, `vanishes`. */
  const falls = (kept) => (kept > engine.HEARD ? `drops by ${engine.quantity(-kept, "dB")}` : "vanishes");

  engine.listenerReadings = function* (signals, here, listener, l, heard, device, name) {
    const gains = new Map(device.sources.map((s) => [s.id, signals.gains.get(engine.pair(`${here}/${s.id}`, listener))[0][engine.MID]]));
    if (gains.size > 1) {
      const kept = Math.max(engine.decibels(Math.min(...engine.keptInSum([...gains.values()]))), SILENT);
      yield signal("mono-sum", listener, engine.channelWord(l.channel), kept, "dB", { sink: name, sum: falls(kept) });
    }
    if (heard.length && l.kind !== "digital") yield polarity(listener, l, heard, gains, device, name); // digital: its coding does not care
    const own = device.sources.filter((s) => s.channel === l.channel);
    if (own.length) {
      const right = Math.max(engine.decibels(Math.min(...own.map((s) => engine.smallest(gains.get(s.id))))), engine.HEARD);
      for (const s of device.sources) {
        if (s.channel === l.channel) continue;
        const stray = engine.decibels(engine.largest(gains.get(s.id))) - right;
        yield signal("crosstalk", `${here}/${s.id}>${l.id}`, engine.channelWord(l.channel), stray, "dB", { sink: name, source: engine.channelName(s.channel, device) });
      }
    }
    const hum = signals.hum.get(listener);
    if (hum) {
      const balanced = l.balanced || heard.some((s) => s.balanced);
      const worst = engine.largest(hum.flatMap((corner) => corner.slice(0, engine.MID + 1).flat()));
      const flags = { balanced: balanced ? "yes" : "no" };
      yield signal("hum-rejection", listener, engine.channelWord(l.channel), Math.min(-engine.decibels(worst), 160), "dB", { sink: name }, { flags });
    }
  };

  /* What is left of one source when everything that hears it at the other end is summed to mono. */
  engine.sidesReadings = function* (signals, here, there, s, heard, device, other) {
    if (heard.length < 2) return;
    const names = heard.map(({ id }) => `${there}/${id}`), gains = names.map((name) => signals.gains.get(engine.pair(`${here}/${s.id}`, name))[0][engine.MID]);
    const kept = Math.max(engine.decibels(Math.min(...engine.keptInSum(gains))), SILENT), where = heard.map(({ channel }) => engine.channelWord(channel)).join(" and ");
    yield signal("sides-sum", `${here}/${s.id}>${names.join("+")}`, where, kept, "dB", { source: engine.channelName(s.channel, device), sink: engine.short(other), sum: falls(kept) });
  };

  /* For each home state the share of some signals' sizes that is left when they are added with their phases. */
  engine.keptInSum = (gains) => gains[0].map((_, state) => {
    const sum = gains.reduce(([re, im], states) => [re + states[state][0], im + states[state][1]], [0, 0]);
    return engine.size(sum) / gains.reduce((all, states) => all + engine.size(states[state]), 0);
  });

  /* All that is heard upside down is reversed; one of several upside down is what the mono sum tells. */
  function polarity(listener, l, heard, gains, device, name) {
    const turned = Math.max(...heard.map((s) => Math.max(...gains.get(s.id).map((gain) => gain[0] / engine.size(gain)))));
    const source = heard.length === 1 ? engine.channelName(heard[0].channel, device) : engine.short(device);
    return signal("polarity", listener, engine.channelWord(l.channel), turned, "", { sink: name, source });
  }
})(Ringfence.engine);
