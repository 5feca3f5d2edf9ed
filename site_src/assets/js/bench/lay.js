/* The joins of a lead -> wires, and where it is made of cable the resistance and capacitance of its conductors: the twin of cables.py.
   A join is {id, nodes, screen}; a cable is one of the stock with its `length`, or null. */

import { flat } from "./components.js";

const endOf = (node) => node.split(".")[0];
const isContact = (node) => node.includes(".");

/* The parts that are the lead itself, without its components. `ends` are the ids of the lead's ends. */
export function lay(joins, ends, cable) {
  const parts = [],
    conductors = [];
  for (const join of joins) {
    if (!cable || !runs(join)) {
      parts.push(...wires(join.id, join.nodes));
      continue;
    }
    const groups = byEnd(join);
    for (const [end, nodes] of groups) parts.push(...wires(`${join.id}.${end}`, nodes));
    const laid = conductor(join, groups, ends);
    conductors.push(laid);
    parts.push(...resistors(laid, cable));
  }
  conductors.forEach((one, i) =>
    conductors.slice(i + 1).forEach((other) => cable && parts.push(...capacitors(one, other, cable))),
  );
  return parts;
}

/* Several contacts of one end are a link inside that plug; a single contact is a conductor cut off at the far end, and so is a screen. */
function runs({ nodes, screen }) {
  const contacts = nodes.filter(isContact);
  return new Set(contacts.map(endOf)).size > 1 || contacts.length === 1 || (screen && contacts.length > 1);
}

/* Map end -> nodes; inner nodes attach at the end whose contact is listed first. */
function byEnd({ nodes }) {
  const groups = new Map();
  for (const node of nodes.filter(isContact))
    groups.set(endOf(node), [...(groups.get(endOf(node)) || []), node]);
  const first = groups.keys().next().value;
  return groups.set(first, [...groups.get(first), ...nodes.filter((node) => !isContact(node))]);
}

const wires = (name, [first, ...others]) =>
  others.map((node) => flat(`join.${name}.${node}`, "wire", [first, node], null));

/* A join laid out: {join, at: Map(end -> node), hub}. */
function conductor(join, groups, ends) {
  const at = new Map([...groups].map(([end, nodes]) => [end, nodes[0]]));
  if (at.size === 1 && ends.length === 2)
    for (const end of ends) if (!at.has(end)) at.set(end, `cable.${join.id}.${end}`);
  return { join, at, hub: at.size === 2 ? null : `cable.${join.id}.hub` };
}

function resistors({ join, at, hub }, cable) {
  const perMetre = join.screen ? cable.screen : cable.core,
    id = `cable.${join.id}`;
  if (!hub) return [flat(id, "resistor", [...at.values()], times(perMetre, cable.length, 1, "ohm"))];
  const ray = times(perMetre, cable.length, 0.5, "ohm");
  return [...at].map(([end, node]) => flat(`${id}.${end}`, "resistor", [node, hub], ray));
}

/* Nothing is known of two screens; a pair that has no figure, or 0 pF/m, has no capacitor. */
function capacitors(one, other, cable) {
  const perMetre = [cable.core_to_core, cable.core_to_screen, null][
    Number(one.join.screen) + Number(other.join.screen)
  ];
  if (!perMetre || perMetre.high === 0) return [];
  const id = `cable.${one.join.id}-${other.join.id}`;
  if (one.hub && other.hub)
    return [flat(id, "capacitor", [one.hub, other.hub], times(perMetre, cable.length, 1, "F"))];
  const half = times(perMetre, cable.length, 0.5, "F");
  return [...one.at]
    .filter(([end]) => other.at.has(end))
    .map(([end, node]) => flat(`${id}.${end}`, "capacitor", [node, other.at.get(end)], half));
}

function times(perMetre, length, share, unit) {
  const [nominal, low, high] = ["nominal", "low", "high"].map(
    (bound) => perMetre[bound] * length[bound] * share,
  );
  return {
    nominal,
    low,
    high,
    unit,
    text: `${perMetre.text} x ${length.text}${share === 1 ? "" : ` x ${share}`}`,
  };
}
