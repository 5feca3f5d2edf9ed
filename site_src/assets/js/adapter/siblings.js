/* Leads of one outward form, and what tells their wirings apart: which contacts are joined by plain wire. An end is written "connector/half". */

import { leads, seldom } from "../ui/catalogue.js";
import { effort } from "../ui/effort.js";
import { inOrder } from "../ui/words.js";

const name = ({ connector, half }) => `${connector}/${half}`;
const sorted = (list) => [...list].sort().join();
export const endName = name;

/* Every end that leads have, beside those already chosen, the commonest first: [{connector, half}]. */
export function ends(chosen) {
  const tally = new Map();
  for (const lead of leads()) {
    const left = Object.values(lead.ends).map(name);
    if (!chosen.every((end) => left.includes(end) && left.splice(left.indexOf(end), 1))) continue;
    for (const end of new Set(left)) tally.set(end, (tally.get(end) || 0) + 3 - seldom(lead));
  }
  return [...tally]
    .sort((a, b) => b[1] - a[1])
    .map(([end]) => {
      const [connector, half] = end.split("/");
      return { connector, half };
    });
}

/* Leads with just these ends, the commonest wiring first. */
export const siblings = (chosen) =>
  leads()
    .filter((lead) => sorted(Object.values(lead.ends).map(name)) === sorted(chosen))
    .sort(
      (a, b) =>
        seldom(a) - seldom(b) ||
        effort({ through: [a.id] }) - effort({ through: [b.id] }) ||
        inOrder(a.name, b.name),
    );

/* Which pairs of contacts beep: "0.2–1.tip" for contact 2 of the first chosen end and the tip of the second. */
function beeps(lead, chosen) {
  const left = chosen.map((end, place) => ({ end, place })),
    places = new Map();
  for (const end of Object.values(lead.ends)) {
    const at = left.findIndex((one) => one.end === name(end));
    places.set(end.id, left.splice(at, 1)[0].place);
  }
  const group = new Map(),
    root = (node) => {
      let one = node;
      while (group.get(one) !== one) one = group.get(one);
      return one;
    };
  for (const { nodes } of lead.joins) {
    nodes.forEach((node) => {
      if (!group.has(node)) group.set(node, node);
    });
    nodes.forEach((node) => group.set(root(node), root(nodes[0])));
  }
  const contacts = [...group.keys()].filter((node) => places.has(node.split(".")[0])),
    at = (node) => {
      const [end, contact] = node.split(".");
      return `${places.get(end)}.${contact}`;
    };
  return new Set(
    contacts.flatMap((one, i) =>
      contacts
        .slice(i + 1)
        .filter((other) => root(one) === root(other))
        .map((other) => [at(one), at(other)].sort().join("–")),
    ),
  );
}

/* The fewest measurements that tell siblings apart as far as a beep can: [{pair: [[place, contact], ...], yes: [lead], no: [lead]}]; `alike` are groups no beep parts. */
export function told(leads, chosen) {
  const heard = new Map(leads.map((lead) => [lead, beeps(lead, chosen)])),
    pairs = [...new Set([...heard.values()].flatMap((set) => [...set]))].sort();
  let groups = [leads];
  const tests = [];
  const parted = (pair) =>
    groups.flatMap((group) =>
      [true, false]
        .map((yes) => group.filter((lead) => heard.get(lead).has(pair) === yes))
        .filter((some) => some.length),
    );
  for (;;) {
    const best = pairs
      .map((pair) => ({ pair, made: parted(pair) }))
      .sort((a, b) => b.made.length - a.made.length)[0];
    if (!best || best.made.length === groups.length) break;
    groups = best.made;
    const [yes, no] = [true, false].map((beep) =>
      leads.filter((lead) => heard.get(lead).has(best.pair) === beep),
    );
    tests.push({
      pair: best.pair.split("–").map((side) => [Number(side.split(".")[0]), side.split(".")[1]]),
      yes,
      no,
    });
  }
  return { tests, alike: groups.filter((group) => group.length > 1) };
}
