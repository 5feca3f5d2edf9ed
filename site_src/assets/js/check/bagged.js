"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The check with only the leads somebody carries: a switch, off until it is asked for, and only where there is a bag. */
(function (check, ui) {
  check.carried = (id) => !ui.bagOnly() || ui.bag().leads.includes(id);

  /* Choices of the Through step, with the leads left at home among those that are hidden. */
  check.bagged = function ({ fit, not }) {
    if (!ui.bagOnly()) return { fit, not };
    const home = fit.filter(({ id }) => !check.carried(id)).map((entry) => ({ entry, why: "Not in your kit." }));
    return { fit: fit.filter(({ id }) => check.carried(id)), not: [...home, ...not] };
  };

  /* The devices of somebody's kit, before all others; null where the kit has none that fit. */
  check.kitFirst = function ({ fit }, choose) {
    const mine = new Set(ui.bag().ports), found = fit.filter(({ id }) => mine.has(id));
    return found.length ? [ui.el("section", { class: "rf-picker__group rf-picker__group--first", "data-kit": "" }, ui.el("h3", {}, "My kit"),
      ui.el("ul", {}, found.map((port) => ui.el("li", {}, ui.button({ class: "rf-option", "data-key": `kit ${port.id}`, onclick: () => choose(port.id) }, ui.sides(port), ui.el("span", { class: "rf-option__name" }, port.name))))))] : null;
  };

  /* On the first page: what an update made worse between things of somebody's kit, above the question until it is read. Asked for only where this
     edition's data were not looked at yet, so that everybody else loads nothing more. */
  check.news = async function (root) {
    const edition = document.querySelector("meta[name=edition]"), seen = ui.kitSeen();
    if (!ui.bag().ports.length || !seen || !edition || seen.edition === edition.content) return;
    for (const name of ["circuits", "engine", "table", "ways", "kit"]) if (!await ui.later(name)) return;
    const news = Ringfence.kit.news(ui.bag(), root.dataset.root, () => news.remove());
    if (news) root.before(news);
  };

  /* The switch, or null when the bag has no leads; `onchange` shows the page anew. */
  check.bagSwitch = function (onchange) {
    if (!ui.bag().leads.length) return null;
    const on = ui.bagOnly();
    return ui.button({ class: "rf-toggle", role: "switch", "aria-checked": String(on), "data-key": "bag only",
      onclick: () => { ui.setBagOnly(!on); onchange(); } }, ui.el("span", { class: "rf-toggle__knob", "aria-hidden": "true" }), "Only what is in my kit");
  };
})(Ringfence.check, Ringfence.ui);
