globalThis.Ringfence = globalThis.Ringfence || {};

/* A lead on the bench: unplugged, a soldered joint at every contact, so that faults have a place. The twin of specimen.py. `tables` are what
   carried.py publishes, `lead` a record like those of the catalogue, `contacts` connector -> its contacts. */

import { resistances } from "./ohms.js";

export const SHELL = "body";
export const endOf = (terminal) => terminal.slice(0, terminal.indexOf("."));
export const contactOf = (terminal) => terminal.slice(terminal.indexOf(".") + 1);
export const jointOf = (terminal) => `joint.${terminal}`;

/* {lead, terminals: Map terminal -> node, ends: Map end -> [terminal], parts, made: Set}. */
export function onBench(lead, contacts, tables) {
  const terminals = new Map(),
    ends = new Map(),
    lit = new Set(); // contacts that pass light: no probe goes there
  for (const { id, connector } of Object.values(lead.ends)) {
    const shell = tables.shelled.includes(connector) && !contacts[connector].includes(SHELL) ? [SHELL] : [];
    for (const contact of tables.light[connector] || []) lit.add(`${id}.${contact}`);
    ends.set(
      id,
      [...contacts[connector], ...shell]
        .map((contact) => `${id}.${contact}`)
        .filter((terminal) => !lit.has(terminal)),
    );
    for (const terminal of ends.get(id)) terminals.set(terminal, `solder-${id}-${contactOf(terminal)}`);
  }
  const moved = (node) => terminals.get(node) || node;
  const parts = lead.network.parts
    .filter(({ kind, a, b }) => kind !== "emf" && !lit.has(a) && !lit.has(b))
    .map((part) => ({ ...part, a: moved(part.a), b: moved(part.b) }));
  const joints = [...terminals].map(([terminal, node]) => ({
    id: jointOf(terminal),
    kind: "wire",
    a: terminal,
    b: node,
    value: null,
    coil: null,
    series: null,
  }));
  return { lead, terminals, ends, parts: [...parts, ...joints], made: new Set(lead.parts) };
}

/* Terminals that anything is soldered to. */
export function wired({ parts, terminals }) {
  const used = new Set(parts.filter(({ id }) => !id.startsWith("joint.")).flatMap(({ a, b }) => [a, b]));
  return [...terminals].filter(([, node]) => used.has(node)).map(([terminal]) => terminal);
}

/* Terminal -> the first terminal a wire joins it to. */
export function conductors(specimen, tables) {
  const [, high] = resistances(specimen, tables),
    names = [...specimen.terminals.keys()];
  return new Map(
    names.map((terminal, i) => [terminal, names[high[i].findIndex((ohm) => ohm < tables.wire)]]),
  );
}
