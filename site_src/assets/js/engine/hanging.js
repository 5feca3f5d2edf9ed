/* Pieces of a circuit that nothing but capacitors reaches: where they hang in the moment after plugging. The twin of hanging.py. */

import { islands, pieces as piecesOf } from "./circuit.js";
import { LEAST_CAPACITANCE } from "./constants.js";
import { entriesOf, factorReal, Room } from "./lu.js";

/* The solution with every hanging piece where the charges of its capacitors cancel, none charged before, instead of at 0 V; null
   where no piece hangs. `closed`: for each state its switches. */
export function shared(solution, closed) {
  const { circuit } = solution;
  const moves = closed.map(function (shut) {
    const zeros = zerosOf(circuit, shut),
      pieces = hanging(circuit, zeros);
    return pieces.length ? mover(circuit, zeros, pieces) : null;
  });
  if (moves.every((move) => move === null)) return null;
  return {
    ...solution,
    unknowns: solution.unknowns.map((states) =>
      states.map((found, state) => (moves[state] ? moves[state](found) : found)),
    ),
  };
}

/* For each net the 0 V of its piece. */
function zerosOf(circuit, shut) {
  const piece = piecesOf(circuit, shut),
    zero = new Map(islands(circuit, shut).map((net) => [piece[net], net]));
  return Array.from(piece, (one) => zero.get(one));
}

/* [number, one piece, the other] of every large capacitor between two pieces. */
const largeOf = (circuit, zeros) =>
  circuit.parts.flatMap(function ({ kind, value }, i) {
    const [one, other] = circuit.ends[i].map((net) => zeros[net]);
    return kind === "capacitor" && value.nominal >= LEAST_CAPACITANCE && one !== other
      ? [[i, one, other]]
      : [];
  });

const among =
  (pieces) =>
  ([, one, other]) =>
    pieces.has(one) || pieces.has(other);

/* For each state the numbers of the large capacitors that nothing can charge, for one side of theirs hangs in the air. */
export const idle = (circuit, closed) =>
  closed.map(function (shut) {
    const zeros = zerosOf(circuit, shut),
      held = new Set(between(circuit, zeros).large.map(([i]) => i));
    return new Set(
      largeOf(circuit, zeros)
        .map(([i]) => i)
        .filter((i) => !held.has(i)),
    );
  });

/* The large capacitors that have something on both sides, and the pieces between two of them or more. */
function between(circuit, zeros) {
  let large = largeOf(circuit, zeros);
  let pieces = [...new Set(zeros)].filter((zero) => !circuit.anchors.includes(zero)).sort((a, b) => a - b);
  for (;;) {
    const loose = new Set(pieces.filter((piece) => large.filter(among(new Set([piece]))).length < 2));
    if (!loose.size) return { large, pieces };
    pieces = pieces.filter((piece) => !loose.has(piece));
    large = large.filter((one) => !among(loose)(one));
  }
}

/* The pieces that hang between two large capacitors or more. A single one takes up no charge; of pieces that reach each other alone
   the first stays at its 0 V. */
function hanging(circuit, zeros) {
  const { large, pieces } = between(circuit, zeros);
  const ends = (some) => some.flatMap(([, one, other]) => [one, other]);
  const tied = new Set(ends(large).filter((piece) => !pieces.includes(piece))),
    kept = [];
  while (pieces.some((piece) => !tied.has(piece))) {
    const fresh = [...new Set(ends(large.filter(among(tied))))].filter((piece) => !tied.has(piece));
    if (!fresh.length) tied.add(pieces.find((piece) => !tied.has(piece)));
    for (const piece of fresh) tied.add(piece), kept.push(piece);
  }
  return kept.sort((a, b) => a - b);
}

/* A function from the unknowns of a drive to the same with every net moved so that the charges on every hanging piece sum to zero. */
function mover(circuit, zeros, pieces) {
  const size = pieces.length,
    farads = new Float64Array(size * size),
    large = largeOf(circuit, zeros);
  const place = new Map(pieces.map((piece, row) => [piece, row]));
  const sides = large
    .flatMap(function ([i, one, other]) {
      const [a, b] = circuit.ends[i],
        { nominal } = circuit.parts[i].value;
      return [
        [a, b, place.get(one), place.get(other), nominal],
        [b, a, place.get(other), place.get(one), nominal],
      ];
    })
    .filter(([, , row]) => row !== undefined);
  for (const [, , row, column, nominal] of sides) {
    farads[row * size + row] += nominal;
    if (column !== undefined) farads[row * size + column] -= nominal;
  }
  const room = new Room(), // it is solved with later on
    { solve } = factorReal(room, entriesOf(room, size, farads), size);
  return function (found) {
    const charge = new Float64Array(size),
      moved = found.slice();
    for (const [here, there, row, , nominal] of sides) charge[row] += nominal * (found[there] - found[here]);
    const volts = solve(charge, new Float64Array(size));
    zeros.forEach((zero, net) => {
      if (place.has(zero)) moved[net] += volts[place.get(zero)];
    });
    return moved;
  };
}
