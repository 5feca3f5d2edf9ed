/* What a person can switch: the supplies of a connection, their settings, and what each setting and tolerance corner makes of
   every part. The twin of switches.py. Ports are given as [place, port]. */

import { valueAt } from "./circuit.js";
import { product } from "./mate.js";
import { OPEN } from "./solve.js";

export const SIDES = {
  from: "at the outlet",
  from2: "at the second outlet",
  into: "at the inlet",
  into2: "at the second inlet",
  into3: "at the third inlet",
  into4: "at the fourth inlet",
  extra1: "at the spare end",
  extra2: "at the second spare end",
  extra3: "at the third spare end",
  extra4: "at the fourth spare end",
};
const OTHERS = { from: "at the other outlets", into: "at the other inlets", extra: "at the spare ends" }; // three devices alike and more
export const DRIVE = "drive"; // the style of a switch that turns a source on

/* The place a part of a circuit belongs to. */
export const placeOf = (part) => part.id.split("/")[0];

/* Every switchable supply of the connection, in order of place: {places, supply, key, name, states, style}; `key` and `name`
   are what answers call it, with its side where two supplies share an id. Devices alike on further ends of a lead are switched
   together. */
export function supplySwitches(ports) {
  const first = (place) => place === "from" || place === "into",
    side = (place) => place.replace(/[1-9]+$/, "");
  const found = new Map();
  for (const [place, port] of ports) {
    for (const supply of port.supplies) {
      const group = JSON.stringify([
        first(place) ? place : `further ${side(place)}`,
        supply.id,
        supply.states,
      ]);
      if (!found.has(group)) found.set(group, { places: [], supply });
      found.get(group).places.push(place);
    }
  }
  // Further devices always name their side, so that a switch has one name whether or not they are plugged.
  const ids = [...found.values()].filter(({ places }) => first(places[0])).map(({ supply }) => supply.id);
  return [...found.values()].map(({ places, supply: { id, name, states, style } }) => {
    const shared = !first(places[0]) || ids.filter((other) => other === id).length > 1;
    const words = places.length > 1 ? OTHERS[side(places[0])] : SIDES[places[0]] || places[0];
    const added = shared ? ` ${words}` : "";
    return { places, supply: id, key: id + added, name: name + added, states, style };
  });
}

/* Every combination of supply switches, all on first, each a Map of key -> state. */
export function settings(ports) {
  const switches = supplySwitches(ports);
  return product(switches.map(({ states }) => states)).map(
    (states) => new Map(switches.map(({ key }, i) => [key, states[i]])),
  );
}

/* A function from a place and the id of a supply to whether this setting has it on; what has no switch is on. */
export function switchedOn(ports, setting) {
  const off = new Set(
    supplySwitches(ports)
      .filter(({ key, states }) => setting.get(key) !== states[0])
      .flatMap(({ places, supply }) => places.map((place) => `${place}/${supply}`)),
  );
  return (place, supply) => supply === null || !off.has(`${place}/${supply}`);
}

/* Is a source switched on, as far as it has a switch? `on` is what switchedOn gives. */
export const sends = (on, place, source) => on(place, source.supply);

/* For each emf of the circuit whether this setting has it switched on, a Map by id. */
export function liveVolts(circuit, ports, setting) {
  const on = switchedOn(ports, setting),
    emfs = circuit.parts.filter((part) => part.kind === "emf");
  return new Map(emfs.map((part) => [part.id, on(placeOf(part), part.supply)]));
}

/* Emfs that push direct current, as [place, part number]. */
export const liveSupplies = (circuit, live) =>
  circuit.parts.flatMap((part, i) =>
    part.kind === "emf" && live.get(part.id) && part.value.nominal ? [[placeOf(part), i]] : [],
  );

/* The tolerance corners at which anything in this circuit differs from nominal. Where two devices have supplies, their volts
   may lean either way as well: the first one's high and the others' low, and the other way round. */
export function corners(circuit) {
  const uncertain = circuit.parts.filter(({ value }) => value && value.low !== value.high);
  const sides = [...new Set(uncertain.filter((part) => part.kind === "emf").map(placeOf))];
  return [
    "nominal",
    ...(uncertain.length ? ["strong", "weak"] : []),
    ...(skewed(circuit) ? ["skewed"] : []),
    ...(sides.length > 1 ? [`high ${sides[0]}`, `low ${sides[0]}`] : []),
  ];
}

export const skewed = (circuit) => circuit.parts.some((part) => part.skew && part.match);

/* A part's value at a corner of `corners`: leaning ones have the lowest resistances, and their supplies apart. */
export function cornerValue(part, corner) {
  const [lean, place] = corner.split(" ");
  if (!place) return valueAt(part, corner);
  if (part.kind !== "emf") return valueAt(part, "strong");
  return valueAt(part, (placeOf(part) === place) === (lean === "high") ? "strong" : "weak");
}

/* What supplies do that are off: their rail lies at 0 V, or it is disconnected. Nobody can tell from outside, so the worse
   counts. */
export const offs = (circuit, live) =>
  circuit.parts.some((part) => part.kind === "emf" && part.supply && !live.get(part.id))
    ? ["zero", "open"]
    : [""];

/* Corners of one setting, each with what supplies do that are off, as [corner, off]. */
export const drives = (circuit, live) =>
  offs(circuit, live).flatMap((kind) => corners(circuit).map((corner) => [corner, kind]));

/* Values of all parts at a corner. */
export function driveValues(circuit, live, corner, off = "zero") {
  const gone = off === "open" ? OPEN : 0;
  return Float64Array.from(circuit.parts, (part) =>
    live.get(part.id) === false ? gone : cornerValue(part, corner),
  );
}

/* The drives of several settings, one after the other: {values[drive], each}, `each` being for every setting its drives. */
export function stacked(circuit, ports, wanted) {
  const lives = wanted.map((setting) => liveVolts(circuit, ports, setting));
  const each = lives.map((live) => drives(circuit, live));
  const values = each.flatMap((some, i) =>
    some.map(([corner, off]) => driveValues(circuit, lives[i], corner, off)),
  );
  return { values, each };
}
