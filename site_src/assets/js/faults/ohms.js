globalThis.Ringfence = globalThis.Ringfence || {};

/* Ohm between every two terminals, at the two bounds tolerances allow. The twin of paths.py. */

const CROSS = 1e-6; // ohm; a wire that must stay a part

/* [low, high] of a part in ohm; a bare number has the usual tolerance. */
function span({ made }, part, { tolerances }) {
  if (part.kind === "clamp") return [part.series, Infinity];
  if (part.id.startsWith("joint.") && part.kind === "wire") return tolerances.joint;
  const { nominal, low, high } = part.value;
  if (low < high || part.id.startsWith("joint.") || part.id.startsWith("fault")) return [low, high];
  const [less, more] = tolerances[!made.has(part.id) ? "conductor" : part.coil ? "winding" : "resistor"];
  return [nominal * (1 + less), nominal * (1 + more)];
}

const conducts = ({ kind, id }) =>
  kind === "resistor" || kind === "clamp" || (kind === "wire" && id.startsWith("joint."));

/* [low, high], each rows of ohm by the order of the terminals; Infinity where no path is. */
export function resistances(specimen, tables) {
  const kept = specimen.parts.filter(({ kind }) => kind !== "capacitor"),
    names = [...specimen.terminals.keys()];
  const spans = new Map(kept.filter(conducts).map((part) => [part.id, span(specimen, part, tables)]));
  if ([...spans.values()].every(([, high]) => high < Infinity))
    return [0, 1].map((bound) => between(kept, names, spans, bound));
  const cut = kept.filter(({ id }) => !spans.has(id) || spans.get(id)[1] < Infinity);
  return [between(kept, names, spans, 0), between(cut, names, spans, 1)];
}

/* Effective resistance from the inverse of the conductance matrix, one net of each island grounded. */
function between(parts, terminals, spans, bound) {
  const over = new Map(),
    of = (up, node) => {
      let at = node;
      while (up.has(at) && up.get(at) !== at) at = up.get(at);
      return at;
    };
  for (const { id, a, b } of parts) if (!spans.has(id)) over.set(of(over, a), of(over, b));
  const number = new Map(),
    net = (node) => {
      const at = of(over, node);
      if (!number.has(at)) number.set(at, number.size);
      return number.get(at);
    };
  const ends = parts
    .filter(({ id }) => spans.has(id))
    .map(({ id, a, b }) => [net(a), net(b), 1 / Math.max(spans.get(id)[bound], CROSS)]);
  const at = terminals.map(net),
    size = number.size,
    island = new Map();
  const matrix = Array.from({ length: size }, () => new Float64Array(size));
  for (const [a, b, siemens] of ends) {
    if (a === b) continue;
    matrix[a][a] += siemens;
    matrix[b][b] += siemens;
    matrix[a][b] -= siemens;
    matrix[b][a] -= siemens;
    island.set(of(island, a), of(island, b));
  }
  for (let i = 0; i < size; i++) if (of(island, i) === i) matrix[i][i] += 1;
  const z = inverse(matrix);
  return at.map((i) =>
    at.map((j) =>
      of(island, i) !== of(island, j) ? Infinity : i === j ? 0 : Math.abs(z[i][i] + z[j][j] - 2 * z[i][j]),
    ),
  );
}

/* Gauss and Jordan with the largest pivot; the matrix is small and no pivot is nought. */
function inverse(matrix) {
  const size = matrix.length,
    rows = matrix.map((row, i) => {
      const wide = new Float64Array(2 * size);
      wide.set(row);
      wide[size + i] = 1;
      return wide;
    });
  for (let i = 0; i < size; i++) {
    let best = i;
    for (let r = i + 1; r < size; r++) if (Math.abs(rows[r][i]) > Math.abs(rows[best][i])) best = r;
    [rows[i], rows[best]] = [rows[best], rows[i]];
    const pivot = rows[i][i],
      own = rows[i];
    for (let c = i; c < 2 * size; c++) own[c] /= pivot;
    for (let r = 0; r < size; r++) {
      const times = rows[r][i];
      if (r !== i && times !== 0) for (let c = i; c < 2 * size; c++) rows[r][c] -= times * own[c];
    }
  }
  return rows.map((row) => row.subarray(size));
}
