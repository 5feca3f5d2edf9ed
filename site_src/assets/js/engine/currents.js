"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What a meter would read in a solved circuit: the twin of Solution, part_amps, part_signal_amps and most_at in solve.py. */
(function (engine) {
  const { ALIKE } = Ringfence.constants;

  /* Where the largest of nested lists of numbers stands, as a list of indexes; of those alike but for rounding the first,
     which is the same on every machine. */
  engine.largestAt = function (numbers) {
    const value = most(numbers);
    return first(numbers, value * (1 - ALIKE * Math.sign(value)));
  };

  /* The largest of nested lists of numbers. */
  const most = engine.most = (one) =>
    (typeof one === "number" ? one : one.reduce((found, each) => Math.max(found, most(each)), -Infinity));

  function first(numbers, least) {
    if (typeof numbers === "number") return numbers >= least ? [] : null;
    for (let i = 0; i < numbers.length; i++) {
      const found = first(numbers[i], least);
      if (found) return [i, ...found];
    }
    return null;
  }

  /* A function of (drive, state) told for every drive and the states from `start` to before `stop`: [drive][state]. */
  engine.everywhere = (solution, read, start = 0, stop = Infinity) =>
    solution.unknowns.map((states, drive) => states.slice(start, stop).map((_, at) => read(drive, at + start)));

  /* Direct voltage of node a over node b as a function of (drive, state), V. */
  engine.nodeVolts = function (solution, a, b) {
    const one = engine.net(solution.circuit, a), two = engine.net(solution.circuit, b);
    return (drive, state) => solution.unknowns[drive][state][one] - solution.unknowns[drive][state][two];
  };

  /* Direct voltage across part number `index`, a over b, as a function of (drive, state), V. */
  engine.partVolts = function (solution, index) {
    const [a, b] = solution.circuit.ends[index];
    return (drive, state) => solution.unknowns[drive][state][a] - solution.unknowns[drive][state][b];
  };

  /* Direct current through part number `index` from a to b as a function of (drive, state), A. */
  engine.partAmps = function (solution, index) {
    const part = solution.circuit.parts[index], row = solution.circuit.branches.get(part.id);
    const volts = engine.partVolts(solution, index), value = (drive) => solution.values[drive][index];
    if (part.kind === "resistor") return (drive, state) => volts(drive, state) / value(drive);
    if (engine.branched(part)) return (drive, state) => solution.unknowns[drive][state][row];
    if (part.kind === "sink") return (drive, state) => value(drive) * Math.min(1, volts(drive, state) / part.knee);
    if (part.kind === "clamp") return (drive, state) => Math.max(0, volts(drive, state) - value(drive)) / part.series;
    return () => 0;
  };

  /* The highest or lowest of a function of (drive, state) over all drives and the states from `start` to before `stop`. */
  engine.highest = (solution, read, start, stop) => extreme(Math.max, -Infinity, solution, read, start, stop);
  engine.lowest = (solution, read, start, stop) => extreme(Math.min, Infinity, solution, read, start, stop);

  function extreme(pick, from, solution, read, start, stop) {
    let found = from;
    for (const drive of solution.values.keys()) for (let state = start; state < stop; state++) found = pick(found, read(drive, state));
    return found;
  }

  /* Signal voltage between two nets as a complex number [re, im], V. */
  engine.signalVolts = (found, a, b) => [found.re[a] - found.re[b], found.im[a] - found.im[b]];

  engine.size = ([re, im]) => engine.magnitude(re, im);

  /* The magnitude of the signal current through part number `index`, A rms; sinks and clamps carry none of it. */
  engine.signalAmps = function (circuit, value, hertz, found, index) {
    const part = circuit.parts[index], row = circuit.branches.get(part.id);
    if (engine.branched(part)) return engine.magnitude(found.re[row], found.im[row]);
    const volts = engine.size(engine.signalVolts(found, ...circuit.ends[index]));
    if (part.kind === "resistor") return volts / value;
    return part.kind === "capacitor" ? 2 * Math.PI * hertz * value * volts : 0;
  };
})(Ringfence.engine);
