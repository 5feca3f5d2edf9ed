/* From, Through, Into -> circuits: which contacts can touch, in which states, and what lies behind them. The twin of
   assemble.py. A place is `from`, `lead1` ..., `into`; `from2`, `into2` ... for further devices of the same kind, where a
   lead with several like tails is used as it is meant; `extra1` ... for the usual partner of an end that is not part of the
   question. Its nodes are called `place/node`. Contacts that may touch are switches, so every state of plugging is the same
   circuit.
   A way is {ends: [[near, far]], plugged: [{lead, end, port, place}], meant}: for each lead its end towards From and towards
   Into, and the spare ends in use: lead number from 0, end, the port it is in, and what that is called. `meant` is false
   for another use of a lead than the one it is made for: only a danger counts there. */

import { build, holdPossible } from "./circuit.js";
import { keptFor } from "./kept.js";
import { contacts, fits as fitsOf, mate, PLUGS, product } from "./mate.js";
import { isPort, network, PLAIN } from "./network.js";
import { pairs } from "./powering.js";

export const EARTHS = "earths"; // the emf that stands for a difference between two chassis
export const RESISTANCE = "earths/resistance"; // what limits its current
export const CAPACITANCE = "earths/capacitance";
const BETWEEN = "from/earth wiring",
  BEHIND = "from/mains leakage"; // the nodes between these three
const NEAR = "from/chassis",
  FAR = "into/chassis";
const DIFFERENCE = [
  { ...PLAIN, id: EARTHS, kind: "emf", a: BEHIND, b: FAR },
  { ...PLAIN, id: RESISTANCE, kind: "resistor", a: NEAR, b: BETWEEN },
  { ...PLAIN, id: CAPACITANCE, kind: "capacitor", a: BETWEEN, b: BEHIND },
];

/* Every way the halves allow, the meant ones first; empty when something does not fit. */
export function ways(data, start, leads, target) {
  const fits = (one, two) => fitsOf(sideOf(data, one), sideOf(data, two));
  let routes = [[[], start]];
  for (const lead of leads) {
    const ends = Object.values(lead.ends);
    routes = routes.flatMap(([taken, open]) =>
      ends
        .filter((near) => fits(open, near))
        .flatMap((near) =>
          ends.filter((far) => far !== near).map((far) => [[...taken, [near.id, far.id]], far]),
        ),
    );
  }
  const fitting = routes.filter(([, open]) => fits(open, target));
  const found = fitting.flatMap(([ends]) => uses(data, start, leads, target, ends));
  const ordered = [...found.filter(({ meant }) => meant), ...found.filter(({ meant }) => !meant)];
  const distinct = new Map();
  for (const way of ordered) if (!distinct.has(JSON.stringify(way))) distinct.set(JSON.stringify(way), way);
  return [...distinct.values()];
}

/* What the spare ends of a way can be in. Like tails go into as many of the same device; any other use of such a lead is
   not the meant one. */
function uses(data, start, leads, target, ends) {
  const spare = leads.flatMap((lead, i) =>
    Object.values(lead.ends)
      .filter((end) => !ends[i].includes(end.id))
      .map((end) => [i, end]),
  );
  const sides = [
    ["from", start, 0, 0],
    ["into", target, leads.length - 1, 1],
  ];
  const copies = sides.flatMap(([side, port, lead, own]) =>
    spare
      .filter(([i, end]) => i === lead && alike(end, leads[lead].ends[ends[lead][own]]))
      .map(([, end], number) => ({ lead, end: end.id, port: port.id, place: `${side}${number + 2}` })),
  );
  const usual = spare
    .filter(([, end]) => end.usual !== null && Object.hasOwn(data.ports, end.usual))
    .map(([lead, end], number) => ({ lead, end: end.id, port: end.usual, place: `extra${number + 1}` }));
  const told = same(usual, copies) ? [] : usual; // what it is usually in is what it is in
  const meant = !copies.length,
    use = (plugged) => ({ ends, plugged, meant });
  return [
    // Tails that are alike may change places.
    ...(copies.length && first(leads, ends, copies) ? [{ ends, plugged: copies, meant: true }] : []),
    use([]),
    ...(told.length > 1 ? told.map((one) => use([{ ...one, place: "extra1" }])) : []),
    ...(told.length ? [use(told)] : []),
  ];
}

const alike = (one, other) =>
  one.connector === other.connector && one.half === other.half && one.usual === other.usual;

/* Are the same ends in the same ports? */
function same(one, other) {
  const told = (plugged) => [...new Set(plugged.map(({ end, port }) => `${end}\0${port}`))].sort().join("\n");
  return told(one) === told(other);
}

