"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What charged capacitors do at the moment a contact closes or opens. The twin of discharge.py: in the first instant a capacitor holds
   its voltage, an emf behind a contact's resistance. For every supply setting the capacitors are charged as they are when fully
   plugged, then each plugging state is struck with those charges. */
(function (engine) {
  const LEAST_CHARGE = 1; // V; below this a capacitor is of no interest
  const LEAST_CAPACITANCE = 1e-7; // F; below this it empties before anything notices
  const CONTACT = ":contact";

  /* Peak current (A) with charge and energy, and time to settle (s), of every capacitor that a supply charges. */
  engine.dischargeReadings = function (assembly) {
    const { circuit } = assembly, ports = engine.portsOf(assembly);
    const big = new Map([...circuit.parts.entries()].filter(([, part]) => part.kind === "capacitor" && part.value.nominal >= LEAST_CAPACITANCE)
      .map(([i, part]) => [part.id, i]));
    if (!big.size) return [];
    const cases = [];
    engine.settings(ports).forEach((setting, number) => {
      const values = engine.driveValues(circuit, engine.switchedOff(circuit, ports, setting), "nominal");
      if (circuit.parts.some((part, i) => part.kind === "emf" && values[i])) cases.push({ number, values });
    });
    const settled = engine.solveDc(circuit, cases.map(({ values }) => values), assembly.home.slice(0, 1));
    cases.forEach((one, drive) => {
      const volts = [...big].map(([name, i]) => [name, engine.partVolts(settled, i)(drive, 0)]);
      one.charges = new Map(volts.filter(([, charge]) => Math.abs(charge) >= LEAST_CHARGE));
    });
    const charged = cases.filter(({ charges }) => charges.size);
    if (!charged.length) return [];
    const ohms = resistances(assembly, big), peak = assembly.plugging.length ? strike(circuit, charged, big, assembly.plugging) : null;
    return charged.flatMap(({ number, charges }, drive) => [
      slowest(assembly, charges, number, ohms),
      ...(peak ? [...charges].map(([name, charge]) => emptied(assembly, name, number, charge, peak(name, drive))) : []),
    ]);
  };

  /* The circuit with other parts: `change` gives for each part, with the first names of its nets for nodes, what to put there. */
  function rebuilt(circuit, change) {
    const names = engine.netNames(circuit), parts = circuit.parts.flatMap((part, i) => change({ ...part, a: names[circuit.ends[i][0]], b: names[circuit.ends[i][1]] }));
    return engine.build(parts, circuit.couplings, circuit.switches.map(([a, b]) => [names[a], names[b]]), circuit.anchors.map((net) => names[net]));
  }

  /* The largest current of each large capacitor, an emf behind a contact's resistance, in the first instant over all states, A: (name, drive). */
  function strike(circuit, charged, big, states) {
    const struck = rebuilt(circuit, (part) => {
      if (!big.has(part.id)) return part.kind === "capacitor" ? [] : [part];
      return [{ ...part, kind: "emf", a: part.id + CONTACT }, { id: part.id + CONTACT, kind: "resistor", a: part.a, b: part.id + CONTACT }];
    });
    const drives = charged.map(({ values, charges }) => Float64Array.from(struck.parts, ({ id }) => {
      if (big.has(id)) return charges.get(id) || 0;
      return circuit.index.has(id) ? values[circuit.index.get(id)] : engine.CONTACT_OHM;
    }));
    const solution = engine.solveDc(struck, drives, states);
    return function (name, drive) {
      const amps = engine.partAmps(solution, struck.index.get(name));
      return Math.max(...states.map((_, state) => Math.abs(amps(drive, state))));
    };
  }

  function emptied(assembly, name, setting, charge, amps) {
    const farads = assembly.circuit.parts[assembly.circuit.index.get(name)].value.nominal;
    const words = { ...wordsOf(assembly, name), energy: farads * charge * charge / 2, charge: Math.abs(charge) };
    return engine.reading("discharge-amps", name, words.part, amps, "A", "plugging", { setting, words });
  }

  /* The resistance each large capacitor sees, the other capacitors full, ohm: Map of names; without those that nothing can fill. */
  function resistances(assembly, big) {
    const { circuit } = assembly, found = new Map(), names = engine.netNames(circuit);
    const resistive = rebuilt(circuit, (part) => (part.kind === "capacitor" ? [] : [part]));
    const piece = engine.pieces(resistive, assembly.home[0], engine.SIGNAL_OPENS), { nets } = resistive;
    const probes = [...big].map(([name, i]) => ({ name, ends: circuit.ends[i].map((net) => names[net]) }))
      .filter(({ ends: [a, b] }) => nets.has(a) && nets.has(b) && piece[nets.get(a)] === piece[nets.get(b)]); // else only capacitors meet there
    if (!probes.length) return found;
    const [[[solved]]] = engine.solveAc(resistive, [engine.valuesAt(resistive, "nominal")], [0], assembly.home.slice(0, 1), probes.map(({ ends }) => [[ends, -1]]));
    probes.forEach(({ name, ends }, i) => found.set(name, engine.size(engine.signalVolts(solved[i], ...ends.map((node) => nets.get(node))))));
    return found;
  }

  /* Five time constants of the charged capacitor that takes longest. */
  function slowest(assembly, charges, setting, ohms) {
    const { circuit } = assembly, names = [...charges.keys()];
    const seconds = (name) => 5 * circuit.parts[circuit.index.get(name)].value.nominal * ohms.get(name);
    const known = circuit.parts.map(({ id }) => id).filter((id) => charges.has(id) && ohms.has(id));
    const longest = known.reduce((best, name) => (best === null || seconds(name) > seconds(best) ? name : best), null);
    const words = wordsOf(assembly, longest === null ? names[0] : longest);
    return engine.reading("settle-seconds", "connection", words.part, longest === null ? 0 : seconds(longest), "s", "plugging", { setting, words });
  }

  function wordsOf(assembly, id) {
    const cut = id.indexOf("/"), record = assembly.places.get(id.slice(0, cut));
    return { device: engine.short(record), part: engine.partName(record, id.slice(cut + 1)) || "capacitor" };
  }
})(Ringfence.engine);
