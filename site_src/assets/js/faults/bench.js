"use strict";
globalThis.Ringfence = globalThis.Ringfence || {};
Ringfence.faults = Ringfence.faults || {};

/* A lead on the bench: unplugged, a soldered joint at every contact, so that faults have a place. The twin of specimen.py. `tables` are what
   carried.py publishes, `lead` a record like those of the catalogue, `contacts` connector -> its contacts. */
(function (faults) {
  faults.SHELL = "body";
  faults.endOf = (terminal) => terminal.slice(0, terminal.indexOf("."));
  faults.contactOf = (terminal) => terminal.slice(terminal.indexOf(".") + 1);
  faults.jointOf = (terminal) => `joint.${terminal}`;

  /* {lead, terminals: Map terminal -> node, ends: Map end -> [terminal], parts, made: Set}. */
  faults.onBench = function (lead, contacts, tables) {
    const terminals = new Map(), ends = new Map();
    for (const { id, connector } of Object.values(lead.ends)) {
      const shell = tables.shelled.includes(connector) && !contacts[connector].includes(faults.SHELL) ? [faults.SHELL] : [];
      ends.set(id, [...contacts[connector], ...shell].map((contact) => `${id}.${contact}`));
      for (const terminal of ends.get(id)) terminals.set(terminal, `solder-${id}-${faults.contactOf(terminal)}`);
    }
    const moved = (node) => terminals.get(node) || node;
    const parts = lead.network.parts.filter(({ kind }) => kind !== "emf").map((part) => ({ ...part, a: moved(part.a), b: moved(part.b) }));
    const joints = [...terminals].map(([terminal, node]) => ({ id: faults.jointOf(terminal), kind: "wire", a: terminal, b: node, value: null, coil: null, series: null }));
    return { lead, terminals, ends, parts: [...parts, ...joints], made: new Set(lead.parts) };
  };

  /* Terminals that anything is soldered to. */
  faults.wired = function ({ parts, terminals }) {
    const used = new Set(parts.filter(({ id }) => !id.startsWith("joint.")).flatMap(({ a, b }) => [a, b]));
    return [...terminals].filter(([, node]) => used.has(node)).map(([terminal]) => terminal);
  };

  /* Terminal -> the first terminal a wire joins it to. */
  faults.conductors = function (specimen, tables) {
    const [, high] = faults.resistances(specimen, tables), names = [...specimen.terminals.keys()];
    return new Map(names.map((terminal, i) => [terminal, names[high[i].findIndex((ohm) => ohm < tables.wire)]]));
  };
})(Ringfence.faults);
