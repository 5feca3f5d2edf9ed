"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Find again the case that gave a direct-current reading: which corner, landing or step of plugging was the worst. The twin of direct_cases.py. */
(function (engine) {
  const NEAR = 1e-9; // two ways to the same number differ by rounding only
  const statesOf = ({ home, joined, plugging }) => [...home, ...joined, ...plugging];

  /* The drives of a reading's setting, a corner each, in every state. */
  function solved(assembly, { setting }) {
    const { circuit } = assembly, ports = engine.portsOf(assembly.places), off = engine.switchedOff(circuit, ports, engine.settings(ports)[setting]);
    return engine.solveDc(circuit, engine.corners(circuit).map((corner) => engine.driveValues(circuit, off, corner)), statesOf(assembly));
  }

  function made(assembly, solution, [drive, state], decides, number, terms = []) {
    return engine.directCase(solution, drive, state, statesOf(assembly)[state], engine.corners(assembly.circuit)[drive], decides, number, { terms });
  }

  function span(assembly, state) {
    const settled = assembly.home.length + assembly.joined.length;
    return state === "settled" ? [0, settled] : [settled, statesOf(assembly).length];
  }

  /* Where a function of (drive, state) is largest, and how large: {at: [drive, state], most}. */
  function worst(solution, read, [start, stop]) {
    const numbers = solution.values.map((_, drive) => Array.from({ length: stop - start }, (__, i) => read(drive, start + i)));
    const [drive, state] = engine.largestAt(numbers);
    return { at: [drive, start + state], most: numbers[drive][state] };
  }

  const subjectOf = ({ subject }) => [subject.slice(0, subject.indexOf("/")), subject.slice(subject.indexOf("/") + 1)];

  /* The worst case of a rated (or unrated) part: direct current and signal at its loudest together, or the first instant of plugging. */
  function stressed(assembly, reading) {
    const [place, name] = subjectOf(reading), limit = assembly.places.get(place).network.limits.find(({ id }) => id === name);
    const solution = solved(assembly, reading), read = engine.heldAgainst(limit, engine.limitValues(solution, place, limit));
    const { at, most } = worst(solution, read, span(assembly, reading.state));
    const signal = engine.solveSignals(assembly).peaks.get(engine.peakKey(place, limit, reading.state)) || 0;
    if (Math.abs(most + signal - reading.value) > NEAR * Math.max(1, Math.abs(reading.value))) return struckWinding(assembly, reading, place, limit);
    const loudest = `all signals at their loudest${reading.unit !== "W" ? ", peak" : ""}`;
    const terms = [["direct current", most, reading.unit], [loudest, signal, reading.unit]];
    const decides = limit.part ? `${place}/${limit.part}` : limit.between.map((node) => `${place}/${node}`);
    if (signal > most) return engine.loudCase(assembly, place, limit, reading.state, decides, most + signal, terms);
    return made(assembly, solution, at, decides, most + signal, signal ? terms : []);
  }

  const instantOf = (assembly, { setting }) => {
    const { solution, cases } = engine.instants(assembly);
    return { solution, ...cases.find(({ number }) => number === setting) };
  };

  function struckWinding(assembly, reading, place, limit) {
    const part = `${place}/${limit.part}`, { solution, charges, filling, emptying } = instantOf(assembly, reading);
    const most = (drive) => Math.max(...engine.struckAmps(solution, part, drive));
    return instant(assembly, solution, most(emptying) > most(filling) ? emptying : filling, part, 0, charges);
  }

  /* A charged capacitor at the instant a contact closes on it. */
  function discharged(assembly, reading) {
    const { solution, charges, emptying } = instantOf(assembly, reading), name = reading.subject;
    return instant(assembly, solution, emptying, name, assembly.home.length, new Map([[name, charges.get(name)]]));
  }

  function instant(assembly, solution, drive, part, first, charges) {
    const amps = engine.struckAmps(solution, part, drive).slice(first), [state] = engine.largestAt(amps);
    const terms = [...charges].map(([name, volts]) => [`${name} charged to`, volts, "V"]);
    return engine.directCase(solution, drive, first + state, [...assembly.home, ...assembly.plugging][first + state], "nominal", part, amps[state],
      { terms, nature: "instant", original: assembly.circuit });
  }

  /* Null where it never does. The resistance a capacitor fills through, from a test current; five time constants. */
  function settles(assembly, reading) {
    const { charges } = instantOf(assembly, reading), { circuit } = assembly, farads = (name) => circuit.parts[circuit.index.get(name)].value.nominal;
    const ohms = engine.resistances(assembly, circuit.parts.map(({ id }) => id).filter((id) => charges.has(id)));
    const found = [...ohms].find(([name, ohm]) => Math.abs(5 * farads(name) * ohm - reading.value) <= NEAR * reading.value);
    if (!found) return null;
    const [name, ohm] = found, nodes = circuit.ends[circuit.index.get(name)].map(engine.netName);
    const terms = [["capacitance", farads(name), "F"], ["resistance it sees", ohm, "ohm"], ["charge", charges.get(name), "V"]];
    return engine.probeCase(engine.resistive(circuit), circuit, assembly.home[0], nodes, engine.TEST_AMPS, 5 * farads(name) * ohm, terms);
  }

  /* The least volts left at what has to be powered. */
  function supplied(assembly, reading) {
    const [place, name] = subjectOf(reading), need = assembly.places.get(place).needs.find(({ id }) => id === name);
    const solution = solved(assembly, reading), nodes = need.between.map((node) => `${place}/${node}`), volts = engine.nodeVolts(solution, ...nodes);
    const { at, most } = worst(solution, (...which) => -volts(...which), [0, assembly.home.length]);
    return made(assembly, solution, at, nodes, -most);
  }

  /* Current pushed into a supply. */
  function fed(assembly, reading) {
    const { solution, back } = supply(assembly, reading), { at, most } = worst(solution, back, span(assembly, "settled"));
    return made(assembly, solution, at, reading.subject, Math.max(0, most));
  }

  /* What a supply gives while plugging beyond what it gives once home. */
  function surging(assembly, reading) {
    const { solution, back } = supply(assembly, reading), out = (...which) => -back(...which);
    const { at, most } = worst(solution, out, span(assembly, "plugging")), home = Math.max(0, worst(solution, out, span(assembly, "settled")).most);
    return made(assembly, solution, at, reading.subject, Math.max(0, most - home), [["most while plugging", most, "A"], ["most once home", home, "A"]]);
  }

  /* What is pushed into a supply in every case, A. */
  function supply(assembly, reading) {
    const solution = solved(assembly, reading), index = assembly.circuit.index.get(reading.subject), amps = engine.partAmps(solution, index);
    return { solution, back: (...which) => amps(...which) * Math.sign(assembly.circuit.parts[index].value.nominal) };
  }

  /* Direct current through a winding or an output stage. */
  function crossed(assembly, reading) {
    const solution = solved(assembly, reading), amps = engine.partAmps(solution, assembly.circuit.index.get(reading.subject));
    const { at, most } = worst(solution, (...which) => Math.abs(amps(...which)), span(assembly, "settled"));
    return made(assembly, solution, at, reading.subject, most);
  }

  engine.finders = {
    ...engine.finders, ...Object.fromEntries(["volts", "reverse", "amps", "watts"].flatMap((name) => [[`part-${name}`, stressed], [`unrated-${name}`, stressed]])),
    "supplied-volts": supplied, "supply-fed-amps": fed, "surge-amps": surging, "coil-amps": crossed, "output-fed-amps": crossed,
    "discharge-amps": discharged, "settle-seconds": settles,
  };
})(Ringfence.engine);
