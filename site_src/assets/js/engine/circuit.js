/* A circuit of two-terminal parts and switches, ready to be solved: nets, values and the stamps of nodal analysis.
   The twin of circuit.py. Unknowns are the net voltages, then one current for each emf and inductor (from a to b inside the part). */

export const DIRECT_OPENS = ["capacitor"]; // kinds no direct current passes through
export const SIGNAL_OPENS = ["sink", "clamp"]; // kinds no signal passes through
export const branched = (part) => part.kind === "emf" || part.kind === "inductor";

/* The circuit has no single solution; the message names the parts. */
export const CircuitError = class CircuitError extends Error {};

/* Merge what wires join into nets and number them in order of first mention.
   {parts, couplings, ends, switches, nets: Map(node -> net), netCount, anchors, branches: Map(part -> unknown), index: Map(part -> number), size} */
export function build(parts, couplings, switches, anchors) {
  const names = new Map();
  const name = (node) => names.has(node) || names.set(node, names.size);
  anchors.forEach(name);
  for (const part of parts) name(part.a), name(part.b);
  for (const [a, b] of switches) name(a), name(b);
  const joined = new Union(names.size);
  for (const part of parts) if (part.kind === "wire") joined.join(names.get(part.a), names.get(part.b));
  const numbers = new Map(),
    nets = new Map();
  for (const [node, i] of names) {
    const set = joined.find(i);
    if (!numbers.has(set)) numbers.set(set, numbers.size);
    nets.set(node, numbers.get(set));
  }
  const ends = (part) => [nets.get(part.a), nets.get(part.b)];
  // A part with both ends on one net carries nothing that matters; an emf there would be a short across itself.
  const kept = parts.filter(
    (part) => part.kind !== "wire" && (nets.get(part.a) !== nets.get(part.b) || branched(part)),
  );
  const shorted = kept.find((part) => part.kind === "emf" && nets.get(part.a) === nets.get(part.b));
  if (shorted) throw new CircuitError(`emf '${shorted.id}' is shorted by wire: both its ends are on one net`);
  const netCount = numbers.size;
  const branches = new Map(kept.filter(branched).map((part, i) => [part.id, netCount + i]));
  return {
    parts: kept,
    couplings,
    ends: kept.map(ends),
    switches: switches.map(([a, b]) => [nets.get(a), nets.get(b)]),
    nets,
    netCount,
    anchors: anchors.map((node) => nets.get(node)),
    branches,
    index: new Map(kept.map((part, i) => [part.id, i])),
    size: netCount + branches.size,
  };
}

/* The number of a node's net. A node that is not there must never pass as a number. */
export function net(circuit, node) {
  if (!circuit.nets.has(node)) throw new RangeError(`no node '${node}' in the circuit`);
  return circuit.nets.get(node);
}

/* For each net the number of the connected piece it belongs to, with the given switches closed and some kinds of part open. */
export function pieces(circuit, closed, opens = DIRECT_OPENS) {
  const joined = new Union(circuit.netCount);
  circuit.parts.forEach(
    (part, i) => opens.includes(part.kind) || joined.join(circuit.ends[i][0], circuit.ends[i][1]),
  );
  circuit.switches.forEach(([a, b], k) => closed[k] && joined.join(a, b));
  return joined.parent.map((_, net) => joined.find(net));
}

/* The net taken as 0 V in each connected piece: an anchor where there is one, else its lowest net. */
export function islands(circuit, closed, opens) {
  const chosen = new Map();
  const choose = (piece, net) => chosen.has(piece) || chosen.set(piece, net);
  const piece = pieces(circuit, closed, opens);
  for (const net of circuit.anchors) choose(piece[net], net);
  piece.forEach(choose);
  return [...chosen.values()];
}

/* Throw CircuitError for a value no part can have. */
export function holdPossible(parts, couplings) {
  for (const part of parts) {
    const bends = part.kind === "sink" || part.kind === "clamp",
      stores = ["resistor", "capacitor", "inductor"].includes(part.kind);
    const values = part.value ? [part.value.nominal, part.value.low, part.value.high] : [NaN];
    const bend = bends ? [part.kind === "sink" ? part.knee : part.series] : [];
    const possible =
      [...values, ...bend].every(Number.isFinite) &&
      [...bend, ...(stores ? values : [])].every((number) => number > 0) &&
      (!bends || values.every((number) => number >= 0)) &&
      part.match >= 0 &&
      part.match < 2;
    if (part.kind !== "wire" && !possible) throw new CircuitError(`part '${part.id}' has no possible value`);
  }
  const loose = couplings.find(({ k }) => !(k > 0 && k < 1));
  if (loose)
    throw new CircuitError(`windings '${loose.first}' and '${loose.second}' have no possible coupling`);
}

/* The circuit without its capacitors: what direct current sees. */
export const resistive = (circuit) => rebuilt(circuit, (part) => part.kind !== "capacitor");

/* A circuit on the same nets, switches and anchors with the parts that `keep` lets stay and some extra ones; nets are then named `net0` ... */
export function rebuilt(circuit, keep, extra = []) {
  const pair = ([a, b]) => [netName(a), netName(b)];
  const moved = circuit.parts
    .map((part, i) => {
      const [a, b] = pair(circuit.ends[i]);
      return { ...part, a, b };
    })
    .filter(keep);
  return build(
    [...moved, ...extra],
    circuit.couplings,
    circuit.switches.map(pair),
    circuit.anchors.map(netName),
  );
}

export const netName = (net) => `net${net}`;

/* A part's value at a tolerance corner: `strong` has the highest sources and the lowest resistances and loads, `weak` the
   opposite, `skewed` pulls matched pairs apart by their mismatch. */
export function valueAt(part, corner) {
  const quantity = part.value;
  if (corner === "nominal" || !quantity) return quantity ? quantity.nominal : 0;
  if (corner === "skewed") return quantity.nominal * (1 + (part.skew * part.match) / 2);
  if (["capacitor", "inductor", "clamp"].includes(part.kind)) return quantity.nominal;
  // An emf may be written negative (a rail below 0 V); strong means the larger magnitude.
  const [low, high] = [quantity.low, quantity.high].sort((a, b) => Math.abs(a) - Math.abs(b));
  return (part.kind === "emf") === (corner === "strong") ? high : low;
}

export const valuesAt = (circuit, corner) =>
  Float64Array.from(circuit.parts, (part) => valueAt(part, corner));

/* Disjoint sets; the lowest member stands for its set, so numbering never depends on order of joining. */
class Union {
  constructor(count) {
    this.parent = new Int32Array(count).map((_, i) => i);
  }

  find(item) {
    while (this.parent[item] !== item) item = this.parent[item] = this.parent[this.parent[item]];
    return item;
  }

  join(one, two) {
    const a = this.find(one),
      b = this.find(two);
    this.parent[Math.max(a, b)] = Math.min(a, b);
  }
}

/* Add a conductance between two nets to a matrix of `size` columns. */
export function stampConductance(matrix, size, a, b, siemens) {
  matrix[a * size + a] += siemens;
  matrix[b * size + b] += siemens;
  matrix[a * size + b] -= siemens;
  matrix[b * size + a] -= siemens;
}

/* Add a branch current leaving net a and entering net b, and its equation v(a) - v(b) = ... */
export function stampBranch(matrix, size, a, b, row) {
  matrix[a * size + row] += 1;
  matrix[b * size + row] -= 1;
  matrix[row * size + a] += 1;
  matrix[row * size + b] -= 1;
}
