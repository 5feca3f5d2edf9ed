/* A wiring and what a hand can do to it. Nothing here changes a wiring: each step gives a new one, so that undo is only going back.
   A wiring is {ends: ["xlr-3/female", ...], joins: [[node, ...]], parts: [{kind, nodes, value, rating}], cable, length, screen}; ends are
   called a, b, c in order; a node is `a.2`, or `p`, `q` ... for a point inside; a join of one node is a conductor cut off at the far end. */

import { connector, half } from "../ui/catalogue.js";

export const ENDS = ["a", "b", "c"];
export const POINTS = ["p", "q", "r", "s"];
export const EMPTY = { ends: [], joins: [], parts: [], cable: null, length: "", screen: null };

export const place = (key) => {
  const [connector, half] = key.split("/");
  return { connector, half };
};

/* [{node, end, contact}] of every contact, end by end. */
export const contacts = (wiring) =>
  wiring.ends.flatMap((key, i) =>
    connector(place(key).connector).contacts.map((contact) => ({
      node: `${ENDS[i]}.${contact}`,
      end: i,
      contact,
    })),
  );

/* The points inside that anything uses. */
export const points = (wiring) =>
  POINTS.filter(
    (point) =>
      wiring.joins.some((join) => join.includes(point)) ||
      wiring.parts.some(({ nodes }) => nodes.includes(point)),
  );

export const freePoint = (wiring) => POINTS.find((point) => !points(wiring).includes(point)) || null;

export const joinOf = (wiring, node) => wiring.joins.find((join) => join.includes(node)) || null;

/* Join two nodes, or part the second from the first where they are joined. */
export function touch(wiring, one, two) {
  if (one === two) return wiring;
  const mine = joinOf(wiring, one),
    other = joinOf(wiring, two);
  const rest = wiring.joins.filter((join) => join !== mine && join !== other);
  if (mine && mine === other)
    return tidy({
      ...wiring,
      joins: [...rest, ...[mine.filter((node) => node !== two)].filter((join) => join.length > 1)],
    });
  return tidy({ ...wiring, joins: [...rest, [...(mine || [one]), ...(other || [two])]] });
}

/* A conductor that runs into the cable and ends there. */
export const cutOff = (wiring, node) =>
  joinOf(wiring, node) ? wiring : tidy({ ...wiring, joins: [...wiring.joins, [node]] });

export const unjoin = (wiring, join) =>
  tidy({ ...wiring, joins: wiring.joins.filter((other) => other !== join) });

export const addPart = (wiring, part) => tidy({ ...wiring, parts: [...wiring.parts, part] });

export const removePart = (wiring, part) =>
  tidy({ ...wiring, parts: wiring.parts.filter((other) => other !== part) });

export const made = (wiring, changes) => tidy({ ...wiring, ...changes });

export const setEnd = (wiring, index, key) =>
  tidy({
    ...wiring,
    ends:
      wiring.ends.length > index
        ? wiring.ends.map((old, i) => (i === index ? key : old))
        : [...wiring.ends, key],
  });

/* Only the last end may go, so that the others keep their names. */
export const dropEnd = (wiring) => tidy({ ...wiring, ends: wiring.ends.slice(0, -1) });

/* In one order, and without what no longer is there: so that the same wiring has the same address however it was made. */
export function tidy(wiring) {
  const known = contacts(wiring).map(({ node }) => node);
  const order = (node) => (known.includes(node) ? known.indexOf(node) : 1000 + POINTS.indexOf(node));
  const parts = wiring.parts.filter(({ nodes }) =>
    nodes.every((node) => known.includes(node) || POINTS.includes(node)),
  );
  const touched = new Set(parts.flatMap(({ nodes }) => nodes));
  const alive = (node) => known.includes(node) || touched.has(node);
  const joins = wiring.joins
    .map((join) => [...new Set(join)].filter(alive).sort((a, b) => order(a) - order(b)))
    .filter((join) => join.length > 1 || (join.length === 1 && wiring.cable && known.includes(join[0])))
    .sort((one, two) => order(one[0]) - order(two[0]));
  const screen =
    wiring.screen === "none" || joins.some((join) => join.includes(wiring.screen)) ? wiring.screen : null;
  return { ...wiring, joins, parts, screen };
}

/* The join that surrounds the others in a cable: the one chosen, else the one a trade's habit would take. null: none. */
export function screenOf(wiring, stock) {
  if (wiring.cable && !stock[wiring.cable].screen) return null;
  if (wiring.screen === "none") return null;
  const habit = contacts(wiring).filter(
    ({ contact, end }) =>
      ["sleeve", "shell"].includes(contact) || (contact === "1" && wiring.ends[end].includes("xlr")),
  );
  const nodes = wiring.screen ? [wiring.screen] : habit.map(({ node }) => node);
  return wiring.joins.find((join) => nodes.some((node) => join.includes(node))) || null;
}

/* A node in words: "tip of the RCA plug". */
export function said(wiring, node) {
  const [end, contact] = [node[0], node.slice(2)];
  if (!node.includes(".")) return `point ${node}`;
  return `${contact} of ${endName(wiring, ENDS.indexOf(end))}`;
}

/* "XLR-3 female"; with a letter where two ends are alike. */
export function endName(wiring, index) {
  const name = half(place(wiring.ends[index]));
  return wiring.ends.filter((key) => key === wiring.ends[index]).length > 1
    ? `${name} ${ENDS[index].toUpperCase()}`
    : name;
}
