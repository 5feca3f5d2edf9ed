"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* One solved case of a connection: the setting, corner and switch state at which a reading got its number, with every voltage and current.
   The twin of cases.py and bench.py. A case is {nature, circuit, values, closed, corner, volts, amps, decides, number, terms, hertz, level,
   source, spectrum, drive, nodes}: `volts` by net and `amps` by part are complex numbers [re, im] (rms for signal), `spectrum` has for each of
   HERTZ the volts by net per unit of level, `drive` maps what is driven to its signal for one unit of level, `nodes` lists the nodes of each net. */
(function (engine) {
  engine.TEST_AMPS = 1e-3; // what a tester sends

  /* Net -> nodes. Nets of a circuit made over from `original` are called `net0` ...; they get the original's nodes. */
  engine.nodesOf = function (circuit, original = null) {
    const found = Array.from({ length: circuit.netCount }, () => []), known = original ? engine.nodesOf(original) : [];
    for (const [name, net] of circuit.nets) {
      const made = original && /^net(\d+)$/.exec(name);
      found[net].push(...(made ? known[Number(made[1])] : [name]));
    }
    return found;
  };

  const plain = { terms: [], hertz: null, level: 1, source: "", spectrum: null, drive: new Map() };
  const real = (number) => [number, 0];
  const scaled = ([re, im], by) => [re * by, im * by];

  /* A case out of a direct-current solution. */
  engine.directCase = function (solution, drive, state, closed, corner, decides, number, { terms = [], nature = "direct", original = null } = {}) {
    const { circuit } = solution, unknowns = solution.unknowns[drive][state];
    return {
      ...plain, nature, circuit, values: solution.values[drive], closed, corner, decides, number, terms, nodes: engine.nodesOf(circuit, original),
      volts: Array.from(unknowns.slice(0, circuit.netCount), real),
      amps: circuit.parts.map((_, i) => real(engine.partAmps(solution, i)(drive, state))),
    };
  };

  const voltsOf = (circuit, found) => Array.from({ length: circuit.netCount }, (_, net) => [found.re[net], found.im[net]]);

  /* Signal current through a part from a to b, A rms. */
  function signalAmps(circuit, value, hertz, found, index) {
    const part = circuit.parts[index], row = circuit.branches.get(part.id);
    if (engine.branched(part)) return [found.re[row], found.im[row]];
    const [re, im] = engine.signalVolts(found, ...circuit.ends[index]), siemens = 2 * Math.PI * hertz * value;
    if (part.kind === "resistor") return [re / value, im / value];
    return part.kind === "capacitor" ? [-siemens * im, siemens * re] : [0, 0];
  }

  /* One drive (a Map of part -> signal) in one state, solved at HERTZ and shown at HERTZ[edge]. */
  engine.signalCase = function (circuit, values, closed, corner, drive, edge, decides, { number = 0, terms = [], level = 1, source = "" } = {}) {
    const found = engine.solveAc(circuit, [values], engine.HERTZ, [closed], [[...drive]])[0].map(([[one]]) => one), hertz = engine.HERTZ[edge];
    const driven = (part) => (part.kind === "sink" && drive.get(part.id)) || 0;
    const amps = circuit.parts.map((part, i) => signalAmps(circuit, values[i], hertz, found[edge], i)).map(([re, im], i) => [re + driven(circuit.parts[i]), im]);
    return {
      ...plain, nature: "signal", circuit, values, closed, corner, decides, number, terms, hertz, level, source, drive, nodes: engine.nodesOf(circuit),
      volts: voltsOf(circuit, found[edge]).map((one) => scaled(one, level)), amps: amps.map((one) => scaled(one, level)),
      spectrum: found.map((one) => voltsOf(circuit, one)),
    };
  };

  /* A test current of `level` amperes into the first of `nodes` and out of the second, all sources quiet: the voltage tells the resistance. */
  engine.probeCase = function (circuit, original, closed, nodes, level, number, terms) {
    const values = engine.valuesAt(circuit, "nominal"), drive = new Map([[nodes, -1]]);
    const [[[[found]]]] = engine.solveAc(circuit, [values], [0], [closed], [[...drive]]);
    return {
      ...plain, nature: "test", circuit, values, closed, corner: "nominal", decides: nodes, number, terms, hertz: 0, level, drive,
      nodes: engine.nodesOf(circuit, original), volts: voltsOf(circuit, found).map(([re]) => real(re * level)),
      amps: circuit.parts.map((_, i) => real(signalAmps(circuit, values[i], 0, found, i)[0] * level)),
    };
  };

  /* Voltage between the two nodes a case is decided at, [re, im]. */
  engine.heardIn = function ({ circuit, volts, decides }) {
    const [[re, im], [lessRe, lessIm]] = decides.map((node) => volts[engine.net(circuit, node)]);
    return [re - lessRe, im - lessIm];
  };

  engine.sizeOf = (solved) => engine.size(engine.heardIn(solved));

  /* An assembly with its signals solved, and its sources and listeners (Maps of name -> {name, place, record}) at hand. */
  engine.bench = function (assembly) {
    const { circuit } = assembly, ports = engine.portsOf(assembly.places);
    const named = (kind) => new Map(ports.flatMap(([place, port]) => port[kind].map((record) => [`${place}/${record.id}`, { name: `${place}/${record.id}`, place, record }])));
    const sources = named("sources"), listeners = named("listeners");
    const corners = engine.skewed(circuit) ? ["nominal", "skewed"] : ["nominal"];
    let signals = null;
    const nodes = (one, between) => between.map((node) => `${one.place}/${node}`);
    const drive = (name) => new Map(Object.entries(sources.get(name).record.drive).map(([part, share]) => [`${sources.get(name).place}/${part}`, share]));
    return {
      assembly, circuit, sources, listeners, corners, drive,
      signals: () => signals || (signals = engine.solveSignals(assembly)),
      at: (name) => nodes(listeners.get(name), listeners.get(name).record.between),
      output: (name) => nodes(sources.get(name), sources.get(name).record.output),
      shown(source, state, decides, { edge = engine.MID, bare = false, corner = "nominal", level = 1 } = {}) {
        const own = bare ? assembly.bare : circuit;
        return engine.signalCase(own, engine.valuesAt(own, corner), assembly.home[state], corner, drive(source), edge, decides, { level, source });
      },
    };
  };
})(Ringfence.engine);
