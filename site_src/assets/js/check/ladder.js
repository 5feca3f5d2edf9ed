/* Where the nets and parts of a working stand when it is drawn: nets are level rails, the highest voltage on top, parts stand between, in
   columns. The twin of _without_meter to _ladders in schematic.py. */

import { quantity } from "../engine/words.js";
import { LETTER } from "./symbols.js";

const COLUMNS = 3;
const LEAST_AMPS = 1e-12;
const ALIKE = 0.02; // rails whose voltages differ by less than this share of the largest may change places
const MOST_ORDERS = 6; // so many alike are tried in every order

/* The parts that are shown, each with its key (R1, R2, C1 ...). Where a part already stands between the two points that are measured, the
   number is told beside that part, and there is no meter. */
export function keyed(working) {
  const meter = working.parts.find((part) => part.kind === "meter"),
    counts = {};
  const same = (part) => [part.a, part.b].sort().join("\0") === [meter.a, meter.b].sort().join("\0");
  const beside =
    meter &&
    working.nature !== "test" &&
    working.parts.find((part) => !["meter", "emf", "contact"].includes(part.kind) && same(part));
  const parts = beside
    ? working.parts.filter((part) => part !== meter).map((part) => ({ ...part, decides: part === beside }))
    : working.parts;
  return parts.map((part) => {
    const letter = LETTER[part.kind];
    counts[letter] = (counts[letter] || 0) + 1;
    return { ...part, key: `${letter}${counts[letter]}` };
  });
}

export const railVolts = (net) => (net.zero ? "0 V" : quantity(net.volts, "V"));

/* The voltage and current beside a part; a source's voltage is its value. */
export function readBeside(part, { nature, level }) {
  if (part.kind === "meter" && nature === "test" && !level) return ["no path"];
  const volts = part.kind === "emf" ? [] : [quantity(Math.abs(part.volts), "V")];
  if (part.kind === "meter") return volts;
  return [...volts, Math.abs(part.amps) > LEAST_AMPS ? quantity(Math.abs(part.amps), "A") : "0 A"];
}

export const flows = (part, { nature }) =>
  nature !== "signal" && Math.abs(part.amps) > LEAST_AMPS && part.kind !== "meter" && part.kind !== "sink";

/* The nets from the highest voltage down; of those alike, so that parts in a row stand under one another. */
function ordered(nets, parts) {
  const height = (net) => (net.zero ? 0 : net.volts);
  let order = [...nets].sort((one, two) => height(two) - height(one));
  const near = ALIKE * Math.max(0, ...nets.map((net) => Math.abs(net.volts)));
  const alike = (upper, lower) => !upper.zero && !lower.zero && upper.volts - lower.volts <= near;
  for (let first = 0, last; first < order.length; first = last) {
    for (last = first + 1; last < order.length && alike(order[last - 1], order[last]); ) last++;
    if (last - first < 2 || last - first > MOST_ORDERS) continue;
    const before = order.slice(0, first),
      after = order.slice(last),
      tried = orders(order.slice(first, last)).map((middle) => [...before, ...middle, ...after]);
    order = tried
      .map((nets) => [crowding(nets, parts), nets])
      .reduce((best, one) => (one[0] < best[0] ? one : best))[1];
  }
  return order;
}

const orders = (list) =>
  list.length < 2
    ? [list]
    : list.flatMap((one, i) => orders(list.filter((_, k) => k !== i)).map((rest) => [one, ...rest]));

const spansOf = (rank, parts) =>
  parts.map((part) => ({
    part,
    top: Math.min(rank.get(part.a), rank.get(part.b)),
    foot: Math.max(rank.get(part.a), rank.get(part.b)),
  }));

const rankOf = (nets) => new Map(nets.map((net, i) => [net.name, i]));

/* How many columns an order of rails needs, then how far its parts reach. */
function crowding(order, parts) {
  const spans = spansOf(rankOf(order), parts),
    inside = (band) => spans.filter(({ top, foot }) => top <= band && band < foot).length;
  return (
    Math.max(...order.map((_, band) => inside(band))) * 1000 +
    spans.reduce((sum, { top, foot }) => sum + foot - top, 0)
  );
}

/* Parts in columns, first fit; so many columns to a ladder, each with the rails it needs: a list of {rails, standing: [{part, top, foot,
   column, upside, band}]}. `band` is the space that holds the symbol; `upside` where current flows from foot to top as the part counts it. */
export function ladders(working, parts) {
  const order = ordered(working.nets, parts),
    rank = rankOf(order),
    columns = [];
  const placed = spansOf(rank, parts)
    .filter(({ part }) => part.a !== part.b)
    .sort((one, two) => one.top - two.top || one.foot - two.foot)
    .map((span) => {
      const free = columns.findIndex((taken) =>
        taken.every(({ top, foot }) => span.foot <= top || foot <= span.top),
      );
      const column = free < 0 ? columns.push([]) - 1 : free;
      columns[column].push(span);
      return { ...span, column };
    });
  const found = [];
  for (let first = 0; first < columns.length; first += COLUMNS) {
    const mine = placed.filter(({ column }) => first <= column && column < first + COLUMNS),
      used = new Set(mine.flatMap(({ part }) => [part.a, part.b]));
    const rails = order.filter((net) => used.has(net.name)),
      own = rankOf(rails);
    const standing = spansOf(
      own,
      mine.map(({ part }) => part),
    ).map((span, i) => ({
      ...span,
      column: mine[i].column - first,
      upside: own.get(span.part.a) > own.get(span.part.b),
    }));
    found.push({ rails, standing: banded(standing) });
  }
  const lonely = order.filter((net) =>
    parts.every((part) => part.a === part.b || (part.a !== net.name && part.b !== net.name)),
  );
  return lonely.length ? [...found, { rails: lonely, standing: [] }] : found;
}

/* Which space between two rails holds each symbol: its only one, else one that holds symbols already. */
function banded(standing) {
  const taken = new Set(standing.filter(({ top, foot }) => foot === top + 1).map(({ top }) => top));
  return standing.map((one) => {
    let band = one.top;
    while (band < one.foot - 1 && !taken.has(band)) band++;
    if (!taken.has(band)) band = one.top;
    taken.add(band);
    return { ...one, band };
  });
}
