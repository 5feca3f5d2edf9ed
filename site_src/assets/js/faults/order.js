globalThis.Ringfence = globalThis.Ringfence || {};

/* A lead for a shop or a maker, as text that leaves nothing to guess: the twin of ordering_sheet in sheets.py. */

/* `made` is the lead's sheet; `words` are {name, connectors: id -> name, cable: "3 m of ..." in words or "", parts: lines}. */
export function order(lead, made, tables, { name, connectors, cable, parts }) {
  const ends = Object.values(lead.ends),
    screens = lead.joins.filter(({ screen }) => screen).map(({ id }) => id);
  return [
    `Please make: ${name}`,
    ...ends.map(
      ({ id, connector, half, label }) => `End ${id}: ${connectors[connector]}, ${half} (${label})`,
    ),
    cable ? `Cable: ${cable}` : "No cable: an adapter in one housing",
    screens.length
      ? `Screen: ${screens.join(", ")}, joined as in the table and nowhere else`
      : "Screen: none",
    "Every contact:",
    ...made.solder.flatMap(({ end, contacts }) =>
      contacts.map(({ contact, solder }) => `  ${end}.${contact}: ${solder.join("; ")}`),
    ),
    ...(parts.length ? ["Parts inside:", ...parts.map((line) => `  ${line}`)] : []),
    ...(ends.some(({ connector }) => tables.shelled.includes(connector))
      ? [`Shell: ${tables.making.shell.says}`]
      : []),
    "It must pass, both ends unplugged, flexed at both plugs:",
    ...made.test.map(([pair, shows]) => `  ${pair}: ${shows}`),
    `  every other pair: ${tables.says.none}`,
  ].join("\n");
}
