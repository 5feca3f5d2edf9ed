/* Which contacts touch when two halves are pushed together: fully home, and at every step on the way in.
   The twin of mate.py, step by step. A side is {connector, half}; a touch is the text "contact of the first \0 contact of the
   second" (so that texts sort as pairs do); a state is a Set of touches; a mating is {home: [state], travel: [state], turned}, the last
   being those of its home states in which a plug sits the other way round. */

import { SMALL_GROUP } from "./constants.js";

export const PLUGS = ["plug", "male"];
const RECEPTACLES = ["jack", "female"];
const known = new WeakMap(); // matings by connector, halves and other connector: they hang on nothing else

const touchOf = (a, b) => `${a}\0${b}`;
export const contacts = (touch) => touch.split("\0");

/* Do these two sides go into each other? */
export function fits(one, two) {
  if (PLUGS.includes(one.half) && RECEPTACLES.includes(two.half)) return fits(two, one);
  if (
    !RECEPTACLES.includes(one.half) ||
    !PLUGS.includes(two.half) ||
    one.connector.shape !== two.connector.shape
  )
    return false;
  return one.connector.bore === two.connector.bore || one.connector.takes.includes(two.connector.id);
}

/* The mating of two sides; null if they do not fit. */
export function mate(one, two) {
  if (!fits(one, two)) return null;
  if (!known.has(one.connector)) known.set(one.connector, new Map());
  const own = known.get(one.connector);
  if (!own.has(two.connector)) own.set(two.connector, {});
  const halves = own.get(two.connector),
    key = `${one.half} ${two.half}`;
  if (!halves[key]) halves[key] = worked(one, two);
  return halves[key];
}

function worked(one, two) {
  if (PLUGS.includes(one.half)) {
    const other = mate(two, one),
      home = other.home.map(swapped);
    return {
      home,
      travel: other.travel.map(swapped),
      turned: new Set(home.filter((_, i) => other.turned.has(other.home[i]))),
    };
  }
  const receptacle = one.connector.halves[one.half],
    plug = two.connector.halves[two.half];
  if (one.connector.shape === "concentric") return concentric(receptacle, plug);
  const matings = waysRound(one.connector, two.connector).map((touches) =>
    byOrderOfMake(receptacle, touches),
  );
  const home = unique(matings.flatMap((mating) => mating.home));
  const travel = unique(matings.flatMap((mating) => without(mating.travel, home)));
  return { home, travel, turned: new Set(without(home, matings[0].home)) };
}

const swapped = (state) => new Set([...state].map((touch) => touchOf(...contacts(touch).reverse())));

function without(states, others) {
  const left = new Set(others.map(keyOf));
  return states.filter((state) => !left.has(keyOf(state)));
}

/* Which contact of the plug each one of the receptacle meets, straight and, where it goes in that way too, turned. */
function waysRound(receptacle, plug) {
  const straight = receptacle.contacts.map((contact) => [contact, contact]),
    turned = receptacle.turned;
  const ways = Object.keys(turned).length
    ? [straight, straight.map(([own]) => [own, Object.hasOwn(turned, own) ? turned[own] : own])]
    : [straight];
  return ways.map((way) => new Map(way.filter(([, other]) => plug.contacts.includes(other))));
}

function concentric(jack, plug) {
  const home = unique(states(jack.springs, plug.segments, 0));
  const travel = unique(withdrawals(jack, plug).flatMap((x) => states(jack.springs, plug.segments, x)));
  return { home, travel: without(travel, home).filter((state) => state.size), turned: new Set() };
}

/* Every combination of landings with the plug x mm short of home. */
function states(springs, segments, x) {
  const names = Object.keys(springs);
  return product(names.map((name) => landings(springs[name], segments, x))).map(
    (landed) => new Set(names.flatMap((name, i) => landed[i].map((segment) => touchOf(name, segment)))),
  );
}

/* The sets of segments a spring can touch, over all the places its maker may have put it. */
function landings(spring, segments, x) {
  const half = spring.width / 2;
  const edges = Object.values(segments).flatMap((ends) =>
    ends.flatMap((edge) => [edge + x - half, edge + x + half]),
  );
  const places = middles(
    sorted([spring.near, spring.far, ...edges.filter((edge) => spring.near < edge && edge < spring.far)]),
  );
  const found = new Map();
  for (const place of places) {
    const low = place - x - half,
      high = place - x + half;
    const landing = Object.keys(segments).filter(
      (name) => low < segments[name][1] && segments[name][0] < high,
    );
    found.set(landing.join("\0"), landing);
  }
  return [...found.values()];
}

/* One x for each stretch of the way in over which nothing changes, from first touch to home. */
function withdrawals(jack, plug) {
  const ends = Object.values(plug.segments).flat();
  const edges = Object.values(jack.springs).flatMap((spring) =>
    [spring.near, spring.far].flatMap((p) =>
      [-spring.width / 2, spring.width / 2].flatMap((side) => ends.map((end) => p + side - end)),
    ),
  );
  return middles(sorted([0, ...edges.filter((edge) => edge > 0)])).reverse();
}

const middles = (points) =>
  points.length === 1 ? points : points.slice(1).map((high, i) => (points[i] + high) / 2);

const sorted = (numbers) => [...new Set(numbers)].sort((a, b) => a - b);

function byOrderOfMake(receptacle, shared) {
  const same = (contacts) => new Set(contacts.map((contact) => touchOf(contact, shared.get(contact))));
  const reachOf = (contact) => (Object.hasOwn(receptacle.forward, contact) ? receptacle.forward[contact] : 0);
  const travel = [],
    made = [];
  for (const reach of sorted([...shared.keys()].map(reachOf)).reverse()) {
    const group = [...shared.keys()].filter((contact) => reachOf(contact) === reach).sort();
    const sizes =
      group.length <= SMALL_GROUP ? group.map((_, i) => i + 1) : [1, group.length - 1, group.length];
    for (const size of sizes)
      for (const some of combinations(group, size)) travel.push(same([...made, ...some]));
    made.push(...group);
  }
  return {
    home: [same([...shared.keys()])],
    travel: unique(travel).filter((state) => state.size < shared.size),
  };
}

function combinations(items, size) {
  if (size === 0) return [[]];
  if (size > items.length) return [];
  return items.flatMap((item, i) =>
    combinations(items.slice(i + 1), size - 1).map((rest) => [item, ...rest]),
  );
}

const keyOf = (state) => [...state].sort().join("\n");

const unique = (all) => [...new Map(all.map((state) => [keyOf(state), state])).values()];

/* Every choice of one item from each list, the last list turning fastest. */
export const product = (lists) =>
  lists.reduce((chosen, list) => chosen.flatMap((some) => list.map((item) => [...some, item])), [[]]);

export { touchOf as touch };
