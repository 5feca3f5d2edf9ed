"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.matrix = Ringfence.matrix || {};

/* The matrix as data: for each outlet and inlet the rows of the table, and which of them a filter leaves. */
(function (matrix, ui) {
  /* {outlets, inlets, cell(outlet, inlet)}: ports with at least one judged connection; a cell is {rows, best, danger} or null. */
  matrix.grid = function () {
    const cells = new Map();
    for (const [key, rows] of ui.pairs()) {
      cells.set(key, { rows, best: rows[0].verdict, danger: rows.some((row) => row.verdict === "dangerous") });
    }
    const ids = (place) => new Set([...cells.keys()].map((key) => key.split(" ")[place]));
    const [starts, ends] = [ids(0), ids(1)];
    const { compare } = new Intl.Collator(), byPlace = (a, b) => compare(a.device, b.device) || compare(a.name, b.name);
    return {
      outlets: ui.outlets().filter((port) => starts.has(port.id)).sort(byPlace),
      inlets: ui.inlets().filter((port) => ends.has(port.id)).sort(byPlace),
      cell: (outlet, inlet) => cells.get(`${outlet} ${inlet}`) || null,
    };
  };

  /* What the filters leave: {outlets, inlets, cell}. Text, device and connector look at the side they are asked for. */
  matrix.filtered = function (grid, wanted) {
    const cell = (outlet, inlet) => {
      const found = grid.cell(outlet, inlet);
      return found && (!wanted.verdict || found.best === wanted.verdict) ? found : null;
    };
    let outlets = grid.outlets.filter((port) => passes(port, wanted.from));
    let inlets = grid.inlets.filter((port) => passes(port, wanted.into));
    outlets = outlets.filter((outlet) => inlets.some((inlet) => cell(outlet.id, inlet.id)));
    inlets = inlets.filter((inlet) => outlets.some((outlet) => cell(outlet.id, inlet.id)));
    return { outlets, inlets, cell };
  };

  function passes(port, { text, device, connector }) {
    return (!device || port.device === device) && (!connector || port.connector === connector) && (!text || ui.matches(port, text));
  }
})(Ringfence.matrix, Ringfence.ui);
