/* Which lead of the catalogue is wired like the one on the bench, and how the nearest others differ. */

import { leads } from "../ui/catalogue.js";
import { amount, inOrder } from "../ui/words.js";
import { nets } from "./nets.js";
import { said } from "./wiring.js";

const NEAREST = 3;
const SAID = 5; // differences told of one lead

/* {equal: [lead], near: [{lead, differs: [words]}]}: leads with the same ends, in whichever order they are written. */
export function known(lead, wiring) {
  const mine = nets(lead);
  const found = leads()
    .filter((other) => !other.mine)
    .flatMap((other) => {
      const ways = renamings(lead, other).map((rename) =>
        compared(mine, nets(other, rename), lead, other, wiring),
      );
      return ways.length ? [ways.reduce((best, way) => (way.distance < best.distance ? way : best))] : [];
    });
  found.sort((a, b) => a.distance - b.distance || inOrder(a.lead.name, b.lead.name));
  return {
    equal: found.filter(({ distance }) => distance < 1).map((way) => way.lead),
    near: found.filter(({ distance }) => distance >= 1).slice(0, NEAREST),
  };
}

/* Every way to lay another lead's ends on ours: functions that rename its nodes. */
function renamings(lead, other) {
  const [mine, theirs] = [lead, other].map(({ ends }) => Object.values(ends));
  if (mine.length !== theirs.length) return [];
  const alike = (a, b) => a.connector === b.connector && a.half === b.half;
  return orders(mine)
    .filter((order) => order.every((end, i) => alike(end, theirs[i])))
    .map((order) => {
      const names = new Map(theirs.map((end, i) => [end.id, order[i].id]));
      return (node) =>
        node.includes(".") ? node.replace(/^[^.]+/, (end) => names.get(end)) : `theirs/${node}`;
    });
}

const orders = (items) =>
  items.length < 2
    ? [items]
    : items.flatMap((item, i) =>
        orders([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
      );

/* {lead, distance, differs}. Below 1 a meter finds no difference: there only the cable, or where it is cut off inside, is another. */
function compared(mine, theirs, lead, other, wiring) {
  const words = (node) => said(wiring, node);
  const less = bridges(mine, theirs.groups),
    more = bridges(theirs, mine.groups);
  const [absent, extra] = [without(theirs.labels, mine.labels), without(mine.labels, theirs.labels)];
  const differs = [
    ...less.map(([a, b]) => `${words(a)} is joined to ${words(b)}`),
    ...more.map(([a, b]) => `${words(a)} is not joined to ${words(b)}`),
    ...absent.map((label) => `it has a ${part(label, words)}`),
    ...extra.map((label) => `it has no ${part(label, words)}`),
  ];
  const unseen = [...without(theirs.lone, mine.lone), ...without(mine.lone, theirs.lone)].length ? 0.5 : 0;
  const cable = lead.cable === other.cable ? 0 : 0.2;
  const length = Math.min(Math.abs((lead.length || 0) - (other.length || 0)), 999) / 10000;
  const distance = less.length + more.length + absent.length + extra.length;
  return {
    lead: other,
    distance: distance || unseen + cable + length,
    exact: !distance && !unseen,
    differs: differs.slice(0, SAID),
    more: Math.max(0, differs.length - SAID),
  };
}

/* The fewest joins that `nets` lacks to hold all of `groups`: [[contact, contact]]. */
function bridges(nets, groups) {
  return groups.flatMap((group) => {
    const seen = new Map();
    for (const node of group) if (!seen.has(nets.net(node))) seen.set(nets.net(node), node);
    const [first, ...others] = seen.values();
    return others.map((node) => [first, node]);
  });
}

function without(all, some) {
  const left = [...some];
  return all.filter((one) => (left.includes(one) ? (left.splice(left.indexOf(one), 1), false) : true));
}

/* A label as words: "capacitor 10 µF between 2 of the XLR and tip of the plug". */
function part(label, words) {
  const [, kind, size, places] = /^(\S+) (\S*) (.*)$/s.exec(label);
  const unit = { resistor: "ohm", capacitor: "F", inductor: "H", emf: "V", clamp: "V", sink: "A" }[kind];
  const said = places
    .split(" to ")
    .map((place) => (place.startsWith("?") ? "a point inside" : words(place.split("+")[0])));
  return `${kind === "inductor" ? "winding" : kind} ${size ? amount(Number(size), unit) : ""} from ${said[0]} to ${said[1]}`;
}
