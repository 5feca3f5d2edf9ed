/* Wiring as a meter sees it: which contacts are one net, and which parts stand between the nets. For comparing leads. */

const TURNED = ["emf", "clamp", "sink"]; // kinds whose two ends are not alike
const ROUNDS = 4; // of telling inner points apart by what they touch; leads have two or three of them in a row

/* {net(node), groups: [[contact, ...]] of two or more, lone: [contact] cut off in the cable, parts} of a lead record.
   `rename` gives its nodes the names of another lead's ends. */
export function nets(lead, rename = (node) => node) {
  const parent = new Map(),
    find = (node) => {
      while (parent.has(node)) node = parent.get(node);
      return node;
    };
  const join = (one, two) => {
    if (find(one) !== find(two)) parent.set(find(one), find(two));
  };
  const nodes = new Set();
  const add = (list) =>
    list.forEach((node) => {
      nodes.add(node);
      join(list[0], node);
    });
  const joins = lead.joins.map((one) => one.nodes.map(rename));
  joins.forEach(add);
  const own = lead.network.parts
    .filter(({ id }) => lead.parts.includes(id))
    .map((part) => ({ ...part, a: rename(part.a), b: rename(part.b) }));
  own.filter(({ kind }) => kind === "wire").forEach(({ a, b }) => add([a, b]));
  const byNet = new Map();
  for (const node of [...nodes].filter((name) => name.includes(".")))
    byNet.set(find(node), [...(byNet.get(find(node)) || []), node]);
  const groups = [...byNet.values()].filter((group) => group.length > 1).map((group) => group.sort());
  const lone = joins.filter((one) => one.length === 1).map(([node]) => node);
  const parts = own
    .filter(({ kind }) => kind !== "wire")
    .map(({ kind, value, a, b }) => ({ kind, value, a: find(a), b: find(b) }));
  const members = (node) => byNet.get(find(node)) || (node.includes(".") ? [node] : []);
  return { net: find, groups, lone, parts, members, labels: labels(parts, members) };
}

/* Two values are equal when nobody could tell them apart by reading them: three digits. */
const size = (value) => (value ? Number(value.nominal).toPrecision(3) : "");

/* One text per part, equal for equal parts in equal places; inner points are known by what they touch. */
function labels(parts, members) {
  let name = (node) => members(node).join("+") || "?";
  for (let round = 0; round < ROUNDS; round++) {
    const before = name;
    const told = new Map(parts.flatMap(({ a, b }) => [a, b]).map((node) => [node, before(node)]));
    for (const node of told.keys()) {
      if (members(node).length) continue;
      const touching = parts.filter(({ a, b }) => a === node || b === node);
      told.set(
        node,
        `?(${touching
          .map((part) => `${part.kind} ${size(part.value)} ${before(part.a === node ? part.b : part.a)}`)
          .sort()
          .join("; ")})`,
      );
    }
    name = (node) => told.get(node) || before(node);
  }
  return parts
    .map((part) => {
      const places = [name(part.a), name(part.b)];
      return `${part.kind} ${size(part.value)} ${(TURNED.includes(part.kind) ? places : places.sort()).join(" to ")}`;
    })
    .sort();
}
