"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* The one case a reading was found in, solved again with every voltage and current: a slice of the stack it came from. The
   twin of slices.py. */
(function (engine) {
  const { TEST_AMPS } = Ringfence.constants;

  /* The case of a reading; null where no voltage or current decides. */
  engine.caseOf = function (assembly, reading) {
    const { at, value: number, terms } = reading;
    return at === null ? null : { ...CASES[at.nature](assembly, reading, at), number, terms };
  };

  function direct(assembly, { setting }, { state, corner, off, decides, shared }) {
    const { circuit, ports, states } = assembly;
    const live = engine.liveVolts(circuit, ports, engine.settings(ports)[setting]);
    const values = engine.driveValues(circuit, live, corner, off), closed = states[state];
    const solution = engine.solveDc(circuit, [values], [closed]);
    return engine.directCase(shared ? engine.shared(solution, [closed]) : solution, closed, corner, decides);
  }

  function instant(assembly, reading, { state, decides, before: [position, plugged], driven }) {
    const { circuit } = assembly, capacitors = new engine.Capacitors(assembly), closed = assembly.states[state];
    const held = capacitors.settled().map((each) => each[position][plugged]), row = capacitors.row(driven);
    const solution = capacitors.solve([row], held.map((volts) => [[volts]]), [closed]);
    // An emf of what the capacitor holds
    [...capacitors.large.keys()].forEach((name, k) => { row[capacitors.circuit.index.get(name)] = held[k]; });
    const netsOf = () => (Array.isArray(decides) ? decides.map((node) => engine.net(circuit, node)) : circuit.ends[circuit.index.get(decides)]);
    // A part may be missing in this instant, or be two.
    const there = !Array.isArray(decides) && capacitors.circuit.index.has(decides) && !(capacitors.large.has(decides) && reading.unit === "V");
    const read = there ? decides : netsOf().map(engine.netName);
    return engine.directCase({ ...solution, values: [row] }, closed, engine.CORNER, read, "instant", circuit);
  }

  function signal(assembly, reading, at) {
    const circuit = at.bare ? assembly.bare : assembly.circuit, values = engine.valuesAt(circuit, at.corner);
    // A side stands for all its devices: a lead may bring several together.
    const wanted = [...engine.sourcesOf(assembly)].filter(([name, [place]]) => name === at.source || place.replace(/[2-9]+$/, "") === at.source);
    const drive = new Map(wanted.flatMap(([, [place, source]]) => [...engine.driveOf(place, source)]));
    return engine.signalCase(circuit, values, assembly.states[at.state], at.corner, drive, at);
  }

  function hum({ linked, home, pairs }, reading, at) {
    const values = engine.powered(linked, engine.valuesAt(linked, at.corner), pairs[at.pair]);
    const drive = new Map([[engine.EARTHS, 1]]);
    return engine.signalCase(linked, values, home[at.state], at.corner, drive, { ...at, source: engine.EARTHS });
  }

  const test = ({ circuit, home }, reading, { state, decides, level }) =>
    engine.probeCase(engine.resistive(circuit), circuit, home[state], decides, TEST_AMPS * level);

  const CASES = { direct, instant, signal, hum, test };
})(Ringfence.engine);
