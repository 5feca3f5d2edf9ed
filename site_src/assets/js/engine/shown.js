/* A solved case in words and numbers: what touches, the nets with their volts, the parts that matter, the sum of currents.
   The twin of shown.py. */

import { EARTHS } from "./assemble.js";
import { CONTACT_OHM, FAINT, SMALL_TERM } from "./constants.js";
import { size } from "./currents.js";
import { contacts } from "./mate.js";
import { conductors, contactName, elementName, inWords, netLabels, owner, splitId } from "./naming.js";
import { relevant } from "./relevant.js";
import { fixed, quantity } from "./words.js";

const CORNERS = {
  nominal: "every part at its nominal value",
  strong: "supplies at their highest, resistances at their lowest",
  weak: "supplies at their lowest, resistances at their highest",
  high: "one device's supply at its highest, the other's at its lowest",
  low: "one device's supply at its lowest, the other's at its highest",
  skewed: "matched pairs as far apart as they may be",
};
const UNITS = { resistor: "ohm", capacitor: "F", inductor: "H", emf: "V", sink: "A", clamp: "V" };
const ONE_NET = "Both points the number is measured between are one net: they are shorted together.";
const NOWHERE = "Nothing joins the two points: a test current has nowhere to go.";
/* Above -180 to 180: half a turn back is half a turn on, whatever the sign of a zero. */
function degrees([re, im]) {
  const turn = (Math.atan2(im, re) * 180) / Math.PI;
  return turn === -180 ? 180 : turn;
}

/* The size, below zero where it is upside down. */
const level = (pair) => (pair[0] < -FAINT * size(pair) ? -1 : 1) * size(pair);

/* `base` with the case filled in. */
export function shownCase(base, assembly, solved) {
  const { places } = assembly,
    found = relevant(solved, conductors(places));
  const groups = new Map(),
    drawn = [...new Set(found.kept.flatMap((e) => [e.a, e.b]))];
  found.merged.forEach((into, net) => groups.set(into, [...(groups.get(into) || []), ...solved.nodes[net]]));
  const labels = netLabels(places, new Map(drawn.map((net) => [net, groups.get(net)])));
  const joined = (net) => [...new Set(groups.get(net).map((node) => contactName(places, node)))];
  const gains = (net) => (solved.spectrum ? solved.spectrum.map((row) => level(row[net])) : []);
  const nets = drawn.map((net) => ({
    name: labels.get(net),
    nodes: joined(net),
    volts: level(solved.volts[net]),
    zero: found.zeros.has(net),
    gains: gains(net),
  }));
  const known = { places, solved, labels, listening: meterName(base, assembly, solved) };
  const { elements, kept } = found,
    apart = kept.find((e) => e.decides),
    counted = (all) => all.filter((e) => e.kind !== "contact").length;
  const note = apart.a === apart.b ? ONE_NET : solved.nature === "test" && !solved.level ? NOWHERE : "";
  return {
    ...base,
    nature: solved.nature,
    corner: CORNERS[solved.corner.split(" ")[0]],
    touching: touching(assembly, solved),
    hertz: solved.hertz,
    level: solved.hertz === null ? null : solved.level,
    source: sourceName(places, solved),
    terms: solved.terms.map(([words, value, unit]) => ({ words: termWords(places, words), value, unit })),
    nets,
    parts: kept.map((e) => worked(known, e)),
    left_out: counted(elements) - counted(kept),
    equation: note === NOWHERE ? null : equation(known, elements, found.at),
    note,
  };
}

/* What the meter is called: where it is put. */
function meterName({ where, quantity }, { places }, { nature, decides }) {
  if (nature === "test") return "test current";
  const put = [...new Set(Array.isArray(decides) ? decides.map((node) => splitId(node)[0]) : [])];
  if (nature !== "signal" || put.length !== 1) return where;
  return `what ${owner(places, put[0])} ${quantity.startsWith("load") ? "gives" : "hears"}`;
}

function sourceName(places, { source }) {
  if (source === "" || source === EARTHS) return source ? "difference between the chassis" : "";
  if (!source.includes("/")) return `every channel of ${owner(places, source)} alike`;
  const [place, name] = splitId(source),
    { sources } = places.get(place),
    whose = owner(places, place);
  return sources.length === 1 ? whose : `${sources.find(({ id }) => id === name).channel} of ${whose}`;
}

