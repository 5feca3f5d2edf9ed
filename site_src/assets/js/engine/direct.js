"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Direct-current readings: every supply setting, tolerance corner, landing and plugging state of an assembly. The twin of direct.py
   from `corners` on; switches.js is what stands before it. */
(function (engine) {
  const RESIDUE = 1e-6; // V, A or W; what the engine's own leaks and rounding leave where no supply or signal reaches
  const MORE = 1.05; // beyond this multiple of what a part sees with nothing plugged in, the connection has a hand in it
  const UNITS = { volts: "V", reverse: "V", amps: "A", watts: "W" };

  /* The tolerance corners at which anything in this circuit differs from nominal. */
  engine.corners = function (circuit) {
    const loose = circuit.parts.some(({ value }) => value && value.low !== value.high);
    return ["nominal", ...(loose ? ["strong", "weak"] : []), ...(engine.skewed(circuit) ? ["skewed"] : [])];
  };

  engine.skewed = (circuit) => circuit.parts.some((part) => part.skew && part.match);

  /* All readings of every setting. `peaks` gives for each limit of each place and state what signal adds at its loudest. */
  engine.directReadings = function (assembly, peaks) {
    const { circuit } = assembly, ports = engine.portsOf(assembly.places), at = engine.corners(circuit);
    const settings = engine.settings(ports), offs = settings.map((setting) => engine.switchedOff(circuit, ports, setting));
    const states = [...assembly.home, ...assembly.joined, ...assembly.plugging];
    const lives = offs.map((off) => circuit.parts.filter((part) => part.kind === "emf" && !off.has(part.id) && part.value.nominal));
    const drives = offs.map((off) => at.map((corner) => engine.driveValues(circuit, off, corner)));
    const stack = engine.solveDc(circuit, drives.flat(), states); // all at once: they share factors
    let apart = null; // the same with nothing plugged in, once someone asks
    const unplugged = () => (apart = apart || engine.solveDc(circuit, drives.flat(), [states[0].map(() => false)]));
    return settings.flatMap((positions, setting) => {
      const live = lives[setting], start = setting * at.length;
      const one = {
        assembly, setting, positions, live, solution: { circuit, values: drives[setting], unknowns: stack.unknowns.slice(start, start + at.length) },
        unplugged: () => ({ circuit, values: drives[setting], unknowns: unplugged().unknowns.slice(start, start + at.length) }),
        settled: assembly.home.length + assembly.joined.length, states: states.length,
        own: (place) => live.some((part) => engine.placeOf(part) === place), foreign: (place) => live.some((part) => engine.placeOf(part) !== place),
      };
      return [...stress(one, peaks), ...needs(one), ...supplies(one), ...windings(one)];
    });
  };

  /* What every rated part sees, settled and while plugging. A rating that is not known counts where another's supply reaches the part, and
     where a device's own supply does more to it than with nothing plugged in. */
  function* stress({ assembly, solution, unplugged, setting, settled, states, own, foreign }, peaks) {
    for (const [place, record] of assembly.places) {
      for (const limit of record.network.limits) {
        const read = engine.heldAgainst(limit, engine.limitValues(solution, place, limit));
        for (const [state, start, stop, rating] of [["settled", 0, settled, limit.settled], ["plugging", settled, states, limit.momentary]]) {
          if (start === stop) continue;
          const signal = peaks.get(engine.peakKey(place, limit, state)) || 0;
          const value = engine.highest(solution, read, start, stop) + signal;
          const name = engine.limitName(record, limit), known = rating !== null;
          if (!known && !(signal > RESIDUE) && !foreign(place) && !(own(place) && value > MORE * most(unplugged(), place, limit) + RESIDUE)) continue;
          yield engine.reading(`${known ? "part" : "unrated"}-${limit.quantity}`, `${place}/${limit.id}`, name, value, UNITS[limit.quantity], state,
            { setting, limit: rating, evidence: limit.evidence, words: { device: engine.short(record), part: name } });
        }
      }
    }
  }

  const most = (solution, place, limit) => engine.highest(solution, engine.heldAgainst(limit, engine.limitValues(solution, place, limit)), 0, 1);

  /* The direct volts, amps or watts a limit is about, as a function of (drive, state). */
  engine.limitValues = function (solution, place, limit) {
    if (limit.between) return engine.nodeVolts(solution, ...limit.between.map((node) => `${place}/${node}`));
    const index = solution.circuit.index.get(`${place}/${limit.part}`);
    if (index === undefined) return () => 0;
    const volts = engine.partVolts(solution, index), amps = engine.partAmps(solution, index);
    if (limit.quantity === "volts" || limit.quantity === "reverse") return volts;
    return limit.quantity === "amps" ? amps : (...which) => amps(...which) * volts(...which);
  };

  /* The size that counts against a limit. A capacitor's reverse rating is about direct volts the wrong way round; every other rating is
     about size. Where that is not known, neither is which way round it sits. */
  engine.heldAgainst = (limit, direct) => (limit.quantity === "reverse" && limit.settled !== null
    ? (...which) => Math.max(-direct(...which), 0) : (...which) => Math.abs(direct(...which)));

  /* The volts left at whatever has to be powered: the least over corners and landings, without help from mains earth. A need belongs to
     the channel it shares its circuit with: a microphone nobody listens to may stay without. */
  function* needs({ assembly, solution, setting }) {
    for (const [place, other] of [["from", "into"], ["into", "from"]]) {
      const port = assembly.places.get(place), found = [];
      for (const need of port.needs) {
        const sends = port.sources.some((source) => circuitOf(source.id) === circuitOf(need.id));
        if (sends && !assembly.places.get(other).listeners.length) continue;
        const volts = engine.lowest(solution, engine.nodeVolts(solution, ...need.between.map((node) => `${place}/${node}`)), 0, assembly.home.length);
        found.push({ need, volts: Math.abs(volts) > RESIDUE ? volts : 0, way: engine.wayOf(assembly, sends ? place : other) });
      }
      const all = found.every(({ need, volts }) => volts < need.least) ? "yes" : "no";
      for (const { need, volts, way } of found) {
        yield engine.reading("supplied-volts", `${place}/${need.id}`, need.where, volts, "V", "settled",
          { setting, limit: need.least, evidence: need.evidence, words: { device: engine.short(port), part: need.where, window: window(port, need) }, flags: { way, all } });
      }
    }
  }

  /* `needs 24 V or more`, or `works from 10.5 V to 17 V` where it is known what may lie there at most. */
  function window(port, need) {
    const most = port.network.limits.find((limit) => limit.quantity === "volts" && limit.between && limit.between.join() === need.between.join());
    const least = engine.quantity(need.least, "V");
    return !most || most.settled === null ? `needs ${least} or more` : `works from ${least} to ${engine.quantity(most.settled, "V")}`;
  }

  const circuitOf = (id) => id.split(".")[0];

  /* `forth` for what From sends, `back` for what comes back; a connection with nothing to send is asked about what comes back. */
  engine.wayOf = function (assembly, place) {
    const asked = assembly.places.get("from").sources.length && assembly.places.get("into").listeners.length ? "from" : "into";
    return place === asked ? "forth" : "back";
  };

  /* Current pushed back into a supply, and the surge a supply gives while plugging beyond what it gives settled. */
  function* supplies({ assembly, solution, setting, live, settled, states }) {
    for (const part of live) {
      const record = assembly.places.get(engine.placeOf(part)), index = solution.circuit.index.get(part.id);
      const amps = engine.partAmps(solution, index), sign = Math.sign(part.value.nominal);
      const back = (...which) => amps(...which) * sign, out = (...which) => -back(...which);
      const supply = engine.isPort(record) && record.supplies.find((one) => one.id === part.supply), name = supply ? supply.name : "supply";
      const more = { setting, words: { device: engine.short(record), part: name } };
      yield engine.reading("supply-fed-amps", part.id, name, Math.max(0, engine.highest(solution, back, 0, settled)), "A", "settled", more);
      if (states > settled) {
        const moving = assembly.plugging.map((_, i) => engine.highest(solution, out, settled + i, settled + i + 1)), most = Math.max(...moving);
        const surge = most - Math.max(0, engine.highest(solution, out, 0, settled));
        const [at] = engine.largestAt(moving);
        yield engine.reading("surge-amps", part.id, name, Math.max(0, surge), "A", "plugging", { ...more, words: { ...more.words, meets: engine.meeting(assembly, at) } });
      }
    }
  }

  /* Direct current through coils and ribbons, and into the stages that drive an output. */
  function* windings({ assembly, solution, setting, positions, settled, foreign }) {
    const on = engine.supplySwitches(engine.portsOf(assembly.places)).filter(({ key, supply }) => positions.get(key) === supply.states[0]);
    const feed = on.some(({ supply }) => supply.style === "pair") ? "pair" : "single";
    for (const [place, record] of assembly.places) {
      if (!foreign(place)) continue;
      const driving = new Set((record.sources || []).flatMap((source) => Object.keys(source.drive)));
      for (const part of record.network.parts) {
        const index = solution.circuit.index.get(`${place}/${part.id}`);
        if (index === undefined || !(part.coil || (driving.has(part.id) && part.kind === "emf"))) continue;
        if (!part.coil && record.network.parts.some((other) => other.coil)) continue;
        const amps = engine.partAmps(solution, index), most = engine.highest(solution, (...which) => Math.abs(amps(...which)), 0, settled);
        const [quantity, name] = part.coil ? ["coil-amps", part.coil] : ["output-fed-amps", "output stage"];
        yield engine.reading(quantity, `${place}/${part.id}`, name, most, "A", "settled",
          { setting, words: { device: engine.short(record), part: name }, flags: { feed } });
      }
    }
  }
})(Ringfence.engine);
