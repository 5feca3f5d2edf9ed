"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Find again the case that gave a signal reading: which landing, corner and frequency was the worst. The twin of signal_cases.py. */
(function (engine) {
  const MOST_DECIBELS = 160, SILENT = -120;
  const HERTZ_WORDS = ["20 Hz", "1 kHz", "20 kHz"];
  const other = (here) => (here === "from" ? "into" : "from");
  const heard = (words, number) => [words, number, "V"];
  const sizes = (gains) => gains.map(engine.size);
  const smallestAt = (numbers) => engine.largestAt(numbers.map((number) => -number))[0];

  const pairsOf = (assembly, here) => engine.comparable(assembly.places.get(here), assembly.places.get(other(here)))
    .map(([s, l]) => [`${here}/${s.id}`, `${other(here)}/${l.id}`]);
  const least = (bench, pair) => engine.smallest(bench.signals().bare.get(engine.pair(...pair))[engine.MID]);

  function quietest(bench, [source, listener]) {
    const state = smallestAt(sizes(bench.signals().bare.get(engine.pair(source, listener))[engine.MID]));
    return bench.shown(source, state, bench.at(listener), { bare: true });
  }

  /* The best of all pairs, where its contacts land worst, without the capacitance of cables. */
  function path(assembly, { subject }) {
    if (subject === "connection") return null;
    const bench = engine.bench(assembly), pairs = pairsOf(assembly, subject);
    const best = pairs[engine.largestAt(pairs.map((pair) => least(bench, pair)))[0]], shown = quietest(bench, best);
    return { ...shown, number: engine.decibels(least(bench, best)), terms: [heard("heard of 1 V", engine.sizeOf(shown))] };
  }

  function pairOf({ subject }) {
    const [source, listener] = subject.split(">");
    return [source, listener.includes("/") ? listener : `${other(source.split("/")[0])}/${listener}`];
  }

  /* A channel against the best one. */
  function side(assembly, reading) {
    const bench = engine.bench(assembly), pair = pairOf(reading), best = Math.max(...pairsOf(assembly, pair[0].split("/")[0]).map((one) => least(bench, one)));
    const shown = quietest(bench, pair), terms = [heard("heard of 1 V", engine.sizeOf(shown)), heard("heard of the best channel", best)];
    return { ...shown, number: engine.decibels(least(bench, pair)) - engine.decibels(best), terms };
  }

  /* What plugging costs an output. */
  function dropped(assembly, { subject: source }) {
    const bench = engine.bench(assembly), { output, openOutput } = bench.signals();
    const shown = bench.shown(source, smallestAt(sizes(output.get(source)[engine.MID])), bench.output(source)), free = engine.size(openOutput.get(source)[engine.MID]);
    const terms = [heard("at the output, nothing plugged", free), heard("plugged", engine.sizeOf(shown))];
    return { ...shown, number: engine.decibels(free) - engine.decibels(engine.sizeOf(shown)), terms };
  }

  /* The smallest load an output sees. */
  function loaded(assembly, { subject: source }) {
    const bench = engine.bench(assembly), { circuit } = bench, nodes = bench.output(source), states = [...assembly.home, circuit.switches.map(() => false)];
    const [[found]] = engine.solveAc(circuit, [engine.valuesAt(circuit, "nominal")], [engine.HERTZ[engine.MID]], states, [[[nodes, -1]]]);
    const ohm = found.map(([one]) => engine.signalVolts(one, ...nodes.map((node) => engine.net(circuit, node)))), free = ohm[ohm.length - 1];
    const inverse = ([re, im]) => [re / (re * re + im * im), -im / (re * re + im * im)], less = ([a, b], [c, d]) => [a - c, b - d];
    const added = ohm.slice(0, -1).map((one) => engine.size(less(inverse(one), inverse(free)))), [state] = engine.largestAt(added);
    const terms = [["impedance at the output, nothing plugged", engine.size(free), "ohm"], ["plugged", engine.size(ohm[state]), "ohm"]];
    return { ...bench.shown(source, state, nodes), number: Math.min(1 / Math.max(added[state], engine.FLOOR), engine.NO_PATH), terms };
  }

  /* Too hot at full level, or too quiet at the usual one. */
  function level(assembly, { subject, quantity }) {
    const bench = engine.bench(assembly), [source, listener] = subject.split(">"), hot = quantity !== "under-level";
    const given = { "over-level": engine.loudest, "shout-level": engine.shout, "under-level": ({ nominal }) => nominal }[quantity];
    const s = bench.sources.get(source).record, l = bench.listeners.get(listener).record, size = sizes(bench.signals().gains.get(subject)[0][engine.MID]);
    const shown = bench.shown(source, hot ? engine.largestAt(size)[0] : smallestAt(size), bench.at(listener), { level: given(s) });
    const [against, words] = hot ? [l.maximum, "the most the input takes"] : [l.sensitivity, "the least the input is made for"];
    const terms = [heard("at the source, open", shown.level), heard("at the input", engine.sizeOf(shown)), heard(words, against)];
    return { ...shown, number: engine.decibels(engine.sizeOf(shown) / against) * (hot ? 1 : -1), terms };
  }

  /* Treble or bass against 1 kHz. */
  function edge(assembly, { subject, quantity }) {
    const bench = engine.bench(assembly), at = quantity === "bass" ? engine.LOW : engine.HIGH, [source, listener] = subject.split(">");
    const size = bench.signals().gains.get(subject)[0].map(sizes), state = smallestAt(size[at].map((one, i) => one / size[engine.MID][i]));
    const shown = bench.shown(source, state, bench.at(listener), { edge: at });
    const [reached, mid] = [at, engine.MID].map((row) => engine.sizeOf({ ...shown, volts: shown.spectrum[row] }));
    const own = sizes(bench.signals().openOutput.get(source));
    const terms = [heard(`heard of 1 V at ${HERTZ_WORDS[at]}`, reached), heard(`at ${HERTZ_WORDS[engine.MID]}`, mid)];
    return { ...shown, number: engine.decibels((reached / mid) / (own[at] / own[engine.MID])), terms };
  }

  /* The sources at the other side of a listener. */
  const senders = (bench, listener) => [...bench.sources.keys()].filter((name) => bench.sources.get(name).place === other(listener.split("/")[0]));
  const midGains = (bench, source, listener) => bench.signals().gains.get(engine.pair(source, listener))[0][engine.MID];

  /* What is left when every channel sends the same. */
  function mono(assembly, { subject: listener }) {
    const bench = engine.bench(assembly), names = senders(bench, listener), gains = names.map((name) => midGains(bench, name, listener));
    const alone = assembly.home.map((_, i) => gains.reduce((sum, states) => sum + engine.size(states[i]), 0));
    const kept = engine.keptInSum(gains), state = smallestAt(kept), drive = new Map(names.flatMap((name) => [...bench.drive(name)]));
    const shown = engine.signalCase(bench.circuit, engine.valuesAt(bench.circuit, "nominal"), assembly.home[state], "nominal", drive, engine.MID,
      bench.at(listener), { source: names[0].split("/")[0] });
    const terms = [heard("heard with 1 V on every channel alike", engine.sizeOf(shown)), heard("heard of each channel alone, added", alone[state])];
    return { ...shown, number: Math.max(engine.decibels(kept[state]), SILENT), terms };
  }

  /* What is left of a source when all that hears it is summed; shown at the last of them. */
  function sides(assembly, { subject }) {
    const bench = engine.bench(assembly), [source, listeners] = subject.split(">"), names = listeners.split("+"), gains = names.map((name) => midGains(bench, source, name));
    const kept = engine.keptInSum(gains), state = smallestAt(kept);
    const terms = names.map((name, i) => heard(`heard of +1 V at ${engine.channelWord(bench.listeners.get(name).record.channel)}`, gains[i][state][0]));
    return { ...bench.shown(source, state, bench.at(names[names.length - 1])), number: Math.max(engine.decibels(kept[state]), SILENT), terms };
  }

  /* The source that arrives least upside down; below zero means all do. */
  function polarity(assembly, { subject: listener, value }) {
    const bench = engine.bench(assembly), found = senders(bench, listener).map((name) => {
      const turned = midGains(bench, name, listener).map((gain) => gain[0] / Math.max(engine.size(gain), 1e-300)), [state] = engine.largestAt(turned);
      return { name, state, off: Math.abs(turned[state] - value) };
    });
    const { name, state } = found.reduce((best, one) => (one.off < best.off ? one : best)), shown = bench.shown(name, state, bench.at(listener));
    const gain = engine.heardIn(shown);
    return { ...shown, number: gain[0] / engine.size(gain), terms: [heard("heard of +1 V", gain[0])] };
  }

  /* A channel heard where another belongs. */
  function stray(assembly, reading) {
    const bench = engine.bench(assembly), [source, listener] = pairOf(reading), { channel } = bench.listeners.get(listener).record;
    const shown = bench.shown(source, engine.largestAt(sizes(midGains(bench, source, listener)))[0], bench.at(listener)), size = engine.sizeOf(shown);
    const own = senders(bench, listener).filter((name) => bench.sources.get(name).record.channel === channel).map((name) => engine.smallest(midGains(bench, name, listener)));
    const right = Math.min(...own);
    const terms = [heard("heard of 1 V of this channel", size), heard("heard of 1 V of the one that belongs there", right)];
    return { ...shown, number: engine.decibels(size) - Math.max(engine.decibels(right), engine.HEARD), terms };
  }

  /* What a listener hears of 1 V between the two chassis. */
  function hum(assembly, { subject: listener }) {
    const bench = engine.bench(assembly), { linked } = assembly, size = bench.signals().hum.get(listener).map((corner) => corner.slice(0, engine.MID + 1).map(sizes));
    const [corner, at, state] = engine.largestAt(size), name = bench.corners[corner];
    const shown = engine.signalCase(linked, engine.valuesAt(linked, name), assembly.home[state], name, new Map([[engine.EARTHS, 1]]), at, bench.at(listener), { source: engine.EARTHS });
    return { ...shown, number: Math.min(-engine.decibels(engine.sizeOf(shown)), MOST_DECIBELS), terms: [heard("heard of 1 V between the chassis", engine.sizeOf(shown))] };
  }

  /* The resistance between the chassis, from a test current. */
  function screen(assembly) {
    const ohm = engine.screenOhms(assembly), [state] = engine.largestAt(ohm), joined = ohm[state] < engine.NO_PATH, { circuit } = assembly;
    const nodes = ["from", "into"].map((place) => engine.netName(engine.net(circuit, `${place}/chassis`)));
    const shown = engine.probeCase(engine.resistive(circuit), circuit, assembly.home[state], nodes, joined ? engine.TEST_AMPS : 0, ohm[state], []);
    return joined ? { ...shown, number: engine.sizeOf(shown) / engine.TEST_AMPS, terms: [heard("volts across at 1 mA", engine.sizeOf(shown))] } : shown;
  }

  engine.finders = {
    ...engine.finders, "path-gain": path, "side-gain": side, "load-ohm": loaded, "load-drop": dropped, "over-level": level, "shout-level": level, "under-level": level,
    treble: edge, "pickup-treble": edge, bass: edge, "mono-sum": mono, "sides-sum": sides, polarity, crosstalk: stray, "hum-rejection": hum, "screen-ohm": screen,
  };
})(Ringfence.engine);
