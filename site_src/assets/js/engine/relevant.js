/* What matters for one number: the parts it hangs on, the loops they close, and nothing else. The twin of relevant.py. The
   weight of a part is how much the number changes when the part's current is scaled: its current times the voltage that a
   unit test signal, put in where the number is measured, makes across it. An element is a part, a closed contact or the meter
   that reads the number: {id, kind, a, b, volts, amps, weight, decides, part}, with a and b nets after merging, volts and amps
   complex [re, im], part its number in the circuit or null. */

import { branched, build, DIRECT_OPENS, islands, net, netName, SIGNAL_OPENS } from "./circuit.js";
import {
  CONTACT_OHM,
  DRAWN_PARTS,
  DRAWN_SHARE,
  FAINT,
  LEFT_OUT,
  WEIGHT_DIGITS,
  WIRE_DROP,
} from "./constants.js";
import { largestAt, size } from "./currents.js";
import { solveAc } from "./solve.js";

const alternating = ({ nature }) => nature === "signal" || nature === "test";
const meets = (net, e) => net === e.a || net === e.b;
const ends = (e) => [e.a, e.b];
const largest = (numbers) => numbers.reduce((most, one) => Math.max(most, one), 0);

/* {merged: the net each net is drawn as, elements, kept, zeros: Set of nets taken as 0 V, at: the net whose currents are
   added}. `conductors` are the ids of parts that are nothing but wire of a lead. */
export function relevant(solved, conductors) {
  const raw = elements(solved),
    most = largest(raw.map((e) => size(e.volts)));
  const wire = (e) =>
    (e.kind === "contact" || conductors.has(e.id)) && !e.decides && size(e.volts) <= WIRE_DROP * most;
  const merged = merge(solved.circuit.netCount, raw.filter(wire)),
    weights = weigh(solved, raw);
  const all = raw
    .map((e, i) => ({ ...e, a: merged[e.a], b: merged[e.b], weight: weights[i] }))
    .filter((e) => e.decides || e.a !== e.b);
  const opens = alternating(solved) ? SIGNAL_OPENS : DIRECT_OPENS;
  const zeros = new Set(islands(solved.circuit, solved.closed, opens).map((net) => merged[net]));
  const deciding = all.filter((e) => e.decides),
    heaviest = Math.max(1, largest(all.map((e) => e.weight)));
  const rounded = (e) => Math.round((e.weight / heaviest) * 10 ** WEIGHT_DIGITS);
  const chosen = all
    .filter((e) => !e.decides && e.weight >= DRAWN_SHARE * heaviest && e.a !== e.b)
    .sort((one, two) => rounded(two) - rounded(one))
    .slice(0, DRAWN_PARTS);
  const open = solved.nature === "test" && !solved.level;
  const found = open ? deciding : closedLoops(all, [...deciding, ...chosen], opens);
  const kept = all.filter((e) => found.includes(e)),
    touching = (net) => kept.filter((e) => meets(net, e)).length;
  const better = (one, two) =>
    zeros.has(one) !== zeros.has(two) ? !zeros.has(two) : touching(two) > touching(one);
  const at = deciding.flatMap(ends).reduce((best, net) => (better(best, net) ? net : best));
  return { merged, elements: all, kept, zeros, at };
}

function elements(solved) {
  const { circuit, volts, amps, closed, decides } = solved;
  const across = (a, b) => [volts[a][0] - volts[b][0], volts[a][1] - volts[b][1]];
  const made = (id, kind, [a, b], flows, deciding, part) => ({
    id,
    kind,
    a,
    b,
    volts: across(a, b),
    amps: flows,
    weight: 0,
    decides: deciding,
    part,
  });
  const found = circuit.parts.map((part, i) =>
    made(part.id, part.kind, circuit.ends[i], amps[i], part.id === decides, i),
  );
  circuit.switches.forEach(([a, b], k) => {
    if (!closed[k] || a === b) return;
    const flows = across(a, b).map((one) => one / CONTACT_OHM);
    found.push(made(`contact${k}`, "contact", [a, b], flows, false, null));
  });
  if (Array.isArray(decides)) {
    const tester = solved.nature === "test" ? solved.level : 0,
      nets = decides.map((node) => net(circuit, node));
    found.push(made("meter", "meter", nets, [-tester, 0], true, null));
  }
  return found;
}

function merge(count, joints) {
  let found = Array.from({ length: count }, (_, net) => net);
  for (const { a, b } of joints) {
    const low = Math.min(found[a], found[b]),
      high = Math.max(found[a], found[b]);
    found = found.map((net) => (net === high ? low : net));
  }
  return found;
}

/* How much the number hangs on each element, as a share of it; where the number is nothing, how much each is part of either
   side. */
function weigh(solved, all) {
  const test = testSignal(solved, all),
    deciding = all.find((e) => e.decides);
  const own = size(branched(deciding) ? deciding.amps : deciding.volts);
  const tested = ({ a, b }) =>
    size([test.volts[a][0] - test.volts[b][0], test.volts[a][1] - test.volts[b][1]]);
  if (own > FAINT * Math.max(1e-3, solved.nature !== "direct" ? solved.level : 1)) {
    const pushed = (e) => size(e.volts) * size(test.amps.get(e.id) || [0, 0]);
    return all.map((e) => (e.kind === "emf" ? pushed(e) : size(e.amps) * tested(e)) / own);
  }
  const power = (e) => size(e.amps) * size(e.volts),
    answer = (e) => tested(e) ** 2 * siemens(solved, e);
  const lively = largest(all.map(power)),
    unit = lively > FAINT ** 2 ? lively : 1,
    answered = largest(all.map(answer)),
    most = answered > FAINT ** 2 ? answered : 1; // else nothing but rounding answers
  return all.map((e) => Math.max(power(e) / unit, answer(e) / most));
}

