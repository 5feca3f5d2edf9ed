"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Signal readings in both directions between From and Into: from solved signals to the numbers a listener would complain about.
   The twin of hearing.py, up to a single pair; heard.js goes on with what a listener hears. */
(function (engine) {
  engine.AUDIO = ["microphone", "line", "instrument", "headphone", "loudspeaker"];
  const ONE_SIDED = ["midi", "power"]; // kinds whose screen, if any, is tied at the sender only
  engine.NO_PATH = 1e9; // ohm
  const HEARD = engine.HEARD = -60; // dB; a path below this carries nothing
  const BESIDE = -30; // dB; a channel this far below its neighbour is not there
  const signal = (quantity, subject, where, value, unit, words, more = {}) =>
    engine.reading(quantity, subject, where, value, unit, "signal", { words, ...more });
  engine.signalReading = signal;
  engine.largest = (states) => Math.max(...states.map(engine.size));
  engine.smallest = (states) => Math.min(...states.map(engine.size));

  engine.signalReadings = function (assembly, signals) {
    const start = assembly.places.get("from"), target = assembly.places.get("into"), readings = [];
    for (const [here, there, device, other] of [["from", "into", start, target], ["into", "from", target, start]]) {
      if (device.sources.length && other.listeners.length) readings.push(...direction(assembly, signals, here, there, device, other));
      else if (other.sources.length || device.listeners.length) readings.push(...device.sources.map((source) => unheard(source, here, device, other)));
    }
    if (!(start.sources.length && target.listeners.length) && !(target.sources.length && start.listeners.length)) {
      const words = { device: engine.short(start), other: engine.short(target) };
      readings.push(signal("path-gain", "connection", "connection", engine.decibels(0), "dB", words, { flags: { cause: "nothing" } }));
    }
    return [...readings, ...outputs(assembly, signals), ...screen(assembly)];
  };

  /* Which source should reach which listener: the same channel where both have it, else everything it meets. */
  function wanted(sources, listeners) {
    const alone = (one, others) => others.every((other) => other.channel !== one.channel);
    return every(sources, listeners).filter(([s, l]) => s.channel === l.channel || (alone(s, listeners) && alone(l, sources)));
  }

  /* What is asked about in one direction: the wanted pairs, or every pair where nothing belongs together. */
  function paired(device, other) {
    const found = wanted(device.sources, other.listeners);
    return found.length ? found : every(device.sources, other.listeners);
  }

  const every = (sources, listeners) => sources.flatMap((s) => listeners.map((l) => [s, l]));

  /* All pairs of one kind of signal: channels that have changed places are heard, if on the wrong side; the sound on a picture's input is not. */
  engine.comparable = (device, other) => every(device.sources, other.listeners).filter(same);

  const same = ([s, l]) => family(s.kind) === family(l.kind);

  engine.pairWords = (s, l) => [...new Set([engine.channelWord(s.channel), engine.channelWord(l.channel)])].join(" to ");

  /* `Mixer line input`, or `left of Camera` where a device has several channels. */
  engine.channelName = (channel, device) => (channel === "main" ? engine.short(device) : `${channel} of ${engine.short(device)}`);

  function* direction(assembly, signals, here, there, device, other) {
    const gain = (s, l) => engine.smallest(signals.bare.get(engine.pair(`${here}/${s.id}`, `${there}/${l.id}`))[engine.MID]);
    const asked = paired(device, other), pairs = asked.filter(same);
    const way = engine.wayOf(assembly, here), both = { device: engine.short(device), other: engine.short(other) };
    // The picture beside the sound of an audio and video socket does no harm to a lead that leaves it where it is.
    const apart = asked.find(([s, l]) => !same([s, l]) && (!pairs.length || engine.decibels(gain(s, l)) > HEARD));
    if (apart) {
      yield signal("kinds-apart", here, "signal", 1, "", { ...both, sent: apart[0].kind, wanted: apart[1].kind }, { flags: { way } });
      return;
    }
    yield* engine.unsuited(assembly, here, pairs, both);
    const best = engine.decibels(Math.max(...engine.comparable(device, other).map(([s, l]) => gain(s, l))));
    const shorted = device.sources.some((s) => engine.drop(signals, `${here}/${s.id}`) > 40);
    yield signal("path-gain", here, "connection", best, "dB", both, { flags: { cause: shorted ? "shorted" : "open", way } });
    for (const s of device.sources) if (pairs.every(([paired]) => paired !== s)) yield unheard(s, here, device, other);
    if (best < HEARD) return;
    for (const s of device.sources) yield engine.sourceReading(signals, `${here}/${s.id}`, s, device);
    const heard = [];
    for (const [s, l] of pairs) {
      const relative = engine.decibels(gain(s, l)) - best;
      const words = { source: engine.channelName(s.channel, device), sink: engine.channelName(l.channel, other) };
      yield signal("side-gain", `${here}/${s.id}>${l.id}`, engine.pairWords(s, l), relative, "dB", words);
      if (relative > BESIDE) {
        heard.push([s, l]);
        yield* engine.pairReadings(signals, `${here}/${s.id}`, `${there}/${l.id}`, s, l, words);
      }
    }
    for (const l of other.listeners) {
      if (!device.sources.some((s) => engine.decibels(gain(s, l)) > HEARD)) continue;
      const sources = heard.filter(([, hearing]) => hearing === l).map(([s]) => s);
      yield* engine.listenerReadings(signals, here, `${there}/${l.id}`, l, sources, device, engine.channelName(l.channel, other));
    }
    for (const s of device.sources) yield* engine.sidesReadings(signals, here, there, s, heard.filter(([sender, l]) => sender === s && l.kind !== "digital").map(([, l]) => l), device, other);
  }

  const family = (kind) => (engine.AUDIO.includes(kind) ? "audio" : kind);

  function unheard(source, here, device, other) {
    const words = { source: engine.channelName(source.channel, device), other: engine.short(other) };
    return signal("unheard", `${here}/${source.id}`, engine.channelWord(source.channel), 1, "", words);
  }

  function* outputs(assembly, signals) {
    for (const [name, amps] of signals.forced) {
      const cut = name.indexOf("/"), device = assembly.places.get(name.slice(0, cut));
      const source = device.sources.find((s) => s.id === name.slice(cut + 1));
      const where = engine.outputWord(source), words = { source: engine.channelName(source.channel, device) };
      yield signal("forced-amps", name, where, amps, "A", words);
      yield signal("driven-amps", name, where, signals.driven.get(name), "A", words, { flags: { kind: source.kind } });
    }
  }

  /* The resistance between the two chassis: a screen has next to none, a detour through signal legs has kilohms. */
  function* screen(assembly) {
    const { linked, places } = assembly;
    const kinds = ["from", "into"].flatMap((place) => places.get(place).sources.map(({ kind }) => kind));
    if (!linked || (kinds.length && kinds.every((kind) => ONE_SIDED.includes(kind)))) return;
    const words = { device: engine.short(places.get("from")), other: engine.short(places.get("into")) };
    yield signal("screen-ohm", "screen", "screen", Math.max(...engine.screenOhms(assembly)), "ohm", words, { flags: { isolated: isolated(assembly) ? "yes" : "no" } });
  }

  /* Does neither a resistance nor a capacitor lead from one chassis to the other, in any home state? The capacitance of cables left aside. */
  function isolated({ bare, home }) {
    const [near, far] = ["from", "into"].map((place) => engine.net(bare, `${place}/chassis`));
    return home.every((state) => {
      const piece = engine.pieces(bare, state, engine.SIGNAL_OPENS);
      return piece[near] !== piece[far];
    });
  }

  /* The resistance between the chassis of From and Into in every home state, ohm. */
  engine.screenOhms = function ({ circuit, home }) {
    const lean = engine.resistive(circuit), ends = ["from", "into"].map((place) => engine.netName(engine.net(circuit, `${place}/chassis`)));
    const [near, far] = ends.map((node) => engine.net(lean, node));
    const [[found]] = engine.solveAc(lean, [engine.valuesAt(lean, "nominal")], [0], home, [[[ends, -1]]]);
    return home.map((state, i) => {
      const piece = engine.pieces(lean, state, engine.SIGNAL_OPENS);
      return piece[near] === piece[far] ? engine.size(engine.signalVolts(found[i][0], near, far)) : engine.NO_PATH;
    });
  };
})(Ringfence.engine);
