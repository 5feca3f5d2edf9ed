/* Parts a person can put on the bench, and what they are to the engine: flat parts, couplings and limits, as the catalogue would build them. */

import { quantity, tidied } from "../ui/quantity.js";

// A typical line transformer, the one of the catalogue's isolators: from memory; a bought unit's own figures stand in its data sheet.
const WINDING = { henry: 20, ohm: 50, k: 0.99999 };
const RATIO = /^(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)$/;

export const KINDS = {
  resistor: { unit: "ohm", rating: { unit: "W", quantity: "watts" } },
  capacitor: { unit: "F", rating: { unit: "V", quantity: "volts" } },
  transformer: {},
};

/* {part: {kind, nodes, value, rating}} with tidied texts, or {fault: words, field}. An empty rating is not known. */
export function part(kind, nodes, value, rating) {
  const { unit, rating: rated } = KINDS[kind];
  const fault = (field, words) => ({ fault: words, field });
  if (kind === "transformer") {
    const ratio = ratioOf(value);
    if (!ratio) return fault("value", "Write the turns as a ratio, such as 1:1 or 1:10.");
    if (nodes[0] === nodes[1] || nodes[2] === nodes[3])
      return fault("nodes", "A winding needs two different points.");
    return { part: { kind, nodes, value: value.replace(/\s/g, ""), rating: "" } };
  }
  const written = tidied(value, unit),
    limit = tidied(rating || "", rated.unit);
  const found = quantity(written, unit);
  if (found.fault) return fault("value", found.fault);
  if (limit && quantity(limit, rated.unit).fault) return fault("rating", quantity(limit, rated.unit).fault);
  if (nodes[0] === nodes[1]) return fault("nodes", "It needs two different points.");
  return { part: { kind, nodes, value: written, rating: limit } };
}

/* Turns of the second winding for one of the first; null if it is no ratio a lead could have. */
function ratioOf(text) {
  const match = RATIO.exec(text.trim());
  const turns = match ? Number(match[2]) / Number(match[1]) : 0;
  return turns >= 0.01 && turns <= 100 ? turns : null;
}

/* {ids, parts, couplings, limits} of the components of a wiring; ids as the YAML names them. */
export function components(wiring, evidence) {
  const counts = {},
    all = { parts: [], couplings: [], limits: [] };
  for (const part of wiring.parts) {
    counts[part.kind] = (counts[part.kind] || 0) + 1;
    const number = counts[part.kind];
    if (part.kind === "transformer") addTransformer(all, part, number);
    else addSimple(all, part, `${part.kind}-${number}`, evidence);
  }
  return { ...all, ids: all.parts.map(({ id }) => id) };
}

function addSimple({ parts, limits }, { kind, nodes, value, rating }, id, evidence) {
  const { unit, rating: rated } = KINDS[kind];
  const most = rating ? quantity(rating, rated.unit).value.low : null;
  parts.push(flat(id, kind, nodes, quantity(value, unit).value));
  limits.push({
    id,
    where: id.replace("-", " "),
    quantity: rated.quantity,
    part: id,
    between: null,
    settled: most,
    momentary: most,
    evidence,
    seconds: most,
    reversal: false,
  });
}

function addTransformer({ parts, couplings }, { nodes, value }, number) {
  for (const [name, a, b, turns] of [
    ["primary", nodes[0], nodes[1], 1],
    ["secondary", nodes[2], nodes[3], ratioOf(value)],
  ]) {
    const inner = `${name}-${number}-end`;
    parts.push(flat(`${name}-${number}`, "inductor", [a, inner], exact(WINDING.henry * turns * turns, "H")));
    parts.push(
      flat(
        `${name}-${number}-resistance`,
        "resistor",
        [inner, b],
        exact(WINDING.ohm * turns * turns, "ohm"),
        "transformer winding",
      ),
    );
  }
  couplings.push({ first: `primary-${number}`, second: `secondary-${number}`, k: WINDING.k });
}

function exact(value, unit) {
  const rounded = Number(value.toPrecision(6));
  return { nominal: rounded, low: rounded, high: rounded, unit, text: `${rounded} ${unit}` };
}

/* A two-terminal part with every field the published records have. */
export const flat = (id, kind, [a, b], value, coil = null) => ({
  id,
  kind,
  a,
  b,
  value,
  knee: null,
  series: null,
  supply: null,
  skew: 0,
  match: 0,
  coil,
});

export { ratioOf as ratio };
