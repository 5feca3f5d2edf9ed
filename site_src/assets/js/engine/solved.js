/* What the engine solved lately, given again where exactly the same is to be solved: a number out of a manual is mostly a rating, a level or a
   need, and leaves the circuit of a connection as it was. Everything a solution rests on is compared; solutions are only read. */

import { net } from "./circuit.js";
import { solveAc, solveDc } from "./solve.js";

export const ROOM = { most: 2e6 }; // numbers kept, some 16 MB: a few connections, or one with many contacts
const known = new Map(),
  texts = new WeakMap(); // the longest unused first
let size = 0;

export function solvedDc(circuit, drives, closed, volts = new Map()) {
  const text = `${textOf(circuit)} ${drives.length} ${closed.length} ${[...volts.keys()]}`;
  const unknowns = again(
    text,
    [drives, closed, [...volts.values()]],
    drives.length * closed.length * circuit.size,
    () => solveDc(circuit, drives, closed, volts).unknowns,
  );
  return { circuit, values: drives, unknowns };
}

export function solvedAc(circuit, corners, hertz, closed, drives) {
  const target = (one) => (Array.isArray(one) ? one.map((node) => net(circuit, node)).join("-") : one);
  const told = drives.map((drive) => [...drive].map(([one, signal]) => `${target(one)}=${signal}`).join());
  return again(
    `${textOf(circuit)} ${corners.length} ${hertz} ${closed.length} ${told.join(";")}`,
    [corners, closed],
    2 * corners.length * hertz.length * closed.length * drives.length * circuit.size,
    () => solveAc(circuit, corners, hertz, closed, drives),
  );
}

/* All of a circuit that a solution rests on, but for the values of its parts. */
function textOf(circuit) {
  if (!texts.has(circuit)) {
    const { parts, ends, switches, couplings, anchors, netCount } = circuit;
    texts.set(
      circuit,
      JSON.stringify([
        parts.map(({ id, kind, knee, series }) => [id, kind, knee, series]),
        ends,
        switches,
        couplings,
        anchors,
        netCount,
      ]),
    );
  }
  return texts.get(circuit);
}

/* `weight` is how many numbers the answer has. */
function again(text, lists, weight, solve) {
  const numbers = flat(lists),
    key = `${text} ${digest(numbers)}`,
    before = known.get(key);
  if (before && alike(before.numbers, numbers)) {
    known.delete(key);
    known.set(key, before);
    return before.found;
  }
  const found = solve();
  if (before) forget(key);
  if (weight + numbers.length <= ROOM.most / 2) {
    known.set(key, { numbers, found, weight: weight + numbers.length });
    size += weight + numbers.length;
  }
  for (const [oldest] of known) {
    if (size <= ROOM.most) break;
    forget(oldest);
  }
  return found;
}

function forget(key) {
  size -= known.get(key).weight;
  known.delete(key);
}

function flat(lists) {
  const found = [],
    take = (one) => {
      if (typeof one === "object") one.forEach(take);
      else found.push(Number(one));
    };
  take(lists);
  return Float64Array.from(found);
}

const alike = (one, other) =>
  one.length === other.length && one.every((value, i) => Object.is(value, other[i]));

function digest(numbers) {
  let hash = 0x811c9dc5;
  for (const half of new Uint32Array(numbers.buffer)) hash = Math.imul(hash ^ half, 0x01000193);
  return hash >>> 0;
}
