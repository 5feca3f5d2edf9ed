/* All that lies behind the contacts of a way to connect, as the parts of one circuit: those of every device and lead at its
   place, and what light is measured against. The twin of network.py. */

import { remembered } from "./kept.js";
import { DARK } from "./kinds.js";

const UNITY = { nominal: 1, low: 1, high: 1, unit: "", text: "" };
export const PLAIN = { value: UNITY, knee: null, series: null, supply: null, skew: 0, match: 0, coil: null };

const known = new WeakMap(); // record -> place -> its part of the network

export const isPort = (record) => Object.hasOwn(record, "listeners");

/* All parts, the stray capacitances of cables apart from the rest, and all couplings. */
export function network(places) {
  const found = [...places].map(([place, record]) => at(place, record)),
    all = (name) => found.flatMap((one) => one[name]);
  return {
    parts: [...all("parts"), ...darkness(places)],
    strays: all("strays"),
    couplings: all("couplings"),
  };
}

/* Those of one record at a place. A search asks for the same of many chains. */
function at(place, record) {
  if (!known.has(record)) known.set(record, new Map());
  return remembered(known.get(record), place, function () {
    const inside = (name) => `${place}/${name}`,
      { parts, couplings } = record.network;
    const moved = ({ id, a, b, ...part }) => ({ ...part, id: inside(id), a: inside(a), b: inside(b) });
    const stray = ({ id, kind }) => !isPort(record) && kind === "capacitor" && !record.parts.includes(id);
    return {
      parts: parts.filter((part) => !stray(part)).map(moved),
      strays: parts.filter(stray).map(moved),
      couplings: couplings.map(({ first: one, second, k }) => ({
        first: inside(one),
        second: inside(second),
        k,
      })),
    };
  });
}

/* Light needs no way back: what it is measured against is the same dark everywhere, joined to nothing that carries current. */
function darkness(places) {
  const [first, ...others] = [...places]
    .filter(([, { network }]) => network.parts.some(({ a, b }) => a === DARK || b === DARK))
    .map(([place]) => `${place}/${DARK}`);
  return others.map((other) => ({ ...PLAIN, id: other, kind: "wire", a: first, b: other, value: null }));
}
