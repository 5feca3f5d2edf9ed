"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What charged capacitors do at the moment a contact closes or opens. The twin of discharge.py: in the first instant a capacitor holds
   its voltage, an emf behind a contact's resistance. For every supply setting the capacitors are charged as they are when fully
   plugged, then each plugging state is struck with those charges. */
(function (engine) {
  const LEAST_CHARGE = 0.97; // V; below this a capacitor is of no interest. Not 1 V: what sources give must not hang on rounding
  const LEAST_CAPACITANCE = 1e-6; // F; below this it fills and empties before anything notices
  const CONTACT = engine.CONTACT = ":contact";

  /* Peak current (A) with charge and energy, and time to settle (s), of every capacitor that a supply charges; and the current (A) that
     filling or emptying them drives through windings, which is held against what those stand while plugging. */
  engine.dischargeReadings = function (assembly) {
    const { cases, solution, big } = engine.instants(assembly);
    if (!cases.length) return [];
    const ohms = engine.resistances(assembly, big), amps = (part, drive) => engine.struckAmps(solution, part, drive);
    return cases.flatMap(({ number, charges, filling, emptying }) => [
      ...windings(assembly, number, (part) => Math.max(...amps(part, filling), ...amps(part, emptying))),
      ...(charges.size ? [slowest(assembly, charges, number, ohms)] : []),
      ...[...charges].map(([name, charge]) => emptied(assembly, name, number, charge, Math.max(0, ...amps(name, emptying).slice(assembly.home.length)))),
    ]);
  };

  /* {cases, solution, big}: for each setting that feeds anything its number, the charge of every large capacitor (Map, V), and which drives
     of the solution are the first instant, of all home, then all plugging states, with the capacitors empty and with them charged. */
  engine.instants = function (assembly) {
    const { circuit, home, plugging } = assembly, ports = engine.portsOf(assembly.places);
    const big = circuit.parts.filter((part) => part.kind === "capacitor" && part.value.nominal >= LEAST_CAPACITANCE).map((part) => part.id);
    const drive = (setting) => engine.driveValues(circuit, engine.switchedOff(circuit, ports, setting), "nominal");
    const pushed = engine.settings(ports).map((setting, number) => ({ number, values: drive(setting) }))
      .filter(({ values }) => circuit.parts.some((part, i) => part.kind === "emf" && values[i]));
    if (!big.length || !pushed.length) return { cases: [], big };
    const settled = engine.solveDc(circuit, pushed.map(({ values }) => values), home.slice(0, 1));
    const charged = pushed.map(({ number, values }, drive) => {
      const volts = big.map((name) => [name, engine.partVolts(settled, circuit.index.get(name))(drive, 0)]);
      return { number, values, charges: new Map(volts.filter(([, charge]) => Math.abs(charge) >= LEAST_CHARGE)) };
    });
    return { ...strike(circuit, charged, big, [...home, ...plugging]), big };
  };

  /* The first instant with every large capacitor an emf behind a contact's resistance and the small ones left out, each case with them
     empty and then charged. */
  function strike(circuit, cases, big, states) {
    const large = new Set(big), charged = big.flatMap((name) => {
      const part = circuit.parts[circuit.index.get(name)], [a, b] = circuit.ends[circuit.index.get(name)].map(engine.netName), between = name + CONTACT;
      const contact = { nominal: engine.CONTACT_OHM, low: engine.CONTACT_OHM, high: engine.CONTACT_OHM };
      return [{ ...part, kind: "emf", a: between, b }, { id: between, kind: "resistor", a, b: between, value: contact }];
    });
    const struck = engine.rebuilt(circuit, (part) => part.kind !== "capacitor", charged);
    const driveOf = (values, full) => Float64Array.from(struck.parts, ({ id }) => {
      if (large.has(id)) return full.get(id) || 0;
      return circuit.index.has(id) ? values[circuit.index.get(id)] : engine.CONTACT_OHM;
    });
    const drives = cases.map(({ values }) => driveOf(values, new Map()));
    const emptying = cases.map(({ values, charges }, i) => (charges.size ? drives.push(driveOf(values, charges)) - 1 : i));
    return { solution: engine.solveDc(struck, drives, states), cases: cases.map((one, i) => ({ ...one, filling: i, emptying: emptying[i] })) };
  }

  /* The size of the current through a part in every state of a drive, A. */
  engine.struckAmps = function (solution, name, drive) {
    const read = solution.circuit.index.has(name) ? engine.partAmps(solution, solution.circuit.index.get(name)) : () => 0;
    return solution.unknowns[drive].map((_, state) => Math.abs(read(drive, state)));
  };

  /* Large capacitors fill and empty over tens of milliseconds: as long as plugging takes. */
  function* windings(assembly, setting, amps) {
    for (const [place, record] of assembly.places) {
      const coils = record.network.parts.filter((part) => part.coil).map((part) => part.id);
      for (const limit of record.network.limits) {
        if (limit.quantity !== "amps" || !coils.includes(limit.part)) continue;
        const name = engine.limitName(record, limit), words = { device: engine.short(record), part: name };
        const quantity = limit.momentary === null ? "unrated-amps" : "part-amps";
        yield engine.reading(quantity, `${place}/${limit.id}`, name, amps(`${place}/${limit.part}`), "A", "plugging",
          { setting, limit: limit.momentary, evidence: limit.evidence, words });
      }
    }
  }

  function emptied(assembly, name, setting, charge, amps) {
    const farads = assembly.circuit.parts[assembly.circuit.index.get(name)].value.nominal;
    const words = { ...wordsOf(assembly, name), energy: farads * charge * charge / 2, charge: Math.abs(charge) };
    return engine.reading("discharge-amps", name, words.part, amps, "A", "plugging", { setting, words });
  }

  /* The resistance each large capacitor sees, the other capacitors full, ohm: Map of names. Where only capacitors meet, or nothing leads
     round, a capacitor never fills through resistance, and has no entry. */
  engine.resistances = function ({ circuit, home }, big) {
    const lean = engine.resistive(circuit), piece = engine.pieces(lean, home[0], engine.SIGNAL_OPENS), { nets } = lean;
    const probes = big.map((name) => ({ name, ends: circuit.ends[circuit.index.get(name)].map(engine.netName) }))
      .filter(({ ends: [a, b] }) => nets.has(a) && nets.has(b) && piece[nets.get(a)] === piece[nets.get(b)]);
    if (!probes.length) return new Map();
    const [[[found]]] = engine.solveAc(lean, [engine.valuesAt(lean, "nominal")], [0], home.slice(0, 1), probes.map(({ ends }) => [[ends, -1]]));
    return new Map(probes.map(({ name, ends }, i) => [name, engine.size(engine.signalVolts(found[i], ...ends.map((node) => nets.get(node))))]));
  };

  /* Five time constants of the charged capacitor that takes longest. */
  function slowest(assembly, charges, setting, ohms) {
    const { circuit } = assembly, names = [...charges.keys()];
    const seconds = (name) => 5 * circuit.parts[circuit.index.get(name)].value.nominal * ohms.get(name);
    const known = names.filter((name) => ohms.has(name)), most = Math.max(...known.map(seconds));
    const slowest = known.find((name) => seconds(name) >= most * (1 - engine.ALIKE)); // of those alike, the first
    const words = wordsOf(assembly, slowest || names[0]);
    return engine.reading("settle-seconds", "connection", words.part, slowest ? seconds(slowest) : 0, "s", "plugging", { setting, words });
  }

  function wordsOf(assembly, id) {
    const cut = id.indexOf("/"), record = assembly.places.get(id.slice(0, cut));
    return { device: engine.short(record), part: engine.partName(record, id.slice(cut + 1)) || "capacitor" };
  }
})(Ringfence.engine);
