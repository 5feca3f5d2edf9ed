/* Where everything stands on the bench, in CSS pixels: first end on the left, the others below each other on the right, a contact to a row.
   It grows downwards, so that it fits a phone however many contacts there are. */

import { contacts as contactsOf, points as pointsOf } from "./wiring.js";

export const ROW = 46;
export const HEAD = 54;
export const GAP = 14;

/* {blocks: [{side, end, top, nodes}], at: Map(node -> {side, y}), height}; `end` is null for the points inside. */
export function layout(wiring) {
  const contacts = contactsOf(wiring),
    points = pointsOf(wiring);
  const blocks = [],
    at = new Map(),
    fill = { left: 0, right: 0 };
  wiring.ends.forEach((_, end) =>
    add(
      end === 0 ? "left" : "right",
      end,
      contacts.filter((one) => one.end === end).map(({ node }) => node),
    ),
  );
  if (points.length) add(fill.left <= fill.right ? "left" : "right", null, points);
  return { blocks, at, height: Math.max(fill.left, fill.right) };

  function add(side, end, nodes) {
    const top = fill[side] ? fill[side] + GAP : 0;
    nodes.forEach((node, i) => at.set(node, { side, y: top + HEAD + ROW * (i + 0.5) }));
    fill[side] = top + HEAD + ROW * nodes.length;
    blocks.push({ side, end, top, nodes });
  }
}

/* [{kind, what, from, to, nth, first}]: every conductor and part as lines from contact to contact, as the lead is made: contacts of one plug
   are linked in the plug, and one wire goes from plug to plug. `nth` counts lines between the same two contacts. */
export function runs(wiring, { at }) {
  const seen = new Map();
  const run = (kind, what, one, two, more) => {
    const key = [one, two].sort().join(" ");
    seen.set(key, (seen.get(key) || 0) + 1);
    return { kind, what, from: at.get(one), to: at.get(two), nth: seen.get(key) - 1, ...more };
  };
  const wires = wiring.joins
    .filter((join) => join.length > 1)
    .flatMap((join) =>
      links(join, at).map(([one, two], i) => run("join", join, one, two, { first: i === 0 })),
    );
  const cut = wiring.joins
    .filter((join) => join.length === 1)
    .map((join) => ({ kind: "cut", what: join, from: at.get(join[0]), to: null, nth: 0, first: true }));
  const parts = wiring.parts.flatMap((part) =>
    pairs(part).map(([one, two], i) => run(part.kind, part, one, two, { first: i === 0 })),
  );
  return [...wires, ...cut, ...parts];
}

/* A join as pairs of contacts: end to end by the nearest two, then along the contacts of each end. */
function links(join, at) {
  const ends = new Map();
  for (const node of join) ends.set(endOf(node), [...(ends.get(endOf(node)) || []), node]);
  const [first, ...others] = ends.values();
  const across = others.map((nodes) =>
    nodes
      .flatMap((two) => first.map((one) => [one, two]))
      .reduce((best, pair) => (rise(pair, at) < rise(best, at) ? pair : best)),
  );
  return [
    ...across,
    ...[...ends.values()].flatMap((nodes) => nodes.slice(1).map((node, i) => [nodes[i], node])),
  ];
}

const rise = ([one, two], at) => Math.abs(at.get(one).y - at.get(two).y);
const endOf = (node) => (node.includes(".") ? node[0] : node);
const pairs = ({ nodes }) => (nodes.length === 4 ? [nodes.slice(0, 2), nodes.slice(2)] : [nodes]);
