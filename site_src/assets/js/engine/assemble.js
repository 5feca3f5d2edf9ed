"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* From, Through, Into -> circuits: which contacts can touch, in which states, and what lies behind them. The twin of assemble.py.
   A place is `from`, `lead1` ..., `into`, or `extra1` ... for the usual partner of an end that is not part of the question; its nodes
   are called `place/node`. Contacts that may touch are switches. A way is {ends: [[near, far]], plugged: [[lead number, end]]}. */
(function (engine) {
  engine.EARTHS = "earths"; // the emf that stands for a difference between two chassis
  const UNITY = { nominal: 0, low: 0, high: 0, unit: "V", text: "0 V" };

  engine.isPort = (record) => Object.hasOwn(record, "listeners");

  /* Every way the halves allow, spare ends open and plugged; empty when something does not fit. */
  engine.ways = function (data, start, leads, target) {
    let routes = [[[], start]];
    for (const lead of leads) {
      const ends = Object.values(lead.ends);
      routes = routes.flatMap(([taken, open]) => ends.filter((near) => fits(data, open, near)).flatMap((near) =>
        ends.filter((far) => far !== near).map((far) => [[...taken, [near.id, far.id]], far])));
    }
    const fitting = routes.filter(([, open]) => fits(data, open, target));
    return fitting.flatMap(([taken]) => partners(data, leads, taken).map((plugged) => ({ ends: taken, plugged })));
  };

  function partners(data, leads, taken) {
    const spare = leads.flatMap((lead, i) => Object.values(lead.ends)
      .filter((end) => !taken[i].includes(end.id) && Object.hasOwn(data.ports, end.usual)).map((end) => [i, end.id]));
    return [[], ...(spare.length > 1 ? spare.map((one) => [one]) : []), ...(spare.length ? [spare] : [])];
  }

  /* What is where, as Map: from, lead1 ..., into, extra1 ... */
  engine.placed = (data, start, leads, target, way) => new Map([
    ["from", start], ...leads.map((lead, i) => [`lead${i + 1}`, lead]), ["into", target],
    ...way.plugged.map(([i, end], number) => [`extra${number + 1}`, data.ports[leads[i].ends[end].usual]]),
  ]);

  /* The circuits and states of one way: {places: Map, interfaces, circuit (as it is), linked (with an emf between the chassis of From and
     Into; null where one has none), bare (without the capacitance of the cables), home, joined, plugging}, the last three lists of
     switch states; `joined` has both chassis tied by mains earth as well; `touches` are the interface and the contacts of each switch,
     `pluggingAt` the interface of each plugging state. Without
     `travel` only the states of everything home. Throws CircuitError where no circuit can have these values. */
  engine.assemble = function (data, start, leads, target, way, travel = true) {
    const places = engine.placed(data, start, leads, target, way), interfaces = [];
    let side = ["from", start, null];
    leads.forEach((lead, i) => {
      const [near, far] = way.ends[i];
      interfaces.push(interfaceOf(data, side, [`lead${i + 1}`, lead, near], travel));
      side = [`lead${i + 1}`, lead, far];
    });
    interfaces.push(interfaceOf(data, side, ["into", target, null], travel));
    way.plugged.forEach(([i, end], number) => {
      const extra = `extra${number + 1}`;
      interfaces.push(interfaceOf(data, [`lead${i + 1}`, leads[i], end], [extra, places.get(extra), null], travel));
    });

    const touches = interfaces.flatMap(({ mating }, k) =>
      [...new Set([...mating.home, ...mating.travel].flatMap((state) => [...state]))].sort().map((touch) => [k, touch]));
    const switches = touches.map(([k, touch]) => {
      const [a, b] = engine.contacts(touch);
      return [interfaces[k].nodes[0].get(a), interfaces[k].nodes[1].get(b)];
    });
    const chassis = chassisOrder(places).filter((place) => engine.hasChassis(places.get(place))).map((place) => `${place}/chassis`);
    const both = chassis.includes("from/chassis") && chassis.includes("into/chassis");
    if (both) switches.push(["from/chassis", "into/chassis"]);
    const { parts, strays, couplings } = network(places);
    const full = [...parts, ...strays], earths = { id: engine.EARTHS, kind: "emf", a: "from/chassis", b: "into/chassis", value: UNITY };
    engine.holdPossible(full, couplings);
    const { home, plugging, pluggingAt } = states(interfaces, touches, travel ? leads.length + 1 : 0, both);
    const mayJoin = both && start.earthed !== "no" && target.earthed !== "no";
    return {
      places, interfaces, touches, home, plugging, pluggingAt,
      joined: mayJoin ? home.map((state) => [...state.slice(0, -1), true]) : [],
      circuit: engine.build(full, couplings, switches, chassis),
      linked: both ? engine.build([...full, earths], couplings, switches, chassis) : null,
      bare: engine.build(parts, couplings, switches, chassis),
    };
  };

  /* The ports by place: from, into, then extras, as [place, port]. */
  engine.portsOf = (places) => [...places].filter(([, record]) => engine.isPort(record));

  /* Does anything in this device meet its metalwork? */
  engine.hasChassis = (record) => engine.isPort(record) && record.network.parts.some((part) => part.a === "chassis" || part.b === "chassis");

  const chassisOrder = (places) => ["into", "from", ...[...places.keys()].filter((place) => place.startsWith("extra"))];

  engine.sideOf = (data, half) => ({ connector: data.connectors[half.connector], half: half.half });

  const fits = (data, one, two) => engine.fits(engine.sideOf(data, one), engine.sideOf(data, two));

  function interfaceOf(data, one, two, travel) {
    const nodesOf = ([place, record, end]) => {
      const half = end === null ? record : record.ends[end];
      const port = (contact) => (Object.hasOwn(record.contacts, contact) ? record.contacts[contact] : `open.${contact}`); // nothing known: stands alone
      const named = (contact) => (end === null ? port(contact) : `${end}.${contact}`);
      return [half, new Map(data.connectors[half.connector].contacts.map((contact) => [contact, `${place}/${named(contact)}`]))];
    };
    const [halfOne, nodesOne] = nodesOf(one), [halfTwo, nodesTwo] = nodesOf(two);
    const mating = engine.mate(engine.sideOf(data, halfOne), engine.sideOf(data, halfTwo));
    return { nodes: [nodesOne, nodesTwo], mating: travel ? mating : { ...mating, travel: [] }, plugLast: ["plug", "male"].includes(halfTwo.half) };
  }

  /* All parts, the stray capacitances of cables apart from the rest, and all couplings. */
  function network(places) {
    const parts = [], strays = [], couplings = [];
    for (const [place, record] of places) {
      for (const part of record.network.parts) {
        const stray = !engine.isPort(record) && part.kind === "capacitor" && !record.parts.includes(part.id);
        (stray ? strays : parts).push({ ...part, id: `${place}/${part.id}`, a: `${place}/${part.a}`, b: `${place}/${part.b}` });
      }
      for (const { first, second, k } of record.network.couplings) couplings.push({ first: `${place}/${first}`, second: `${place}/${second}`, k });
    }
    return { parts, strays, couplings };
  }

  /* Switch states: all home; and each main interface on its way, the others home, or open on one side of it. */
  function states(interfaces, touches, main, earth) {
    const switched = (landed) => [...touches.map(([k, touch]) => landed[k].has(touch)), ...(earth ? [false] : [])];
    const all = (lists) => engine.product(lists).map(switched);
    const homes = interfaces.map(({ mating }) => mating.home);
    const home = new Map(all(homes).map((state) => [state.join(), state]));
    const plugging = new Map(), nothing = [new Set()];
    for (let k = 0; k < main; k++) {
      const moving = [...interfaces[k].mating.travel, new Set()];
      const before = homes.slice(0, k), after = homes.slice(k + 1, main), extras = homes.slice(main);
      for (const [left, right] of [[before, after], [before, after.map(() => nothing)], [before.map(() => nothing), after]]) {
        for (const state of all([...left, moving, ...right, ...extras])) if (!home.has(state.join()) && !plugging.has(state.join())) plugging.set(state.join(), [state, k]);
      }
    }
    const found = [...plugging.values()];
    return { home: [...home.values()], plugging: found.map(([state]) => state), pluggingAt: found.map(([, k]) => k) };
  }
})(Ringfence.engine);
