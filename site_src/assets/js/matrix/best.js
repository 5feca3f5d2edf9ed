"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.matrix = Ringfence.matrix || {};

/* The matrix as data: for each outlet and inlet the rows of the table, and which of them a filter leaves. */
(function (matrix, ui) {
  /* {outlets, inlets, cell(outlet, inlet)}: ports with at least one judged connection; a cell is {rows, best, danger} or null. */
  matrix.grid = function () {
    const byPlace = (a, b) => ui.inOrder(a.device, b.device) || ui.inOrder(a.name, b.name);
    const joined = ui.joined(), these = (ports, has) => ports.filter(({ id }) => has.has(id)).sort(byPlace);
    return { outlets: these(ui.outlets(), joined.outlets), inlets: these(ui.inlets(), joined.inlets), cell: ui.pair };
  };

  /* `own` is how the best way says that it rests on somebody's own numbers. */
  matrix.cellOf = function (rows) {
    const best = rows.find(({ offered }) => !offered) || rows[0];
    return { rows, best: best.verdict, own: best.own || "", danger: rows.some((row) => row.verdict === "dangerous") };
  };

  /* What the filters leave: {outlets, inlets, cell}. Text, device, connector and kind look at the side they are asked for. `wanted.bag` is
     {leads, ports}, each a list of ids or null where anything will do; a way without a lead needs none. */
  matrix.filtered = function (grid, wanted) {
    const { leads, ports } = wanted.bag || { leads: null, ports: null };
    const kept = new Map();
    const cell = (outlet, inlet) => {
      const found = carried(outlet, inlet);
      return found && (!wanted.verdict || found.best === wanted.verdict) ? found : null;
    };
    let outlets = grid.outlets.filter((port) => passes(port, wanted.from, port.sources) && (!ports || ports.includes(port.id)));
    let inlets = grid.inlets.filter((port) => passes(port, wanted.into, port.listeners) && (!ports || ports.includes(port.id)));
    outlets = outlets.filter((outlet) => inlets.some((inlet) => cell(outlet.id, inlet.id)));
    inlets = inlets.filter((inlet) => outlets.some((outlet) => cell(outlet.id, inlet.id)));
    return { outlets, inlets, cell };

    /* The cell with only the leads of the bag, worked out once. */
    function carried(outlet, inlet) {
      const whole = grid.cell(outlet, inlet), key = `${outlet} ${inlet}`;
      if (!whole || !leads) return whole;
      if (!kept.has(key)) {
        const rows = whole.rows.filter(({ through }) => through.every((id) => leads.includes(id)));
        kept.set(key, rows.length ? matrix.cellOf(rows) : null);
      }
      return kept.get(key);
    }
  };

  /* `channels` are the sources of an outlet, the listeners of an inlet. */
  function passes(port, { text, device, connector, kind }, channels) {
    return (!device || port.device === device) && (!connector || port.connector === connector) && (!text || ui.matches(port, text))
      && (!kind || channels.some((channel) => channel.kind === kind));
  }
})(Ringfence.matrix, Ringfence.ui);
