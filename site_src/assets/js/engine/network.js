/* All that lies behind the contacts of a way to connect, as the parts of one circuit: those of every device and lead at its
   place, and what light is measured against. The twin of network.py. */

import { DARK } from "./kinds.js";

const UNITY = { nominal: 1, low: 1, high: 1, unit: "", text: "" };
export const PLAIN = { value: UNITY, knee: null, series: null, supply: null, skew: 0, match: 0, coil: null };

export const isPort = (record) => Object.hasOwn(record, "listeners");

/* All parts, the stray capacitances of cables apart from the rest, and all couplings. */
export function network(places) {
  const parts = [],
    strays = [],
    couplings = [];
  for (const [place, record] of places) {
    const inside = (name) => `${place}/${name}`;
    for (const part of record.network.parts) {
      const stray = !isPort(record) && part.kind === "capacitor" && !record.parts.includes(part.id);
      (stray ? strays : parts).push({ ...part, id: inside(part.id), a: inside(part.a), b: inside(part.b) });
    }
    couplings.push(
      ...record.network.couplings.map(({ first: one, second, k }) => ({
        first: inside(one),
        second: inside(second),
        k,
      })),
    );
  }
  return { parts: [...parts, ...darkness(places)], strays, couplings };
}

/* Light needs no way back: what it is measured against is the same dark everywhere, joined to nothing that carries current. */
function darkness(places) {
  const [first, ...others] = [...places]
    .filter(([, { network }]) => network.parts.some(({ a, b }) => a === DARK || b === DARK))
    .map(([place]) => `${place}/${DARK}`);
  return others.map((other) => ({ ...PLAIN, id: other, kind: "wire", a: first, b: other, value: null }));
}
