globalThis.Ringfence = globalThis.Ringfence || {};

/* How a lead is made, as data: what to solder to every contact, strip lengths, the order of work, what it must read. The twin of solder.py and
   sheets.py, as far as a lead of the bench goes. */

import { onBench } from "./bench.js";
import { resistances } from "./ohms.js";
import { shows } from "./words.js";

const KINDS = {
  resistor: "resistor",
  capacitor: "capacitor",
  inductor: "winding",
  clamp: "regulator diode",
  emf: "supply",
};

/* {solder: [{end, label, contacts: [{contact, solder}]}], strip, steps, says, test}. */
export function sheet(lead, contacts, tables) {
  const { making } = tables,
    inside = lead.network.parts.filter(({ id }) => lead.parts.includes(id));
  const ends = Object.values(lead.ends);
  return {
    solder: ends.map(({ id, label, connector }) => ({
      end: id,
      label,
      contacts: contacts[connector].map((contact) => {
        const found = soldered(lead, inside, `${id}.${contact}`);
        return { contact, solder: found.length ? found : ["nothing"] };
      }),
    })),
    strip: lead.cable
      ? ends.map(({ id, connector }) => ({ end: id, ...(making.strip[connector] || making.strip.default) }))
      : [],
    steps: lead.cable
      ? [...making.steps.do, ...(inside.some(bought) ? making.parts.do : [])]
      : [
          ...making.parts.do.slice(0, 2),
          ...making.steps.do.slice(6, 9),
          making.parts.do[2],
          ...making.steps.do.slice(-2),
        ],
    says: [
      ends.some(({ connector }) => tables.shelled.includes(connector)) ? making.shell.says : null,
      lead.cable ? making.colours.says : null,
      `Sleeves reach ${making.sleeve.overlap} over the wire's insulation, or two of its diameters where that is more.`,
    ].filter(Boolean),
    test: test(lead, contacts, tables),
  };
}

const bought = ({ kind, coil }) => !(kind === "resistor" && coil);

/* What is soldered to a contact, in words. */
function soldered(lead, inside, node) {
  const joins = lead.joins
    .filter(({ nodes }) => nodes.includes(node))
    .map(({ id, nodes, screen }) => {
      const others = nodes.filter((other) => other !== node && other.includes("."));
      const kind = screen ? "screen" : lead.cable ? `core ${id}` : `wire ${id}`;
      return others.length
        ? `${kind}, to ${others.join(", ")}`
        : lead.cable
          ? `${kind}, cut off at the far end`
          : kind;
    });
  return [
    ...joins,
    ...inside
      .filter(({ a, b }) => a === node || b === node)
      .map(({ id, kind, a, b }) => `${KINDS[kind]} ${id}, to ${a === node ? b : a}`),
  ];
}

/* A part of its own that is large enough to be seen charging, and what a meter charges it through for a moment. */
const CHIRP = 1e-6,
  BEEP = 100,
  SMALL = { nominal: 1, low: 1, high: 1, unit: "ohm", text: "1 ohm" },
  CLIMBS = "climbs, ends with no reading: a capacitor";
const large = ({ made }, { id, kind, value }) =>
  kind === "capacitor" && made.has(id) && value.nominal >= CHIRP;

/* Every pair that shows something on a good lead, [words, what it shows]; all others show nothing. */
function test(lead, contacts, tables) {
  const specimen = onBench(lead, contacts, tables),
    names = [...specimen.terminals.keys()],
    [low, high] = resistances(specimen, tables);
  const [charged] = resistances(
    {
      ...specimen,
      parts: specimen.parts.map((part) =>
        large(specimen, part) ? { ...part, kind: "resistor", value: SMALL } : part,
      ),
    },
    tables,
  );
  return names.flatMap((one, i) =>
    names.slice(i + 1).flatMap((other, j) => {
      const k = i + 1 + j;
      if (low[i][k] === Infinity) return charged[i][k] > BEEP ? [] : [[`${one} to ${other}`, CLIMBS]];
      return [[`${one} to ${other}`, shows({ low: low[i][k], high: high[i][k], moves: false }, tables)]];
    }),
  );
}
