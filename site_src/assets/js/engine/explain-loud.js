"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Find again the worst case of sources at their loudest: what a rated part and an output stage get of them. The twin of loud_cases.py. */
(function (engine) {
  /* The current through an output stage: its own at full level, or what the other outputs push into it. */
  function stage(assembly, reading) {
    const bench = engine.bench(assembly), { circuit, sources, corners } = bench, name = reading.subject, { place, record } = sources.get(name);
    const driving = Object.keys(record.drive).map((part) => circuit.index.get(`${place}/${part}`));
    const stages = driving.filter((i) => i !== undefined && circuit.parts[i].kind === "emf");
    if (!stages.length || reading.value === 0) return null;
    const others = reading.quantity === "driven-amps" ? [name] : [...sources.keys()].filter((other) => sources.get(other).place !== place);
    const values = corners.map((corner) => engine.valuesAt(circuit, corner));
    const found = engine.solveAc(circuit, values, engine.HERTZ, assembly.home, others.map((other) => [...bench.drive(other)]));
    const levels = others.map((other) => engine.loudest(sources.get(other).record));
    const share = (i) => (drive, s) => engine.signalAmps(circuit, 0, 0, drive, i) * levels[s]; // emfs need neither value nor frequency
    const amps = stages.map((i) => found.map((corner) => corner.map((states) => states.map((drives) => drives.map(share(i))))));
    const [which, corner, at, state] = engine.largestAt(amps.map((a) => a.map((b) => b.map((c) => c.map(sum)))));
    const shares = amps[which][corner][at][state], [main] = engine.largestAt(shares);
    const shown = bench.shown(others[main], state, circuit.parts[stages[which]].id, { edge: at, corner: corners[corner], level: levels[main] });
    const terms = others.length > 1 ? others.map((other, i) => [`from ${other}`, shares[i], "A"]) : [];
    return { ...shown, number: sum(shares), terms };
  }

  const sum = (numbers) => numbers.reduce((all, one) => all + one, 0);

  /* A rated part that signal stresses more than direct current does: its worst case, shown for the source that adds most. */
  engine.loudCase = function (assembly, place, limit, state, decides, number, terms) {
    const bench = engine.bench(assembly), { circuit } = bench, names = [...bench.sources.keys()], settled = state === "settled";
    const counted = engine.countedLevels([...bench.sources.values()], place, limit);
    const corners = settled ? bench.corners : ["nominal"], edges = settled ? [engine.LOW, engine.MID, engine.HIGH] : [engine.MID];
    const values = corners.map((corner) => engine.valuesAt(circuit, corner)), states = settled ? assembly.home : assembly.plugging;
    const found = engine.solveAc(circuit, values, edges.map((edge) => engine.HERTZ[edge]), states, names.map((name) => [...bench.drive(name)]));
    const peak = (level) => (drives, corner, at) => engine.limitSignal(assembly, place, limit, level)(drives, values[corner], engine.HERTZ[edges[at]]);
    const total = peak(counted), [corner, at, which] = engine.largestAt(found.map((a, c) => a.map((b, f) => b.map((drives) => total(drives, c, f)))));
    const alone = names.map((_, i) => peak(counted.map((level, k) => (k === i ? level : 0)))(found[corner][at][which], corner, at));
    const [main] = engine.largestAt(alone);
    return engine.signalCase(circuit, values[corner], states[which], corners[corner], bench.drive(names[main]), edges[at], decides,
      { number, terms, level: counted[main], source: names[main] });
  };

  engine.finders = { ...engine.finders, "forced-amps": stage, "driven-amps": stage };
})(Ringfence.engine);
