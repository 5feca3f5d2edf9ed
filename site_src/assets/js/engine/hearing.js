"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Signal readings: from solved signals to the numbers a listener would complain about. The twin of hearing.py. */
(function (engine) {
  const { BESIDE, GAIN_FLOOR, HEARD, NO_PATH, SHORTED, SHORT_SHARE, SUM_FLOOR } = Ringfence.constants;
  const signal = (quantity, subject, where, value, unit, more) =>
    engine.reading(quantity, subject, where, value, unit, "signal", more);
  const named = (place, channel) => new engine.Named(place, channel);
  const negative = (numbers) => numbers.map((one) => -one);
  const different = (items) => [...new Set(items)];
  const left = (kept) => Math.max(kept, 10 ** (SUM_FLOOR / 20));
  const floored = (gain) => Math.max(gain, GAIN_FLOOR); // what is below is nothing, and no case of it is worse

  /* Readings in both directions between From and Into. */
  engine.signalReadings = function* (assembly, signals) {
    const start = assembly.places.get("from"), target = assembly.places.get("into");
    for (const [here, there, device, other] of [["from", "into", start, target], ["into", "from", target, start]]) {
      const way = engine.wayOf(assembly, here);
      if (device.sources.length && other.listeners.length) {
        const found = [...switchedOff(assembly, here), ...direction(assembly, signals, here, there)];
        yield* found.map((reading) => ({ ...reading, flags: { ...reading.flags, way } }));
      } else if (other.sources.length || device.listeners.length) {
        yield* device.sources.map((source) => unheard(engine.output(here, source), there, { way: "forth" }));
      }
    }
    if (!(start.sources.length && target.listeners.length) && !(target.sources.length && start.listeners.length)) {
      yield signal("path-gain", "connection", "connection", engine.decibels(0), "dB",
        { words: { device: named("from"), other: named("into") }, flags: { cause: "nothing" } });
    }
    yield* engine.amplifiers(assembly);
    yield* stages(signals);
    yield* engine.screenReadings(assembly);
  };

  /* Sources that a setting turns off. */
  function* switchedOff(assembly, here) {
    for (const [number, setting] of engine.settings(assembly.ports).entries()) {
      const on = engine.switchedOn(assembly.ports, setting);
      for (const o of engine.outputs(assembly, here)) {
        if (engine.sends(on, o.place, o.source)) continue;
        yield signal("source-off", o.name, engine.channelWord(o.source.channel), 1, "",
          { setting: number, words: { device: named(o.place) } });
      }
    }
  }

  function* direction(assembly, signals, here, there) {
    const sent = engine.outputs(assembly, here), heardBy = engine.inputs(assembly, there);
    const sizes = (o, i) => signals.bare.get(engine.pair(o.name, i.name))[engine.MID].map(engine.size);
    const gain = ([o, i]) => Math.min(...sizes(o, i)), loud = (pair) => engine.decibels(gain(pair)) > HEARD;
    const asked = engine.askedPairs(sent, heardBy), same = ([o, i]) => engine.sameKind(o.source, i.listener);
    const alike = engine.comparable(sent, heardBy), fit = asked.filter(same);
    const own = fit.filter(([o, i]) => alike.some(([one, other]) => one === o && other === i)), pairs = own.length ? own : fit;
    const words = { device: named(here), other: named(there) };
    // The picture beside the sound of an audio and video socket does no harm to a lead that leaves it where it is.
    const apart = asked.find((pair) => !same(pair) && (!pairs.length || loud(pair)));
    if (apart) {
      const kinds = { sent: apart[0].source.kind, wanted: apart[1].listener.kind };
      yield signal("kinds-apart", here, "signal", 1, "", { words: { ...words, ...kinds } });
      return;
    }
    yield* engine.unsuited(assembly, here, there, pairs);
    const [number] = engine.largestAt(alike.map((pair) => floored(gain(pair))));
    const loudest = alike[number], best = engine.decibels(gain(loudest));
    const cause = sent.some((o) => shorted(signals, o)) ? "shorted" : "open";
    yield signal("path-gain", here, "connection", best, "dB", { words, flags: { cause }, ...arrival(signals, ...loudest) });
    yield* sent.filter((o) => pairs.every(([other]) => o !== other)).map((o) => unheard(o, there));
    if (best < HEARD) return;
    for (const o of sent) yield outputReading(signals, o);
    const relative = (pair) => engine.decibels(gain(pair)) - best;
    const several = engine.group(assembly, here).length + engine.group(assembly, there).length > 2;
    yield* sidesOfPairs(signals, pairs, relative, best, several);
    const heard = pairs.filter((pair) => relative(pair) > BESIDE);
    for (const [o, i] of heard) yield* engine.levelReadings(signals, o, i, wordsOf(o, i));
    for (const i of heardBy) {
      if (!sent.some((o) => loud([o, i]))) continue;
      yield* listenerReadings(signals, i, sent, heard.filter(([, hearing]) => hearing === i).map(([o]) => o));
    }
    for (const o of sent) {
      const hearing = heard.filter(([sender, i]) => sender === o && i.listener.kind !== engine.DIGITAL);
      yield* summed(signals, o, hearing.map(([, i]) => i));
    }
  }

  const wordsOf = (o, i) => ({ source: named(o.place, o.source.channel), sink: named(i.place, i.listener.channel) });

  /* Where a source is heard least, without the capacitance of cables, and how much of it: {at, terms}. */
  function arrival(signals, o, i) {
    const sizes = signals.bare.get(engine.pair(o.name, i.name))[engine.MID].map(engine.size);
    const [state] = engine.largestAt(negative(sizes.map(floored)));
    return {
      at: engine.at("signal", state, i.nodes, { source: o.name, bare: true }), terms: [["heard of 1 V", sizes[state], "V"]],
    };
  }

  /* Every channel against the best one. Where several devices share a lead, a channel without a partner of its name need not
     reach all of them: it has to reach one, and every input has to hear one. */
  function sidesOfPairs(signals, pairs, relative, best, several) {
    const free = pairs.filter(([o, i]) => several && !engine.matched(o, i));
    const nearest = [0, 1].flatMap((side) => different(free.map((pair) => pair[side]))
      .map((one) => loudestOf(free.filter((pair) => pair[side] === one), relative)));
    const shown = different([...pairs.filter((pair) => !free.includes(pair)), ...nearest]);
    return shown.map(function ([o, i]) {
      const { at, terms } = arrival(signals, o, i), against = ["heard of the best channel", 10 ** (best / 20), "V"];
      return signal("side-gain", engine.pair(o.name, i.name), engine.pairWords(o, i), relative([o, i]), "dB",
        { words: wordsOf(o, i), at, terms: [...terms, against] });
    });
  }

  /* The pair that is heard best; of those alike the first. */
  const loudestOf = (pairs, relative) => pairs[engine.largestAt(pairs.map((pair) => 10 ** (relative(pair) / 20)))[0]];

  const outputWord = ({ source }) => (source.channel === engine.MAIN ? "output" : `${source.channel} output`);

  function unheard(o, there, flags = {}) {
    const words = { source: named(o.place, o.source.channel), other: named(there) };
    return signal("unheard", o.name, engine.channelWord(o.source.channel), 1, "", { words, flags });
  }

  /* A source's own output at 1 kHz: volts with nothing plugged, and plugged, [state]. */
  const atOutput = (signals, o) => [engine.size(signals.openOutput.get(o.name)[engine.MID]),
    signals.output.get(o.name)[engine.MID].map(engine.size)];

  /* Level lost at a source's own output because of what is plugged into it, dB at 1 kHz. */
  function drop(signals, o) {
    const [open, plugged] = atOutput(signals, o);
    return engine.decibels(open) - engine.decibels(Math.min(...plugged));
  }

  /* Is next to nothing left at the output, or does an amplifier see a small part of the least load it is made for? */
  function shorted(signals, o) {
    const least = engine.AMPLIFIED.includes(o.source.kind) ? o.source.least_load : null;
    const low = () => Math.min(...signals.load.get(o.name)) < SHORT_SHARE * least;
    return drop(signals, o) > SHORTED || Boolean(least && low());
  }

  /* The load an output sees against the least it is made for; where none is named, what it costs. */
  function outputReading(signals, o) {
    const lost = drop(signals, o), where = outputWord(o), nodes = o.source.output.map((node) => `${o.place}/${node}`);
    const words = { source: named(o.place, o.source.channel), drop: engine.quantity(lost, "dB") };
    const at = (state) => engine.at("signal", state, nodes, { source: o.name });
    if (o.source.least_load) {
      const load = signals.load.get(o.name), [plugged, free] = signals.loads.get(o.name);
      const [state] = engine.largestAt(negative(load)), unplugged = "impedance at the output, nothing plugged";
      return signal("load-ohm", o.name, where, Math.min(load[state], NO_PATH), "ohm", {
        limit: o.source.least_load, words, at: at(state),
        terms: [[unplugged, free, "ohm"], ["plugged", plugged[state], "ohm"]],
      });
    }
    const [free, left] = atOutput(signals, o), [state] = engine.largestAt(negative(left.map(floored)));
    const terms = [["at the output, nothing plugged", free, "V"], ["plugged", left[state], "V"]];
    return signal("load-drop", o.name, where, lost, "dB", { words, at: at(state), terms });
  }

  /* What is left of one source when everything that hears it at the other end is summed to mono. */
  function* summed(signals, o, heard) {
    for (const place of different(heard.map((i) => i.place))) {
      const here = heard.filter((i) => i.place === place), words = here.map((i) => engine.channelWord(i.listener.channel));
      if (here.length < 2) continue;
      const gains = here.map((i) => signals.gains.get(engine.pair(o.name, i.name))[0][engine.MID]);
      const kept = engine.keptInSum(gains).map(left), [state] = engine.largestAt(negative(kept));
      const lost = Math.max(engine.decibels(kept[state]), SUM_FLOOR);
      const subject = `${o.name}>${here.map((i) => i.name).join("+")}`;
      yield signal("sides-sum", subject, words.join(" and "), lost, "dB", {
        words: { source: named(o.place, o.source.channel), sink: named(place), sum: falls(lost) },
        at: engine.at("signal", state, here[here.length - 1].nodes, { source: o.name }),
        terms: gains.map((states, n) => [`heard of +1 V at ${words[n]}`, states[state][0], "V"]),
      });
    }
  }

  /* `drops by 12 dB`, `vanishes`. */
  const falls = (kept) => (kept > HEARD ? `drops by ${engine.quantity(-kept, "dB")}` : "vanishes");

  function* listenerReadings(signals, i, sent, heard) {
    const words = { sink: named(i.place, i.listener.channel) }, where = engine.channelWord(i.listener.channel);
    const gains = new Map(sent.map((o) => [o, signals.gains.get(engine.pair(o.name, i.name))[0][engine.MID]]));
    if (gains.size > 1) {
      const every = [...gains.values()], kept = engine.keptInSum(every).map(left), [state] = engine.largestAt(negative(kept));
      const lost = Math.max(engine.decibels(kept[state]), SUM_FLOOR), here = every.map((states) => states[state]);
      const alike = engine.size(here.reduce(([re, im], one) => [re + one[0], im + one[1]], [0, 0]));
      const alone = here.reduce((all, one) => all + engine.size(one), 0);
      yield signal("mono-sum", i.name, where, lost, "dB", {
        words: { ...words, sum: falls(lost) }, at: engine.at("signal", state, i.nodes, { source: sent[0].place }),
        terms: [["heard with 1 V on every channel alike", alike, "V"], ["heard of each channel alone, added", alone, "V"]],
      });
    }
    if (heard.length && i.listener.kind !== engine.DIGITAL) { // its coding does not care
      yield* polarity(signals, i, heard, gains, words);
    }
    yield* strays(i, sent, gains);
    yield* engine.humReadings(signals, i, heard);
  }

  /* All that is heard upside down is reversed, where the plug lands worst; one of several upside down is what the mono sum
     tells. A plug that goes in two ways round is told of apart: a person sees its marks. */
  function* polarity({ assembly }, i, heard, gains, words) {
    const turned = [...assembly.turned, ...(assembly.joined.length ? assembly.turned : [])];
    const source = named(heard[0].place, heard.length === 1 ? heard[0].source.channel : engine.MAIN);
    for (const [quantity, wanted] of [["polarity", false], ["polarity-turned", true]]) {
      const states = [...turned.keys()].filter((state) => turned[state] === wanted);
      if (!states.length) continue;
      const worst = heard.map(function (o) {
        const real = states.map((state) => gains.get(o)[state][0] / engine.size(gains.get(o)[state]));
        const [at] = engine.largestAt(negative(real));
        return { value: real[at], o, state: states[at] };
      });
      const [number] = engine.largestAt(worst.map(({ value }) => value)), { value, o, state } = worst[number];
      yield signal(quantity, i.name, engine.channelWord(i.listener.channel), value, "", {
        words: { ...words, source }, at: engine.at("signal", state, i.nodes, { source: o.name }),
        terms: [["heard of +1 V", gains.get(o)[state][0], "V"]],
      });
    }
  }

  /* Channels heard where another belongs. */
  function* strays(i, sent, gains) {
    const own = sent.filter((o) => engine.matched(o, i)), least = (o) => Math.min(...gains.get(o).map(engine.size));
    if (!own.length) return;
    const belongs = Math.min(...own.map(least)), right = Math.max(engine.decibels(belongs), HEARD);
    for (const o of sent.filter((one) => !engine.matched(one, i))) {
      const sizes = gains.get(o).map(engine.size), [state] = engine.largestAt(sizes.map(floored));
      const subject = engine.pair(o.name, i.name), where = engine.channelWord(i.listener.channel);
      yield signal("crosstalk", subject, where, engine.decibels(sizes[state]) - right, "dB", {
        words: wordsOf(o, i), at: engine.at("signal", state, i.nodes, { source: o.name }),
        terms: [["heard of 1 V of this channel", sizes[state], "V"],
          ["heard of 1 V of the one that belongs there", belongs, "V"]],
      });
    }
  }

  /* The current through every output stage: its own at full level, and what the other outputs push into it. */
  function* stages(signals) {
    const all = [...signals.sources];
    for (const [column, [name, [place, source]]] of all.entries()) {
      const { stages: parts, amps } = signals.stageAmps(name), o = engine.output(place, source);
      if (!parts.length) continue;
      const others = [...all.keys()].filter((k) => all[k][1][0] !== place);
      const words = { source: named(place, source.channel) };
      for (const [quantity, counted, flags] of [["forced-amps", others, {}], ["driven-amps", [column], { kind: source.kind }]]) {
        const sum = (sources) => counted.reduce((total, k) => total + sources[k], 0);
        const [stage, corner, edge, state] = engine.largestAt(amps.map((corners) =>
          corners.map((edges) => edges.map((states) => states.map(sum)))));
        const here = amps[stage][corner][edge][state], found = sum(here);
        const main = found ? counted[engine.largestAt(counted.map((k) => here[k]))[0]] : column;
        const at = () => signals.stageAt(parts[stage], corner, edge, state, all[main][0]);
        const terms = counted.length > 1 ? counted.map((k) => [`from ${all[k][0]}`, here[k], "A"]) : [];
        yield signal(quantity, name, outputWord(o), found, "A", { words, flags, at: found ? at() : null, terms });
      }
    }
  }
})(Ringfence.engine);