function siemens(solved, element) {
  if (element.kind === "resistor") return 1 / solved.values[element.part];
  return element.kind === "contact" ? 1 / CONTACT_OHM : 0;
}

/* Net voltages and branch currents that a unit test signal makes, put in where the number is measured; bends are replaced
   by their slopes. */
function testSignal(solved, all) {
  const { circuit } = solved,
    values = new Map(),
    name = netName,
    names = (nets) => nets.map(name);
  const moved = all
    .filter((e) => e.part !== null)
    .flatMap((e) => {
      const part = circuit.parts[e.part],
        value = solved.values[e.part];
      const sloped = alternating(solved) ? part : slope(part, value, e.volts[0]);
      if (!sloped) return [];
      values.set(e.id, sloped.ohm || value);
      return [{ ...sloped, a: name(e.a), b: name(e.b) }];
    });
  const lean = build(moved, circuit.couplings, circuit.switches.map(names), names(circuit.anchors));
  const deciding = all.find((e) => e.decides),
    between = names(ends(deciding)),
    branch = lean.branches.has(deciding.id);
  const there = deciding.a !== deciding.b && between.every((node) => lean.nets.has(node));
  if (!branch && !there) return { volts: solved.volts.map(() => [0, 0]), amps: new Map() };
  const drive = branch ? [deciding.id, 1] : [between, -1],
    own = Float64Array.from(lean.parts, ({ id }) => values.get(id));
  const [[[[found]]]] = solveAc(lean, [own], [solved.hertz || 0], [solved.closed], [[drive]]);
  const read = (at) => (at === undefined ? [0, 0] : [found.re[at], found.im[at]]);
  return {
    volts: solved.volts.map((_, net) => read(lean.nets.get(name(net)))),
    amps: new Map([...lean.branches].map(([part, at]) => [part, read(at)])),
  };
}

/* What stands for a part when direct current moves a little: a bend its slope, and nothing where it is flat or a
   capacitor. */
function slope(part, value, volts) {
  if (part.kind === "capacitor") return null;
  if (part.kind !== "sink" && part.kind !== "clamp") return part;
  const sink = part.kind === "sink",
    steep = sink ? volts <= part.knee : volts > value;
  const ohm = sink && value ? part.knee / value : part.series;
  return steep && ohm ? { ...part, kind: "resistor", ohm } : null;
}

/* The chosen elements with the shortest way on from every net that would end in the air; what has no way on really ends
   there. */
function closedLoops(all, chosen, opens) {
  const kept = [...chosen],
    givenUp = new Set();
  supplied(all, kept);
  const most = largest(all.filter((e) => e.kind !== "contact").map((e) => size(e.amps)));
  const strongest = most > FAINT ? most : 0;
  for (;;) {
    const counts = new Map();
    for (const e of kept) for (const net of new Set(ends(e))) counts.set(net, (counts.get(net) || 0) + 1);
    const loose = [...counts.keys()].find((net) => counts.get(net) === 1 && !givenUp.has(net));
    if (loose === undefined) return kept;
    const goals = new Set([...counts.keys()].filter((net) => net !== loose)),
      taken = new Set(kept.map((e) => e.id));
    const way = shortest(all, taken, loose, goals, opens, strongest);
    if (way.length) kept.push(...way);
    else givenUp.add(loose);
  }
}

/* Add, at nets where most of the current would come from nowhere, the part that brings it. */
function supplied(all, kept) {
  while (kept.length < 2 * DRAWN_PARTS) {
    const net = [...new Set(kept.flatMap(ends))].find((one) => starved(all, kept, one));
    if (net === undefined) return;
    const lacking = missing(all, kept, net);
    kept.push(lacking[largestAt(lacking.map((e) => size(e.amps)))[0]]);
  }
}

const at = (all, net) => all.filter((e) => meets(net, e) && e.a !== e.b);
const missing = (all, kept, net) => at(all, net).filter((e) => !kept.includes(e));

function starved(all, kept, net) {
  const shown = at(all, net).filter((e) => kept.includes(e)),
    most = largest(shown.map((e) => size(e.amps)));
  const sum = shown.reduce(
    ([re, im], { a, amps }) => (a === net ? [re + amps[0], im + amps[1]] : [re - amps[0], im - amps[1]]),
    [0, 0],
  );
  return most > FAINT && size(sum) > LEFT_OUT * most && missing(all, kept, net).length > 0;
}

/* The shortest way through elements not taken yet, along those that carry current if there are any. */
function shortest(all, taken, start, goals, opens, strongest) {
  const queue = [{ far: 0, pushed: 0, net: start, way: [] }],
    seen = new Set();
  const nearer = (one, two) => one.far < two.far || (one.far === two.far && one.pushed < two.pushed);
  const free = (e) => e.a !== e.b && !taken.has(e.id) && !opens.includes(e.kind) && e.kind !== "meter";
  for (let pushed = 0; queue.length; ) {
    const next = queue.reduce((best, one, i) => (nearer(one, queue[best]) ? i : best), 0);
    const [{ far, net, way }] = queue.splice(next, 1);
    if (goals.has(net)) return way;
    if (seen.has(net)) continue;
    seen.add(net);
    for (const e of all.filter((one) => meets(net, one) && free(one))) {
      const step = strongest && size(e.amps) >= DRAWN_SHARE * strongest ? 1 : 4;
      queue.push({ far: far + step, pushed: ++pushed, net: net === e.a ? e.b : e.a, way: [...way, e] });
    }
  }
  return [];
}