/* Of like tails, is the first one taken on either side? */
const first = (leads, ends, copies) =>
  copies.every(({ lead, end, place }) => {
    const order = Object.keys(leads[lead].ends),
      own = ends[lead][Number(place.startsWith("into"))];
    return order.indexOf(own) <= order.indexOf(end);
  });

/* What is where, as Map: from, lead1 ..., into, then from2, into2 ..., extra1 ... */
export function placed(data, start, leads, target, way) {
  const given = (id) => (id === target.id ? target : id === start.id ? start : data.ports[id]);
  const main = [["from", start], ...leads.map((lead, i) => [`lead${i + 1}`, lead]), ["into", target]];
  return new Map([...main, ...way.plugged.map(({ port, place }) => [place, given(port)])]);
}

/* The circuits and states of one way; without `travel` only the states of everything home.
   `places` is a Map, `ports` those of them that are ports as [place, port]. `touches` are the interface and the contacts
   of each switch, in the order of the circuit's switches. `circuit` is as it is; `linked` has an emf between the chassis
   of From and Into, null where one has none; `bare` is without the capacitance of the cables. Lists of switch states:
   `home` fully plugged, `joined` the same with both chassis tied by mains earth (none where that cannot be), `plugging`
   those on the way, without and with that earth, `settled` home and joined, `states` all of these; `apart` is the state
   with nothing plugged. `pluggingAt` names the interface of each plugging state, `turned` tells of each home state whether
   a plug sits the other way round; `halves` are states with one joint still open and all others home; `pairs` are the ways the two may be powered, worst first.
   Throws CircuitError where no circuit can have these values. */
export function assemble(data, start, leads, target, way, travel = true) {
  const places = placed(data, start, leads, target, way),
    use = `${JSON.stringify(way)} ${travel}`,
    made = keptFor(data.connectors, places, use, () =>
      assembled(data, places, start, leads, target, way, travel),
    );
  return { ...made, places, ports: portsOf(places) };
}

/* All of it that rests on the circuit alone. */
function assembled(data, places, start, leads, target, way, travel) {
  const joint = joints(data, places, start, leads, target, way, travel),
    { parts, strays, couplings, switches, chassis, both, ...made } = joint,
    full = [...parts, ...strays];
  holdPossible(full, couplings);
  return {
    ...made,
    pairs: both ? pairs(start.powered_by, target.powered_by) : [],
    circuit: build(full, couplings, switches, chassis),
    linked: both ? build([...full, ...DIFFERENCE], couplings, switches, chassis) : null,
    bare: build(parts, couplings, switches, chassis),
  };
}

/* All but the circuits, and what they are built from: their parts, the stray capacitances apart, `couplings`, `switches`, the nets that are
   `chassis`, and whether `both` From and Into have one. */
export function joints(data, places, start, leads, target, way, travel) {
  const interfaces = meetings(data, places, leads, way, travel);
  const touchesOf = ({ home, travel: moving }) =>
    [...new Set([...home, ...moving].flatMap((state) => [...state]))].sort();
  const touches = interfaces.flatMap(({ mating }, k) => touchesOf(mating).map((touch) => [k, touch]));
  const switches = touches.map(([k, touch]) => {
    const [a, b] = contacts(touch);
    return [interfaces[k].nodes[0].get(a), interfaces[k].nodes[1].get(b)];
  });
  const chassis = chassisOrder(places).map((place) => `${place}/chassis`);
  const both = chassis.includes(NEAR) && chassis.includes(FAR);
  if (both) switches.push([NEAR, FAR]);
  const main = leads.length + 1;
  const { home, turned, plugging, pluggingAt } = statesOf(interfaces, touches, main, both, travel);
  const mayJoin = both && start.earthed !== "no" && target.earthed !== "no";
  const earthed = (states) => (mayJoin ? states.map((state) => [...state.slice(0, -1), true]) : []);
  const settled = [...home, ...earthed(home)],
    moving = [...plugging, ...earthed(plugging)];
  return {
    interfaces,
    touches,
    home,
    joined: earthed(home),
    plugging: moving,
    settled,
    states: [...settled, ...moving],
    apart: switches.map(() => false),
    turned,
    halves: halvesOf(home[0], touches, interfaces.length),
    pluggingAt: mayJoin ? [...pluggingAt, ...pluggingAt] : pluggingAt,
    ...network(places),
    switches,
    chassis,
    both,
  };
}

/* The first home state with one joint after the other left open; none where that is the same as nothing plugged. */
function halvesOf(home, touches, joints) {
  const open = (joint) => home.map((shut, i) => shut && (i >= touches.length || touches[i][0] !== joint));
  const found = [...Array(joints).keys()].map(open).filter((state) => state.includes(true));
  return [...new Map(found.map((state) => [state.join(), state])).values()];
}

