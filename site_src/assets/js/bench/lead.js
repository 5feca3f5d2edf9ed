/* A wiring as a lead record like those of the published catalogue, so that the engine can judge it among them. */

import { quantity } from "../ui/quantity.js";
import { components } from "./components.js";
import { lay } from "./lay.js";
import { stock as stockOf } from "./stock.js";
import { ENDS, endName, place, points, screenOf } from "./wiring.js";

const COPPER = 0.01724; // ohm mm2/m, at 20 degrees
const ADIABATIC = 115; // A s^0.5/mm2: copper in PVC, from 70 to 160 degrees

export const ID = "(bench)"; // no id of the catalogue can look like this
const EVIDENCE = { grade: "from memory", cite: [], checked: null, note: null };

/* What stands in the way of a lead: sentences, none when all is well. */
export function missing(wiring) {
  if (wiring.ends.length < 2) return ["Choose two ends."];
  const touched = [...wiring.joins, ...wiring.parts.map(({ nodes }) => nodes)].flat();
  const idle = wiring.ends
    .map((_, i) => i)
    .filter((i) => !touched.some((node) => node.startsWith(`${ENDS[i]}.`)));
  const said = idle.map((i) => `Nothing is joined to the ${endName(wiring, i)} yet.`);
  for (const point of points(wiring)) {
    if (touched.filter((node) => node === point).length < 2)
      said.push(`Only one thing touches point ${point}, so nothing can flow there.`);
  }
  if (wiring.joins.some((join) => join.every((node) => !node.includes("."))))
    said.push("Two points inside are joined to each other and to no contact.");
  if (wiring.cable && quantity(wiring.length, "m").fault)
    said.push("Say how long the cable is, such as 3 m.");
  return said;
}

/* The joins with their names: the screen, else what the first contact is called. */
export function named(wiring, stock) {
  const screen = screenOf(wiring, stock),
    taken = new Set();
  return wiring.joins.map((nodes) => {
    const contact = (nodes.find((node) => node.includes(".")) || nodes[0]).split(".").pop();
    const word = contact.replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "x";
    const plain =
      nodes === screen ? "screen" : /^[a-z]/.test(word) && word !== "screen" ? word : `core-${word}`;
    let id = plain;
    for (let number = 2; taken.has(id); number++) id = `${plain}-${number}`;
    taken.add(id);
    return { id, nodes, screen: nodes === screen };
  });
}

/* The flat record; only for a wiring that misses nothing. */
export function lead(wiring) {
  const stock = stockOf();
  const ends = Object.fromEntries(
    wiring.ends.map((key, i) => [
      ENDS[i],
      { id: ENDS[i], ...place(key), label: endName(wiring, i), usual: null },
    ]),
  );
  const length = wiring.cable ? quantity(wiring.length, "m").value : null;
  const cable = wiring.cable ? { ...stock[wiring.cable], length } : null;
  const joins = named(wiring, stock),
    laid = lay(joins, Object.keys(ends), cable);
  const added = components(wiring, EVIDENCE);
  return {
    id: ID,
    name: "the lead on the bench",
    form:
      wiring.ends.length > 2 ? "splitter" : wiring.parts.length ? "converter" : cable ? "cable" : "adapter",
    ends,
    joins,
    parts: added.ids,
    network: {
      parts: [...laid, ...added.parts],
      couplings: added.couplings,
      limits: [...added.limits, ...ratings(laid, cable, length && length.nominal)],
    },
    length: length && length.nominal,
    cable: wiring.cable,
    impedance: cable && cable.impedance,
    made_for: [],
    looks_like: [],
    tell_apart: "",
    cautions: [],
    also_called: [],
    evidence: EVIDENCE,
  };
}

/* What each conductor of the cable may carry: for hours what its file says, for moments what heats its copper (as in build.py). */
export function ratings(laid, cable, metres) {
  if (!cable) return [];
  return laid
    .filter(({ kind }) => kind === "resistor")
    .map(({ id, b, value }) => {
      const heated = (ADIABATIC * COPPER * (b.endsWith(".hub") ? metres / 2 : metres)) / value.nominal;
      const brief = (seconds) => Math.max(cable.amps, heated / Math.sqrt(seconds));
      return {
        id,
        where: "cable",
        quantity: "amps",
        part: id,
        between: null,
        settled: cable.amps,
        momentary: brief(0.1),
        evidence: cable.evidence,
        seconds: brief(10),
        reversal: false,
      };
    });
}

/* The catalogue with the lead on the bench in it; the catalogue itself stays as it is. */
export const withLead = (lead) => ({ ...Ringfence.data, leads: { ...Ringfence.data.leads, [ID]: lead } });
