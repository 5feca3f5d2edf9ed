"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Signals solved: what every listener hears of every source, how it is loaded, and what a difference between chassis adds. The twin of
   signal.py. Gains are complex volts [re, im] per volt of open-circuit level. */
(function (engine) {
  const HERTZ = engine.HERTZ = [20, 1000, 20000];
  const FLOOR = engine.FLOOR = 1e-12; // a gain below this is nothing: -240 dB
  engine.LOW = 0;
  engine.MID = 1;
  engine.HIGH = 2;

  /* 20 log10 of a magnitude, never below FLOOR. */
  engine.decibels = (ratio) => 20 * Math.log10(Math.max(Math.abs(ratio), FLOOR));

  engine.pair = (source, listener) => `${source}>${listener}`;
  engine.peakKey = (place, limit, state) => `${place}/${limit.id} ${state}`;

  /* The highest level a source is known to give, V rms. */
  engine.loudest = (source) => source.maximum || source.nominal || 0;

  /* Solve every signal question of an assembly. Maps by `place/source` and pair of such names:
     gains[corner][frequency][home state]; bare [frequency][home state], nominal without cable capacitance; openOutput[frequency] and
     output[frequency][home state] at the source's own output; load, the smallest impedance magnitude seen at 1 kHz, ohm;
     hum[corner][frequency][home state] per volt between chassis, by listener; peaks: what all sources at their loudest add to a rated part
     (V or A peak, W); forced, driven: the current other sources, and the source itself, drive through its output stage (A rms). */
  engine.solveSignals = function (assembly) {
    const { circuit, bare, linked, home } = assembly, ports = engine.portsOf(assembly.places);
    const named = (kind) => ports.flatMap(([place, port]) => port[kind].map((record) => ({ name: `${place}/${record.id}`, place, record })));
    const sources = named("sources"), listeners = named("listeners");
    const corners = engine.skewed(circuit) ? ["nominal", "skewed"] : ["nominal"];
    const values = corners.map((corner) => engine.valuesAt(circuit, corner));
    const drives = sources.map(({ place, record }) => Object.entries(record.drive).map(([part, share]) => [`${place}/${part}`, share]));
    const probes = sources.map(({ place, record }) => [[record.output.map((node) => `${place}/${node}`), -1]]);

    const found = engine.solveAc(circuit, values, HERTZ, [...home, circuit.switches.map(() => false)], [...drives, ...probes]);
    const lean = engine.solveAc(bare, [engine.valuesAt(bare, "nominal")], HERTZ, home, drives)[0];
    const signals = { gains: new Map(), bare: new Map(), openOutput: new Map(), output: new Map(), load: new Map(), hum: new Map() };
    sources.forEach(({ name, place, record }, column) => {
      for (const other of listeners) {
        const heard = across(circuit, other.place, other.record.between), heardBare = across(bare, other.place, other.record.between);
        const plugged = (states) => states.slice(0, -1).map((drive) => heard(drive[column]));
        signals.gains.set(engine.pair(name, other.name), found.map((corner) => corner.map(plugged)));
        signals.bare.set(engine.pair(name, other.name), lean.map((states) => states.map((drive) => heardBare(drive[column]))));
      }
      const own = across(circuit, place, record.output);
      const plugged = found[0].map((states) => states.map((drive) => own(drive[column])));
      signals.openOutput.set(name, plugged.map((states) => states[home.length]));
      signals.output.set(name, plugged.map((states) => states.slice(0, -1)));
      const probed = found[0][engine.MID].map((drive) => own(drive[sources.length + column]));
      signals.load.set(name, load(probed.slice(0, -1), probed[home.length]));
    });

    if (linked) {
      const hummed = engine.solveAc(linked, values.map((corner) => Float64Array.of(...corner, 0)), HERTZ, home, [[[engine.EARTHS, 1]]]);
      for (const { name, place, record } of listeners) {
        const heard = across(linked, place, record.between);
        signals.hum.set(name, hummed.map((corner) => corner.map((states) => states.map(([drive]) => heard(drive)))));
      }
    }
    const settled = found.map((corner) => corner.map((states) => states.slice(0, -1).map((solved) => solved.slice(0, sources.length))));
    return { ...signals, ...peaksOf(assembly, sources, values, settled, drives) };
  };

  /* The signal voltage between two nodes of a place, in any solved drive. */
  function across(circuit, place, nodes) {
    const [a, b] = nodes.map((node) => engine.net(circuit, `${place}/${node}`));
    return (found) => engine.signalVolts(found, a, b);
  }

  /* The impedance the connection adds across an output, from the impedance there with and without it. */
  function load(plugged, unplugged) {
    const open = inverse(unplugged);
    const added = plugged.map((one) => { const [re, im] = inverse(one); return Math.hypot(re - open[0], im - open[1]); });
    return 1 / Math.max(...added, FLOOR);
  }

  function inverse([re, im]) {
    const square = re * re + im * im;
    return square === 0 ? [Infinity, NaN] : [re / square, -im / square]; // of nothing, as NumPy has it
  }

  /* What every rated part sees of all sources at their loudest, and the currents of the output stages. */
  function peaksOf(assembly, sources, values, home, drives) {
    const { circuit, places, plugging } = assembly, mid = HERTZ[engine.MID];
    const moving = plugging.length && drives.length ? engine.solveAc(circuit, values.slice(0, 1), [mid], plugging, drives) : [];
    const level = sources.map(({ record }) => engine.loudest(record));
    const peaks = new Map(), forced = new Map(), driven = new Map();
    for (const [state, solved, hertz] of [["settled", sources.length ? home : [], HERTZ], ["plugging", moving, [mid]]]) {
      if (!solved.length) continue;
      for (const [place, record] of places) {
        for (const limit of record.network.limits) {
          const peak = engine.limitSignal(assembly, place, limit, engine.countedLevels(sources, place, limit));
          let most = 0;
          for (const [c, corner] of solved.entries()) {
            for (const [f, states] of corner.entries()) for (const found of states) most = Math.max(most, peak(found, values[c], hertz[f]));
          }
          peaks.set(engine.peakKey(place, limit, state), most);
        }
      }
    }
    sources.forEach(({ name, place, record }, column) => {
      const driving = Object.keys(record.drive).map((part) => circuit.index.get(`${place}/${part}`));
      const stages = driving.filter((i) => i !== undefined && circuit.parts[i].kind === "emf");
      if (!stages.length) return;
      const amps = (found, i) => found.map((drive, s) => engine.signalAmps(circuit, 0, 0, drive, i) * level[s]);
      const cases = stages.flatMap((i) => home.flat(2).map((found) => amps(found, i)));
      forced.set(name, Math.max(...cases.map((one) => one.reduce((sum, amount, s) => (sources[s].place !== place ? sum + amount : sum), 0))));
      driven.set(name, Math.max(...cases.map((one) => one[column])));
    });
    return { peaks, forced, driven };
  }

  /* The loudest level of every source that counts against a limit, V rms. A device is built for its own signal; where a rating is not
     known, only what comes from elsewhere counts. */
  engine.countedLevels = (sources, place, limit) =>
    sources.map((source) => (limit.settled !== null || source.place !== place ? engine.loudest(source.record) : 0));

  /* What a rated part sees of all sources at `level` (V or A peak, W) as a function of (solved drives, values, hertz). */
  engine.limitSignal = function ({ circuit }, place, limit, level) {
    const index = limit.part ? circuit.index.get(`${place}/${limit.part}`) : undefined;
    // Windings are rated for direct current, which pulls one way; signal moves them to and fro.
    const directOnly = limit.quantity === "reverse" || (index !== undefined && limit.quantity === "amps" && circuit.parts[index].coil);
    if (directOnly || (limit.part && index === undefined)) return () => 0;
    const [a, b] = limit.part ? circuit.ends[index] : limit.between.map((node) => engine.net(circuit, `${place}/${node}`));
    const volts = (found) => found.reduce((sum, drive, s) => sum + engine.size(engine.signalVolts(drive, a, b)) * level[s], 0);
    if (limit.quantity === "volts") return (found) => volts(found) * Math.SQRT2;
    const amps = (found, values, hertz) => found.reduce((sum, drive, s) => sum + engine.signalAmps(circuit, values[index], hertz, drive, index) * level[s], 0);
    return limit.quantity === "amps" ? (...one) => amps(...one) * Math.SQRT2 : (found, ...more) => amps(found, ...more) * volts(found);
  };
})(Ringfence.engine);