/* The ports by place, as [place, port]. */
export const portsOf = (places) => [...places].filter(([, record]) => isPort(record));

/* The places on one side of the question: `from` or `into`, and further devices of that kind. */
export const group = (assembly, side) =>
  assembly.ports
    .map(([place]) => place)
    .filter((place) => place.startsWith(side) && /^\d*$/.test(place.slice(side.length)));

/* Does anything in this device meet its metalwork? */
export const hasChassis = (record) =>
  isPort(record) && record.network.parts.some((part) => part.a === "chassis" || part.b === "chassis");

function chassisOrder(places) {
  const further = portsOf(places)
    .map(([place]) => place)
    .filter((place) => place !== "into" && place !== "from");
  return ["into", "from", ...further].filter((place) => hasChassis(places.get(place)));
}

export const sideOf = (data, half) => ({ connector: data.connectors[half.connector], half: half.half });

/* Where two halves meet: the places on both sides, their contacts' nodes, the mating, and whether the second half is the
   plug. The main ones first, then those of spare ends in use. */
function meetings(data, places, leads, way, travel) {
  const along = way.ends.flatMap(([near, far], i) => [
    [`lead${i + 1}`, near],
    [`lead${i + 1}`, far],
  ]);
  const route = [["from", null], ...along, ["into", null]];
  const main = [...leads, null].map((_, i) => [route[2 * i], route[2 * i + 1]]);
  const spare = way.plugged.map(({ lead, end, place }) => [
    [`lead${lead + 1}`, end],
    [place, null],
  ]);
  return [...main, ...spare].map((sides) => meeting(data, places, sides, travel));
}

function meeting(data, places, sides, travel) {
  const records = sides.map(([place]) => places.get(place));
  const halves = sides.map(([, end], i) => (end === null ? records[i] : records[i].ends[end]));
  const nodes = sides.map(([place, end], i) => {
    const node = (contact) => (end === null ? portNode(records[i], contact) : `${end}.${contact}`);
    return new Map(
      data.connectors[halves[i].connector].contacts.map((contact) => [contact, `${place}/${node(contact)}`]),
    );
  });
  let mating = mate(...halves.map((half) => sideOf(data, half)));
  if (mating.turned.size && records.some((record) => isPort(record) && record.follows)) {
    mating = { ...mating, home: mating.home.filter((state) => !mating.turned.has(state)), turned: new Set() };
  }
  if (!travel) mating = { ...mating, travel: [] };
  return { sides: sides.map(([place]) => place), nodes, mating, plugLast: PLUGS.includes(halves[1].half) };
}

/* A contact nothing is known of stands alone. */
const portNode = (port, contact) =>
  Object.hasOwn(port.contacts, contact) ? port.contacts[contact] : `open.${contact}`;

/* Switch states: all home, with whether a plug is turned; and, with its interface, each of the `main` ones on its way, the
   others home, or open on one side of it; what is in spare ends on its way with all else home. Without `travel` nothing is
   on its way. */
function statesOf(interfaces, touches, main, earth, travel) {
  const switched = (landed) => [
    ...touches.map(([k, touch]) => landed[k].has(touch)),
    ...(earth ? [false] : []),
  ];
  const homes = interfaces.map(({ mating }) => mating.home),
    open = [new Set()];
  const home = new Map(),
    plugging = new Map();
  const keep = (found, state, more) => found.has(state.join()) || found.set(state.join(), [state, more]);
  for (const landed of product(homes)) {
    keep(
      home,
      switched(landed),
      landed.some((state, k) => interfaces[k].mating.turned.has(state)),
    );
  }
  for (const k of travel ? interfaces.keys() : []) {
    const moving = [...interfaces[k].mating.travel, new Set()],
      rest = homes.slice(Math.max(main, k + 1));
    const before = homes.slice(0, k),
      after = homes.slice(k + 1, main);
    const apart = [
      [before, after.map(() => open)],
      [before.map(() => open), after],
    ];
    const others = k < main ? [[before, after], ...apart] : [[before, []]];
    for (const [left, right] of others) {
      const states = product([...left, moving, ...right, ...rest]).map(switched);
      for (const state of states) if (!home.has(state.join())) keep(plugging, state, k);
    }
  }
  const all = [...home.values()],
    found = [...plugging.values()];
  return {
    home: all.map(([state]) => state),
    turned: all.map(([, turned]) => turned),
    plugging: found.map(([state]) => state),
    pluggingAt: found.map(([, k]) => k),
  };
}
