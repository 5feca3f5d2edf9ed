/* The matrix as data: for each outlet and inlet the rows of the table, and which of them a filter leaves. */

import { inlets, matches, outlets } from "../ui/catalogue.js";
import { joined as joinedOf, pair } from "../ui/table.js";
import { inOrder } from "../ui/words.js";

/* {outlets, inlets, cell(outlet, inlet)}: ports with at least one judged connection; a cell is {rows, best, danger} or null. */
export function grid() {
  const byPlace = (a, b) => inOrder(a.device, b.device) || inOrder(a.name, b.name);
  const joined = joinedOf(),
    these = (ports, has) => ports.filter(({ id }) => has.has(id)).sort(byPlace);
  return { outlets: these(outlets(), joined.outlets), inlets: these(inlets(), joined.inlets), cell: pair };
}

/* `own` is how the best way says that it rests on somebody's own numbers. */
export function cellOf(rows) {
  const best = rows.find(({ offered }) => !offered) || rows[0];
  return {
    rows,
    best: best.verdict,
    own: best.own || "",
    danger: rows.some((row) => row.verdict === "dangerous"),
  };
}

/* What the filters leave: {outlets, inlets, cell}. Text, device, connector and kind look at the side they are asked for. `wanted.bag` is
   {leads, ports}, each a list of ids or null where anything will do; a way without a lead needs none. */
export function filtered(grid, wanted) {
  const { leads, ports } = wanted.bag || { leads: null, ports: null };
  const kept = new Map();
  const cell = (outlet, inlet) => {
    const found = carried(outlet, inlet);
    return found && (!wanted.verdict || found.best === wanted.verdict) ? found : null;
  };
  let outlets = grid.outlets.filter(
    (port) => passes(port, wanted.from, port.sources) && (!ports || ports.includes(port.id)),
  );
  let inlets = grid.inlets.filter(
    (port) => passes(port, wanted.into, port.listeners) && (!ports || ports.includes(port.id)),
  );
  outlets = outlets.filter((outlet) => inlets.some((inlet) => cell(outlet.id, inlet.id)));
  inlets = inlets.filter((inlet) => outlets.some((outlet) => cell(outlet.id, inlet.id)));
  return { outlets, inlets, cell };

  /* The cell with only the leads of the bag, worked out once. */
  function carried(outlet, inlet) {
    const whole = grid.cell(outlet, inlet),
      key = `${outlet} ${inlet}`;
    if (!whole || !leads) return whole;
    if (!kept.has(key)) {
      const rows = whole.rows.filter(({ through }) => through.every((id) => leads.includes(id)));
      kept.set(key, rows.length ? cellOf(rows) : null);
    }
    return kept.get(key);
  }
}

/* `channels` are the sources of an outlet, the listeners of an inlet. */
function passes(port, { text, device, connector, kind }, channels) {
  return (
    (!device || port.device === device) &&
    (!connector || port.connector === connector) &&
    (!text || matches(port, text)) &&
    (!kind || channels.some((channel) => channel.kind === kind))
  );
}
