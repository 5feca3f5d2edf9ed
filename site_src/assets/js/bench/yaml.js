/* The lead on the bench as a file of the catalogue, in its grammar. Every text is a double-quoted scalar, so no text can mean anything else. */

import { lead as leadById } from "../ui/catalogue.js";
import { known } from "./known.js";
import { lead as leadOf } from "./lead.js";
import { endName } from "./wiring.js";

const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\ufffe\uffff]/gu; // what nobody sees
const LONE = /^[\ud800-\udfff]$/; // half of a pair, alone
const LONGEST = 120;
const GRADES = ["from memory", "common practice"]; // what a reading on a bench may claim; the others need a source

const quoted = (text) =>
  JSON.stringify(
    Array.from(text.replace(UNPRINTABLE, " ").replace(/\s+/g, " ").trim())
      .filter((sign) => !LONE.test(sign))
      .slice(0, LONGEST)
      .join(""),
  );
const flow = (items) => `[${items.map(quoted).join(", ")}]`;

/* The id a name makes, and that no lead has yet. */
export function idOf(name) {
  const plain =
    name
      .normalize("NFKD")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^[-0-9]+|-+$/g, "")
      .slice(0, 60)
      .replace(/-+$/, "") || "lead";
  let id = plain;
  for (let number = 2; leadById(id); number++) id = `${plain}-${number}`;
  return id;
}

/* {path, text} of a wiring that misses nothing. `told` is {name, note, grade, date}. */
export function yaml(wiring, { name, note, grade, date }) {
  const lead = leadOf(wiring),
    screens = lead.joins.filter(({ screen }) => screen).map(({ id }) => id);
  const alike = known(lead, wiring);
  const others = [...alike.equal, ...alike.near.map((near) => near.lead)].map(({ id }) => id);
  const lines = [
    ...(others.length
      ? [
          `# Same ends: ${others.join(", ")}. Where they can be mistaken for it, name each other under looks_like.`,
        ]
      : []),
    `name: ${quoted(name || defaultName(wiring))}`,
    `form: ${lead.form}`,
    "ends:",
    ...Object.values(lead.ends).map(
      (end) => `  ${end.id}: {connector: ${end.connector}, half: ${end.half}, label: ${quoted(end.label)}}`,
    ),
    ...(lead.joins.length ? ["joins:", ...lead.joins.map(({ id, nodes }) => `  ${id}: ${flow(nodes)}`)] : []),
    ...(lead.cable
      ? [
          `cable: ${lead.cable}`,
          `length: ${quoted(wiring.length)}`,
          ...(screens.includes("screen") ? [] : ["screens: []"]),
        ]
      : []),
    ...components(lead),
    `evidence: ${GRADES.includes(grade) ? grade : GRADES[0]}`,
    `checked: ${date}`,
    `note: ${quoted(note || "Wiring as entered on the bench; a meter on the lead itself would confirm it.")}`,
  ];
  return { path: `pinouts/leads/${idOf(name || defaultName(wiring))}.yaml`, text: `${lines.join("\n")}\n` };
}

export const defaultName = (wiring) => wiring.ends.map((_, i) => endName(wiring, i)).join(" to ");

function components(lead) {
  const own = lead.network.parts.filter(({ id }) => lead.parts.includes(id));
  if (!own.length) return [];
  const part = ({ id, kind, value, a, b, coil }) =>
    `  ${id}: {${kind}: ${quoted(value.text)}, between: ${flow([a, b])}${coil ? `, coil: ${quoted(coil)}` : ""}}`;
  const limit = ({ id, where, quantity, part: held, text }) =>
    `  ${id}: {where: ${quoted(where)}, part: ${held}, ${quantity}: ${text}}`;
  const couplings = lead.network.couplings.map(
    ({ first, second, k }, i) => `  core-${i + 1}: {parts: [${first}, ${second}], k: ${k}}`,
  );
  const limits = lead.network.limits
    .filter(({ part: held }) => lead.parts.includes(held))
    .map((one) =>
      limit({
        ...one,
        text:
          one.settled === null ? "unknown" : quoted(`${one.settled} ${one.quantity === "volts" ? "V" : "W"}`),
      }),
    );
  return [
    "parts:",
    ...own.map(part),
    ...(couplings.length ? ["couplings:", ...couplings] : []),
    ...(limits.length ? ["limits:", ...limits] : []),
  ];
}
