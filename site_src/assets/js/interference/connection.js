/* A connection of the catalogue as a run: which cable lies between, where its second wire ends, whether the screen joins both cases. All of it is
   read from the circuit. The twin of connection.py; it needs the engine. */

import { empty } from "./address.js";

const SOUND = ["microphone", "line", "instrument", "headphone"],
  PAIRS = ["pair", "quad", "open pair"];
const OWN = 3,
  OHM = 20,
  WINDING = 200,
  FARAD = 1e-7,
  CASE = "into/chassis";

/* Node -> another of the same net, until one stands for itself. */
class Nets extends Map {
  join(a, b) {
    this.set(this.of(a), this.of(b));
  }
  of(node) {
    while (this.has(node) && this.get(node) !== node) node = this.get(node);
    return node;
  }
  same(a, b) {
    return this.of(a) === this.of(b);
  }
}

/* The run between two ports, each powered as usual; null where nothing lies between, or where sound does not pass on wires or through a
   transformer alone. */
export function runOf(data, tables, start, leads, target) {
  const way = Ringfence.engine.ways(data, start, leads, target).find(({ plugged }) => !plugged.length);
  if (!leads.length || !way) return null;
  const made = Ringfence.engine.assemble(data, start, leads, target, way, false);
  const wired = netsOf(made, isWire),
    wound = netsOf(made, isWinding, leads);
  const channel = channelIn(start, target, wired) || channelIn(start, target, wound);
  if (!channel) return null;
  const galvanic = wired.same(channel.out[0], channel.into[0]);
  const closed = ![start, target].every(Ringfence.engine.hasChassis) || wired.same("from/chassis", CASE);
  const cold = galvanic ? coldOf(channel, wired, netsOf(made, isBare)) : "through";
  const pair =
    channel.balanced &&
    (!galvanic || !wired.same(channel.into[1], CASE) || cold === "to the screen at the source");
  const length = leads.reduce((sum, lead) => sum + (lead.length || 0), 0) || OWN;
  return {
    ...empty(),
    source: { device: start.id, powered: tables.sources[start.id].powered, contact_one: false },
    input: { device: target.id, powered: tables.inputs[target.id].powered, contact_one: false },
    leads: [
      { cable: cableOf(leads, tables, pair), length, screen: closed ? "whole" : "open at one end", cold },
    ],
    transformer: !galvanic && (channel.balanced || !closed),
    ferrite: Object.values(tables.chokes).reduce(
      (sum, { ohm, catalogue }) => sum + (leads.some(({ id }) => id === catalogue) ? ohm : 0),
      0,
    ),
  };
}

/* The first channel of sound that passes in these nets, hot first; the other way round where the lead reverses. */
function channelIn(start, target, nets) {
  for (const one of start.sources) {
    for (const other of target.listeners) {
      const out = one.output.map((node) => `from/${node}`),
        into = other.between.map((node) => `into/${node}`);
      if (!SOUND.includes(one.kind) || !SOUND.includes(other.kind)) continue;
      for (const heard of [into, [into[1], into[0]]])
        if (nets.same(out[0], heard[0])) return { out, into: heard, balanced: other.balanced };
    }
  }
  return null;
}

/* Where the second wire ends. Where it meets the case without a conductor of its own, that is at the input. */
function coldOf({ out, into, balanced }, wired, bare) {
  if (!balanced || bare.same(into[1], CASE) || !wired.same(into[1], out[1]))
    return "to the screen at the input";
  return wired.same(into[1], CASE) ? "to the screen at the source" : "through";
}

/* The cable of the longest lead, where it has as many wires as the circuit says; else a usual one. */
function cableOf(leads, tables, pair) {
  const longest = leads.reduce((most, lead) => ((lead.length || 0) > (most.length || 0) ? lead : most));
  const found = Object.entries(tables.cables)
    .filter(([, row]) => row.catalogue && row.catalogue === longest.cable)
    .pop();
  return found && PAIRS.includes(found[1].build) === pair ? found[0] : pair ? "mic-pair" : "coax-thin";
}

/* The nets of everything plugged in; `wound` leads pass sound from winding to winding as well. */
function netsOf(made, joins, wound = []) {
  const nets = new Nets();
  made.touches.forEach(([k, touch], i) => {
    if (!made.home[0][i]) return;
    const [a, b] = Ringfence.engine.contacts(touch);
    nets.join(made.interfaces[k].nodes[0].get(a), made.interfaces[k].nodes[1].get(b));
  });
  for (const [place, record] of made.places) {
    const lead = !Ringfence.engine.isPort(record),
      { parts, couplings } = record.network;
    for (const part of parts) if (joins(part, lead)) nets.join(`${place}/${part.a}`, `${place}/${part.b}`);
    if (!wound.includes(record)) continue;
    for (const { first, second } of couplings) {
      const [one, other] = [first, second].map((id) =>
        parts.find((part) => part.kind === "inductor" && part.id === id),
      );
      nets.join(`${place}/${one.a}`, `${place}/${other.a}`);
      nets.join(`${place}/${one.b}`, `${place}/${other.b}`);
    }
  }
  return nets;
}

const isBare = (part, lead) => part.kind === "wire" || (!lead && isWire(part, lead));
const isWire = (part, lead) =>
  part.kind === "capacitor"
    ? part.value.nominal >= FARAD
    : part.kind === "wire" || (lead && part.kind === "resistor" && part.value.nominal <= OHM);
const isWinding = (part, lead) =>
  (lead && part.kind === "resistor" && part.value.nominal <= WINDING) || isWire(part, lead);
