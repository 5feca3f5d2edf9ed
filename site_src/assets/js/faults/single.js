globalThis.Ringfence = globalThis.Ringfence || {};

/* Every plausible single fault of a lead, and the lead with one of them put in. The twin of faulty.py. A fault is {kind, at}. */

import { contactOf, endOf, jointOf, SHELL, wired } from "./bench.js";
import { resistances } from "./ohms.js";

const POLAR = 1e-6,
  BRIDGE = { nominal: 0.05, low: 0.005, high: 0.2, unit: "ohm", text: "a touch" };
const JOINTS = ["open", "loose", "joint-1-ohm", "joint-100-ohm"];

/* Nothing wrong, then every single fault; what would change nothing is left out. */
export function of(specimen, tables) {
  const soldered = wired(specimen);
  return [
    { kind: "good", at: [] },
    ...JOINTS.flatMap((kind) => soldered.map((at) => ({ kind, at: [at] }))),
    ...pairs(specimen, new Set(soldered), tables),
    ...bothEnds(specimen),
    ...parts(specimen),
  ];
}

function pairs(specimen, soldered, tables) {
  const [, apart] = resistances(specimen, tables),
    place = new Map([...specimen.terminals.keys()].map((terminal, i) => [terminal, i]));
  return [...specimen.ends.values()].flatMap((terminals) =>
    terminals.flatMap((one, i) =>
      terminals.slice(i + 1).flatMap((other) => {
        if (
          (!soldered.has(one) && !soldered.has(other)) ||
          apart[place.get(one)][place.get(other)] < BRIDGE.high
        )
          return [];
        return (contactOf(other) === SHELL ? ["body"] : ["short", "crossed"]).map((kind) => ({
          kind,
          at: [one, other],
        }));
      }),
    ),
  );
}

/* The screen and a core of a cable with two ends, changed over at both. */
function bothEnds({ lead, ends, terminals, made, parts: all }) {
  if (!all.some(({ kind, id }) => kind === "capacitor" && !made.has(id)) || ends.size !== 2) return [];
  const straight = lead.joins.filter(
    ({ nodes }) => nodes.length === 2 && nodes.every((node) => terminals.has(node)),
  );
  const byEnd = ({ nodes }) => new Map(nodes.map((node) => [endOf(node), node])),
    whole = (one) => [...ends.keys()].every((end) => one.has(end));
  return straight
    .filter(({ screen }) => screen)
    .flatMap((screen) =>
      straight
        .filter((core) => !core.screen)
        .flatMap((core) => {
          const one = byEnd(screen),
            other = byEnd(core);
          return whole(one) && whole(other)
            ? [
                {
                  kind: "crossed-both",
                  at: [...ends.keys()].flatMap((end) => [one.get(end), other.get(end)]),
                },
              ]
            : [];
        }),
    );
}

function kinds({ kind, coil, value }) {
  if (kind === "resistor")
    return coil ? ["missing", "shorted"] : ["missing", "shorted", "ten-times", "tenth"];
  if (kind === "capacitor")
    return ["missing", "shorted", "ten-times", "tenth", ...(value.nominal >= POLAR ? ["reversed"] : [])];
  return { clamp: ["missing", "shorted", "reversed"], inductor: ["reversed"] }[kind] || [];
}

const parts = (specimen) =>
  specimen.parts
    .filter(({ id }) => specimen.made.has(id))
    .flatMap((part) => kinds(part).map((kind) => ({ kind, at: [part.id] })));

/* The specimen with the fault in it; what comes and goes is taken at its open moment. */
export const injected = (specimen, { kind, at }) => ({
  ...specimen,
  parts: EDITS[kind](specimen.parts, at, specimen),
});

const edited = (all, id, edit) => all.flatMap((part) => (part.id === id ? edit(part) : [part]));
const removed = (all, id) => edited(all, id, () => []);
const stated = (ohms) => ({ nominal: ohms, low: ohms, high: ohms, unit: "ohm", text: `${ohms} ohm` });
const bridge = (a, b) => ({ id: "fault", kind: "resistor", a, b, value: BRIDGE, coil: null, series: null });
const joint =
  (ohms) =>
  (all, [at]) =>
    edited(all, jointOf(at), (part) => [{ ...part, kind: "resistor", value: stated(ohms) }]);
const open = (all, [at]) => removed(all, jointOf(at));
const touching = (all, [one, other], { terminals }) => [
  ...all,
  bridge(terminals.get(one), terminals.get(other)),
];
const scaled = ({ nominal, low, high, ...rest }, times) => ({
  ...rest,
  nominal: nominal * times,
  low: low * times,
  high: high * times,
});
const times =
  (factor) =>
  (all, [at]) =>
    edited(all, at, (part) => [{ ...part, value: scaled(part.value, factor) }]);

/* Each of the two contacts, or of the two pairs of contacts, gets the wire of the other. */
function crossed(all, at, { terminals }) {
  let now = all;
  for (let i = 0; i < at.length; i += 2) {
    for (const [here, there] of [
      [at[i], at[i + 1]],
      [at[i + 1], at[i]],
    ])
      now = edited(now, jointOf(here), (part) => [{ ...part, b: terminals.get(there) }]);
  }
  return now;
}

function shorted(all, [at]) {
  const { a, b } = all.find(({ id }) => id === at);
  return [...removed(all, at), bridge(a, b)];
}

const EDITS = {
  good: (all) => all,
  open,
  loose: open,
  "joint-1-ohm": joint(1),
  "joint-100-ohm": joint(100),
  short: touching,
  body: touching,
  crossed,
  "crossed-both": crossed,
  missing: (all, [at]) => removed(all, at),
  shorted,
  "ten-times": times(10),
  tenth: times(0.1),
  reversed: (all, [at]) => edited(all, at, (part) => [{ ...part, a: part.b, b: part.a }]),
};
