"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What matters for one number: the parts it hangs on, the loops they close, and nothing else. The twin of relevant.py up to `_test`;
   explain-loops.js is the rest. An element is a part, a closed contact or the meter that reads the number: {id, kind, a, b, volts, amps,
   weight, decides, part}, with a and b nets after merging, volts and amps complex [re, im], part its number in the circuit or null. */
(function (engine) {
  const DROP = 1e-3; // share of the largest voltage that a wire may drop and still be drawn as a line
  const LEAST = engine.LEAST_SHARE = 0.02; // share of the heaviest weight
  const MOST = engine.MOST_SHOWN = 12; // parts chosen by weight; more only to close their loops
  const ROUNDING = 1e-9;
  const size = (pair) => engine.size(pair);
  const signalLike = ({ nature }) => nature === "signal" || nature === "test";

  /* {merged: the net each net is drawn as, elements, kept, zeros: Set of nets taken as 0 V, at: the net whose currents are added}.
     `conductors` are the ids of parts that are nothing but wire of a lead. */
  engine.relevant = function (solved, conductors) {
    const raw = elements(solved), largest = Math.max(0, ...raw.map((e) => size(e.volts)));
    const merged = merge(solved.circuit.netCount, raw.filter((e) => (e.kind === "contact" || conductors.has(e.id)) && !e.decides && size(e.volts) <= DROP * largest));
    const weights = weigh(solved, raw);
    const all = raw.map((e, i) => ({ ...e, a: merged[e.a], b: merged[e.b], weight: weights[i] })).filter((e) => e.decides || e.a !== e.b);
    const opens = signalLike(solved) ? engine.SIGNAL_OPENS : engine.DIRECT_OPENS;
    const zeros = new Set(engine.islands(solved.circuit, solved.closed, opens).map((net) => merged[net]));
    const deciding = all.filter((e) => e.decides), heaviest = Math.max(1, ...all.map((e) => e.weight));
    const chosen = all.filter((e) => !e.decides && e.weight >= LEAST * heaviest && e.a !== e.b).sort((one, two) => two.weight - one.weight).slice(0, MOST);
    const found = solved.nature === "test" && !solved.level ? deciding : engine.closedLoops(all, [...deciding, ...chosen], opens);
    const kept = all.filter((e) => found.includes(e)), touching = (net) => kept.filter((e) => net === e.a || net === e.b).length;
    const better = (one, two) => (zeros.has(one) !== zeros.has(two) ? !zeros.has(two) : touching(two) > touching(one));
    const at = deciding.flatMap((e) => [e.a, e.b]).reduce((best, net) => (better(best, net) ? net : best));
    return { merged, elements: all, kept, zeros, at };
  };

  function elements(solved) {
    const { circuit, volts, amps, closed, decides } = solved, across = (a, b) => [volts[a][0] - volts[b][0], volts[a][1] - volts[b][1]];
    const made = (id, kind, [a, b], amps, decides, part) => ({ id, kind, a, b, volts: across(a, b), amps, weight: 0, decides, part });
    const found = circuit.parts.map((part, i) => made(part.id, part.kind, circuit.ends[i], amps[i], part.id === decides, i));
    circuit.switches.forEach(([a, b], k) => {
      if (closed[k] && a !== b) found.push(made(`contact${k}`, "contact", [a, b], across(a, b).map((one) => one / engine.CONTACT_OHM), false, null));
    });
    if (Array.isArray(decides)) {
      const tester = solved.nature === "test" ? solved.level : 0;
      found.push(made("meter", "meter", decides.map((node) => engine.net(circuit, node)), [-tester, 0], true, null));
    }
    return found;
  }

  function merge(count, joints) {
    let found = Array.from({ length: count }, (_, net) => net);
    for (const { a, b } of joints) {
      const low = Math.min(found[a], found[b]), high = Math.max(found[a], found[b]);
      found = found.map((net) => (net === high ? low : net));
    }
    return found;
  }

  /* How much the number hangs on each element, as a share of it; where the number is nothing, how much each is part of either side. */
  function weigh(solved, all) {
    const test = testSignal(solved, all), deciding = all.find((e) => e.decides), own = engine.branched(deciding) ? size(deciding.amps) : size(deciding.volts);
    const tested = (e) => [test.volts[e.a][0] - test.volts[e.b][0], test.volts[e.a][1] - test.volts[e.b][1]];
    if (own > ROUNDING * Math.max(1e-3, solved.nature !== "direct" ? solved.level : 1)) {
      return all.map((e) => (e.kind === "emf" ? size(e.volts) * size(test.amps.get(e.id) || [0, 0]) : size(e.amps) * size(tested(e))) / own);
    }
    const lively = Math.max(0, ...all.map((e) => size(e.amps) * size(e.volts))) || 1, answer = (e) => size(tested(e)) ** 2 * siemens(solved, e);
    const most = Math.max(0, ...all.map(answer)) || 1;
    return all.map((e) => Math.max(size(e.amps) * size(e.volts) / lively, answer(e) / most));
  }

  function siemens(solved, element) {
    if (element.kind === "resistor") return 1 / solved.values[element.part];
    return element.kind === "contact" ? 1 / engine.CONTACT_OHM : 0;
  }

  /* Net voltages and branch currents that a unit test signal makes, put in where the number is measured; bends are replaced by their slopes. */
  function testSignal(solved, all) {
    const { circuit } = solved, values = new Map(), moved = all.filter((e) => e.part !== null).flatMap((e) => {
      const sloped = signalLike(solved) ? circuit.parts[e.part] : slope(circuit.parts[e.part], solved.values[e.part], e.volts[0]);
      if (!sloped) return [];
      values.set(e.id, sloped.ohm || solved.values[e.part]);
      return [{ ...sloped, a: engine.netName(e.a), b: engine.netName(e.b) }];
    });
    const lean = engine.build(moved, circuit.couplings, circuit.switches.map((pair) => pair.map(engine.netName)), circuit.anchors.map(engine.netName));
    const deciding = all.find((e) => e.decides), ends = [deciding.a, deciding.b].map(engine.netName);
    const nothing = { volts: solved.volts.map(() => [0, 0]), amps: new Map() };
    if (!lean.branches.has(deciding.id) && (deciding.a === deciding.b || !ends.every((node) => lean.nets.has(node)))) return nothing;
    const drive = lean.branches.has(deciding.id) ? [deciding.id, 1] : [ends, -1], own = Float64Array.from(lean.parts, ({ id }) => values.get(id));
    const [[[[found]]]] = engine.solveAc(lean, [own], [solved.hertz || 0], [solved.closed], [[drive]]), read = (at) => [found.re[at], found.im[at]];
    const node = (net) => lean.nets.get(engine.netName(net));
    return {
      volts: solved.volts.map((_, net) => (node(net) === undefined ? [0, 0] : read(node(net)))),
      amps: new Map([...lean.branches].map(([part, at]) => [part, read(at)])),
    };
  }

  /* What stands for a part when direct current moves a little: a bend its slope, and nothing where it is flat or a capacitor. */
  function slope(part, value, volts) {
    if (part.kind === "capacitor") return null;
    if (part.kind !== "sink" && part.kind !== "clamp") return part;
    const steep = part.kind === "sink" ? volts <= part.knee : volts > value, ohm = part.kind === "sink" ? value && part.knee / value : part.series;
    return steep && ohm ? { ...part, kind: "resistor", ohm } : null;
  }
})(Ringfence.engine);
