"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.matrix = Ringfence.matrix || {};

/* Holds the state of the matrix: the filters and whether there is room for a table. */
(function (matrix, ui) {
  const roomy = window.matchMedia("(min-width: 600px)");

  function start() {
    const root = document.getElementById("rf-matrix");
    const status = document.getElementById("rf-status");
    if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
    if (ui.mixed()) {
      root.replaceChildren(ui.el("p", { class: "rf-standing__loud", role: "alert" }, "This page was put together from two versions of the site, so it shows no verdicts. Load it again."));
      return;
    }
    if (ui.ownAwaited(location.hash)) return void ui.withOwn().then(start); // the kit may hold devices of one's own
    if (Ringfence.page && Ringfence.page.standing) root.before(Ringfence.page.standing());
    let grid = null, shown = null;
    const place = ui.el("div", {});
    const whole = ui.button({ class: "rf-toggle", role: "switch", "aria-checked": "false", onclick: () => { overview(whole.getAttribute("aria-checked") !== "true"); } },
      ui.el("span", { class: "rf-toggle__knob", "aria-hidden": "true" }), "The whole picture on one screen");
    const count = ui.el("p", { class: "rf-matrix__count" });
    let turn = 0;
    const filter = async (wanted) => {
      const mine = ++turn, tell = (words) => { if (mine === turn) count.textContent = words; };
      const all = matrix.hasOwn(wanted.bag) ? await matrix.withOwn(grid, wanted.bag, tell) : grid;
      if (mine !== turn) return;
      shown = matrix.filtered(all || grid, wanted);
      render();
      if (!all) count.textContent += ". Your own devices are left out: their scripts did not load.";
    };
    ui.slices([ // the page answers to a thumb in between
      () => ui.outlets(), // at its first mention the catalogue is unpacked
      () => { grid = shown = matrix.grid(); },
      () => root.replaceChildren(matrix.filters(grid, roomy.matches, filter), count, whole, place),
      () => { roomy.addEventListener("change", render); render(); },
    ], (work) => work(), () => null);

    function render() {
      const view = whole.getAttribute("aria-checked") === "true" ? matrix.overview : roomy.matches ? matrix.table : matrix.list;
      count.textContent = `${ui.count(shown.outlets.length, "outlet", "outlets")}, ${ui.count(shown.inlets.length, "inlet", "inlets")}`;
      status.textContent = `Showing ${count.textContent}`;
      place.replaceChildren(shown.outlets.length ? view(shown, open, (words) => { status.textContent = words; }) : ui.el("p", {}, "Nothing passes these filters."));
    }

    function overview(on) {
      whole.setAttribute("aria-checked", String(on));
      render();
      if (on) whole.scrollIntoView({ block: "start" });
    }

    function open(outlet, inlet, cell) {
      const dialog = matrix.pair(outlet, inlet, cell, root.dataset.root, () => dialog.remove());
      document.body.append(dialog);
      dialog.showModal();
    }
  }

  document.addEventListener("DOMContentLoaded", start);
})(Ringfence.matrix, Ringfence.ui);
