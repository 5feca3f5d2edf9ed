/* Where no lead turns one kind of signal into another: the socket to look for first, and the box that does it. A box is taken only the way it works:
   what leaves the outlet is heard by its input, and what leaves the box is heard by the inlet. The twin of generator/converting.py. */

import { DARK, sameKind } from "../engine/kinds.js";
import { lead as leadOf, port as portOf } from "../ui/catalogue.js";

const MET = ["daily", "often", ""]; // how often one meets a port, most often first
// which kinds an input of a box takes, and an output of one gives, for their own
const TAKEN = { headphone: ["headphone", "line"] },
  GIVEN = { line: ["line", "microphone"] };
const SINGLE = ["microphone", "instrument"]; // what sends these has one plug; another of its class is another device
const POWER = "power"; // no signal; its volts matter

const BOTH = "Each of its sides is a connection of its own: judge both before you plug.";
const DOES = { into: "takes this kind of signal", from: "sends what is wanted" };

/* {first, converter, enters, leaves, through, evidence, says}, the first as {on, port}: sockets to look for first, or one that must feed the outlet; a box
   with the sockets of its own that are used, each as the port it is like, and the leads that feed the outlet on its way in; and sentences, those on
   sockets before the others. Null where a lead may do it, or nothing is known. */
export function converting(from, into) {
  const outlet = portOf(from),
    inlet = portOf(into),
    apart = !(passes(outlet, inlet) || passes(inlet, outlet));
  const named = Ringfence.converters.some(({ only_from: senders }) => senders.includes(from)),
    fed = Ringfence.feeding[from],
    found = boxOf(outlet, inlet, apart, named, fed),
    first =
      fed && !found && boxOf(outlet, inlet, apart, named)
        ? [{ on: "feed", port: fed.into[0] }]
        : apart && !named
          ? firstOf(outlet, inlet)
          : [];
  if (!found && !first.length) return null;
  const { box = null, enters = null, leaves = null } = found || {},
    through = (box && fed?.through) || [];
  return {
    first,
    converter: box && box.id,
    enters,
    leaves,
    through,
    evidence: box && box.evidence,
    says: [
      ...first.map(({ on, port }) =>
        on === "feed"
          ? `First it needs power of its own kind: “${portOf(port).name}” gives it. Plug it in there, and take the sound on from that device.`
          : `Look first for another socket on the ${(on === "into" ? inlet : outlet).device}: “${portOf(port).name}” ${DOES[on]}.`,
      ),
      ...(box
        ? [
            `What would: ${box.name}. ${box.does}`,
            ...fedThrough(outlet, through, enters),
            box.power,
            ...box.look_at,
            BOTH,
          ]
        : []),
    ],
  };
}

function fedThrough({ device }, through, enters) {
  if (!through.length) return [];
  const leads = through.map((id) => leadOf(id).name).join("”, then the “"),
    [supply] = portOf(enters).supplies;
  return [
    `The ${device} goes in through the “${leads}”${supply ? `, with ${supply.name} off, and switch that on after` : ""}.`,
  ];
}

/* Can a lead take this to there: one kind of signal, and both light or both wire? */
const carries = (source, listener) =>
  sameKind(source, listener) && source.output.includes(DARK) === listener.between.includes(DARK);

const some = (sources, listeners, test) =>
  sources.some((source) => listeners.some((listener) => test(source, listener)));

const passes = (one, other) => some(one.sources, other.listeners, carries);

/* Does it give power, as phantom? What needs none is not sent there, what needs some nowhere else. */
const gives = (port) => port.network.parts.some(({ kind, value }) => kind === "emf" && value.nominal !== 0);

const goesIn = (outlet, port) =>
  outlet.needs.length > 0 === gives(port) &&
  some(
    outlet.sources,
    port.listeners,
    (source, listener) =>
      source.kind !== POWER &&
      (TAKEN[source.kind] || [source.kind]).includes(listener.kind) &&
      carries(source, listener),
  );

/* `madeFor`: the box is made for this inlet, which may ask for sound instead of hearing it. */
const comesOut = (box, inlet, madeFor) =>
  (madeFor && !box.sources.length && passes(inlet, box)) ||
  some(
    box.sources,
    inlet.listeners,
    (source, listener) =>
      !gives(inlet) &&
      (GIVEN[source.kind] || [source.kind]).includes(listener.kind) &&
      carries(source, listener),
  );

/* The box whose sockets match best, and those sockets. One that is made for certain devices stands in for a lead between them even where their
   signals are of one kind; an outlet that is `named` by one goes into no other, and one that is `fed` in a way of its own only into what is named there. */
function boxOf(outlet, inlet, apart, named, fed) {
  let best = null;
  for (const box of Ringfence.converters) {
    const { only_from: senders, only_to: hearers } = box,
      madeFor = senders.includes(outlet.id) || hearers.includes(inlet.id);
    if ((senders.length || named) && !senders.includes(outlet.id)) continue;
    if (hearers.length && !hearers.includes(inlet.id)) continue;
    if (!apart && !madeFor) continue;
    const inputs = box.enters.filter((id) => !fed || fed.into.includes(id)),
      enters = matching(inputs, outlet, (port) => goesIn(outlet, port)),
      leaves = matching(box.leaves, inlet, (port) => comesOut(port, inlet, hearers.length > 0));
    if (!enters || !leaves) continue;
    const matched = alike(enters, outlet) + alike(leaves, inlet);
    if (!best || matched > best.matched) best = { box, enters: enters.id, leaves: leaves.id, matched };
  }
  return best;
}

/* Of some ports those that fit, and of these the first with the plug of the other end, or the first. */
function matching(ids, end, fits) {
  const ports = ids.map(portOf).filter(fits);
  return ports.find((port) => alike(port, end)) || ports[0];
}

/* Is it the same plug that goes into both? */
const alike = (one, other) => Number(one.connector === other.connector);

/* Another socket of the same device, for the same kind of signal: on what listens, then on what sends. None for what must be given power, for which
   of them gives the right volts is no matter of kinds. */
function firstOf(outlet, inlet) {
  const found = [];
  for (const [on, end, fits] of [
    ["into", inlet, (port) => goesIn(outlet, port)],
    ["from", outlet, (port) => goesIn(port, inlet)],
  ]) {
    if (outlet.needs.length || end.sources.some(({ kind }) => SINGLE.includes(kind))) continue;
    const others = Object.values(Ringfence.data.ports)
      .filter((port) => port.device === end.device && fits(port))
      .sort((a, b) => MET.indexOf(a.met || "") - MET.indexOf(b.met || "") || (a.id < b.id ? -1 : 1));
    if (others.length) found.push({ on, port: others[0].id });
  }
  return found;
}
