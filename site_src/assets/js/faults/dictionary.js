globalThis.Ringfence = globalThis.Ringfence || {};

/* What every measurement reads under every fault, as a page of the workshop carries it. The twin of dictionary.py and carried.py. */

import { contactOf, endOf, onBench, SHELL } from "./bench.js";
import { resistances } from "./ohms.js";
import { injected, of } from "./single.js";
import { grouped, place as placeOf, shows } from "./words.js";

const MANY = 5,
  MERE = 1e-3,
  TOP = 20e6,
  FIRST = 48;

/* A generator that yields after every fault and returns the dictionary, or null for a lead with more faults than two probes are for. */
export function* dictionary(lead, contacts, tables) {
  const specimen = onBench(lead, contacts, tables),
    tried = of(specimen, tables),
    terminals = [...specimen.terminals.keys()];
  if (tried.length > tables.most) return null;
  const at = new Map(terminals.map((terminal, i) => [terminal, i])),
    measurements = [...pairs(terminals), ...straps(specimen)];
  const numbered = measurements.map((sides) => sides.map((side) => side.map((terminal) => at.get(terminal))));
  const read = (fault) => readings(resistances(injected(specimen, fault), tables), numbered),
    rows = [];
  const good = read({ kind: "good", at: [] });
  for (const fault of tried) {
    rows.push(
      read(fault).map(([low, high], m) =>
        fault.kind !== "loose"
          ? [low, high, 0]
          : [...good[m], Number((high === Infinity) !== (good[m][1] === Infinity))],
      ),
    );
    yield rows.length / tried.length;
  }
  const order = (one, other) => one[2] - other[2] || compared(one[0], other[0]) || compared(one[1], other[1]);
  const classes = [...new Map(rows.flat().map((one) => [one.join(), one])).values()].sort(order),
    place = new Map(classes.map((one, k) => [one.join(), k]));
  const groups = grouped(specimen, tried, tables),
    groupOf = new Map(groups.flatMap(([, alike], number) => alike.map((f) => [f, number])));
  const mends = [...new Set(tried.map(({ kind }) => tables.faults[kind].mend))];
  return {
    faults: tried.map(({ kind }, f) => ({
      group: groupOf.get(f),
      weight: tables.faults[kind].weight,
      mend: mends.indexOf(tables.faults[kind].mend),
    })),
    groups: groups.map(([words]) => words),
    mends,
    terminals,
    places: terminals.map((terminal) => placeOf(specimen, terminal)),
    measurements: numbered,
    classes: classes.map(([low, high, moves]) => [
      low === Infinity ? null : low,
      high === Infinity ? null : high,
      moves,
    ]),
    shows: classes.map(([low, high, moves]) => shows({ low, high, moves }, tables)),
    moves: tables.says.moves,
    which: rows
      .map((row) => row.map((one) => String.fromCharCode(FIRST + place.get(one.join()))).join(""))
      .join(""),
    symptoms: [],
    rules: tables.rules,
  };
}

const compared = (one, other) => (one === other ? 0 : one < other ? -1 : 1);

/* Contacts end to end and within an end, and each metal shell with the contacts of its own end. */
const pairs = (terminals) =>
  terminals.flatMap((one, i) =>
    terminals
      .slice(i + 1)
      .filter(
        (other) => ![one, other].some((each) => contactOf(each) === SHELL) || endOf(one) === endOf(other),
      )
      .map((other) => [[one], [other]]),
  );

/* With many contacts at an end: those whose number has a bit set joined under one probe, the others under the other. */
function straps({ ends }) {
  return [...ends.values()].flatMap((all) => {
    const contacts = all.filter((terminal) => contactOf(terminal) !== SHELL);
    const bits = contacts.length >= MANY ? (contacts.length - 1).toString(2).length : 0;
    return [...Array(bits).keys()].map((bit) =>
      [1, 0].map((side) => contacts.filter((_, i) => ((i >> bit) & 1) === side)),
    );
  });
}

/* Groups are bounded: not above their best pair, not below all pairs in parallel. */
function readings([low, high], measurements) {
  return measurements.map(([red, black]) => {
    if (red.length === 1 && black.length === 1)
      return [down(low[red[0]][black[0]]), up(high[red[0]][black[0]])];
    const cells = red.flatMap((i) => black.map((j) => [i, j]));
    const siemens = cells.reduce((sum, [i, j]) => sum + 1 / Math.max(low[i][j], MERE), 0);
    return [down(1 / siemens), up(Math.min(...cells.map(([i, j]) => high[i][j])))];
  });
}

/* In steps a meter can show, the low bound down and the high one up. */
const down = (ohms) => stepped(ohms, Math.floor),
  up = (ohms) => stepped(ohms, Math.ceil);

function stepped(ohms, rounded) {
  if (ohms > TOP) return Infinity;
  const step = ohms < 10 ? 0.1 : 10 ** (Math.floor(Math.log10(Math.max(ohms, MERE))) - 1) / 2;
  return Math.round(rounded(Math.round((ohms / step) * 1e6) / 1e6) * step * 1e9) / 1e9;
}