/* Part and source ids in a term's words become names. */
function termWords(places, words) {
  const told = (name) =>
    name
      .replace(/^main\./, "")
      .replaceAll("-", " ")
      .replaceAll(".", " ");
  return words
    .split(" ")
    .map((word) => {
      const [place, name] = splitId(word);
      return name && places.has(place) ? `${told(name)} of ${owner(places, place)}` : word;
    })
    .join(" ");
}

function worked({ places, solved, labels, listening }, e) {
  const part = e.part === null ? null : solved.circuit.parts[e.part],
    [place] = splitId(e.id);
  const signal = solved.nature === "signal",
    read = (pair) => (signal ? size(pair) : pair[0]);
  return {
    id: e.id,
    name: elementName(places, part, e.id, listening),
    kind: e.kind,
    owner: places.has(place) ? owner(places, place) : "",
    value: valueIn(solved, e),
    a: labels.get(e.a),
    b: labels.get(e.b),
    volts: read(e.volts),
    amps: read(e.amps),
    turn: signal && size(e.amps) > FAINT ? Math.round(degrees(e.amps) * 1000) / 1000 : 0,
    decides: e.decides,
  };
}

function valueIn(solved, e) {
  const alternating = ["signal", "test"].includes(solved.nature);
  if (e.kind === "contact") return quantity(CONTACT_OHM, "ohm");
  if (e.kind === "meter") return solved.nature === "test" && solved.level ? quantity(solved.level, "A") : "";
  const amount = solved.values[e.part];
  if (Number.isNaN(amount)) return "disconnected";
  if (e.kind === "emf") {
    const volts = alternating ? Math.abs(solved.drive.get(e.id) || 0) * solved.level : amount;
    return volts ? quantity(volts, "V") : "silent";
  }
  if (e.kind === "capacitor" && amount < 1e-9) return quantity(amount * 1e12, "pF");
  return quantity(amount, UNITS[e.kind]);
}

/* The contacts that meet in this case, in words; and what earth does. */
function touching({ places, interfaces, touches }, { closed }) {
  const met = touches
    .filter((_, k) => closed[k])
    .map(function ([k, touch]) {
      const [a, b] = contacts(touch),
        [one, other] = interfaces[k].nodes;
      return `${contactName(places, one.get(a))} meets ${contactName(places, other.get(b))}`;
    });
  const earthed = closed.length > touches.length && closed[closed.length - 1];
  return earthed ? [...met, "both chassis are tied by mains earth as well"] : met;
}

/* The currents that leave the deciding net. */
function equation({ places, solved, labels, listening }, elements, at) {
  const here = elements
    .filter((e) => (at === e.a || at === e.b) && e.a !== e.b)
    .map((e) => ({ e, amps: e.a === at ? e.amps : e.amps.map((one) => -one) }));
  const largest = Math.max(0, ...here.map(({ amps }) => size(amps))),
    flows = largest >= FAINT;
  const told = here.filter(({ amps }) => flows && size(amps) >= SMALL_TERM * largest),
    net = labels.get(at);
  const total = size(here.reduce(([re, im], { amps }) => [re + amps[0], im + amps[1]], [0, 0]));
  const partOf = (e) => (e.part === null ? null : solved.circuit.parts[e.part]);
  const parts = told.map(({ e }) => inWords(elementName(places, partOf(e), e.id, listening), e.kind));
  const rest = told.length === here.length ? "" : ", the rest below a ten-thousandth";
  const amount = quantity(total > 1e-6 * largest ? total : 0, "A");
  const each = told.map(({ amps }, i) => current(amps, parts[i])).join("; ");
  const says = flows
    ? `Currents at ${net} sum to zero: ${each}${rest}. Sum ${amount}.`
    : `No current flows at ${net}, so nothing is dropped on the way to it.`;
  return {
    net,
    parts,
    amps: told.map(({ amps }) => amps[0]),
    across: told.map(({ amps }) => amps[1]),
    sum: total,
    says,
  };
}

function current(amps, name) {
  const amount = quantity(size(amps), "A");
  if (Math.abs(amps[1]) <= 0.02 * size(amps))
    return `${amount} ${amps[0] > 0 ? "out" : "in"} through the ${name}`;
  return `${amount} at ${fixed(degrees(amps), 0)}° out through the ${name}`;
}
