"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.cards = Ringfence.cards || {};

/* Choosing: the paper, what is printed, and the list to tick from. */
(function (cards, ui) {
  const { el, button } = ui;
  const SHOWN = 40;
  const WORDS = { connectors: "Connectors", leads: "Leads", ports: "Devices" };
  const PAPERS = { a6: ["A6", "one card to a sheet"], a4: ["A4", "four cards, with marks to cut by"] };

  cards.entry = (kind, id) => Ringfence.data[kind][id];

  cards.papers = (chosen, on) => el("fieldset", { class: "rf-papers" }, el("legend", {}, "Paper"), Object.entries(PAPERS).map(([paper, [name, more]]) =>
    el("label", { class: "rf-papers__one" }, el("input", { type: "radio", name: "paper", value: paper, checked: chosen.paper === paper, "data-key": `paper ${paper}`, onchange: () => on.paper(paper) }),
      el("span", {}, el("strong", {}, name), el("small", {}, more)))));

  /* What is chosen, each one tap from being taken out. */
  cards.chosen = function (chosen, on) {
    const items = cards.KINDS.flatMap((kind) => chosen[kind].map((id) => [kind, id]));
    return items.length ? el("ul", { class: "rf-taken", "aria-label": "Chosen" }, items.map(([kind, id]) => el("li", {},
      button({ class: "rf-chip", "aria-label": `Take out: ${cards.entry(kind, id).name}`, onclick: () => on.tick(kind, id, false) }, cards.entry(kind, id).name, el("span", { "aria-hidden": "true" }, " ×"))))) : null;
  };

  /* Leads of the bag, devices of one's own in it, and the connectors of the others, that are not chosen yet, {connectors, leads, ports}; null when there are none. */
  cards.bagged = function (chosen) {
    const { leads, ports } = ui.bag();
    const own = ports.filter((id) => ui.port(id).mine), found = { leads, ports: own, connectors: [...new Set(ports.filter((id) => !own.includes(id)).map((id) => ui.port(id).connector))] };
    const more = Object.fromEntries(cards.KINDS.map((kind) => [kind, found[kind].filter((id) => !chosen[kind].includes(id))]));
    return Object.values(more).flat().length ? more : null;
  };

  /* `view` holds what is typed and which kind is shown. */
  cards.list = function (chosen, view, on) {
    const list = el("div", {});
    const field = el("input", { type: "search", class: "rf-picker__search", autocomplete: "off", enterkeyhint: "search", "data-key": "cards search", value: view.typed,
      "aria-label": "Search this list", placeholder: "Name or connector", oninput: () => { view.typed = field.value.trim(); show(); } });
    show();
    const kinds = el("div", { class: "rf-chips", role: "group", "aria-label": "Show" }, cards.KINDS.map((kind) =>
      button({ class: "rf-chip", "data-key": `kind ${kind}`, "aria-pressed": String(view.kind === kind), onclick: () => on.kind(kind) }, `${WORDS[kind]}: ${chosen[kind].length}`)));
    const bag = cards.bagged(chosen);
    return el("section", { class: "rf-cards__list", "aria-label": "Choose" }, kinds,
      bag ? button({ class: "rf-button rf-button--quiet", "data-key": "bag", onclick: () => on.add(bag) }, "Add what is in my kit") : null, field, ui.byPicture(), list);

    function show() {
      const found = Object.values(Ringfence.data[view.kind]).filter((entry) => ui.matches(entry, view.typed)).sort((a, b) => ui.inOrder(a.name, b.name));
      list.replaceChildren(el("ul", {}, found.slice(0, SHOWN).map((entry) => el("li", {}, tick(entry)))),
        found.length > SHOWN ? el("p", { class: "rf-picker__none" }, `${found.length - SHOWN} more. Type a part of the name.`) : "",
        found.length ? "" : el("p", { class: "rf-picker__none" }, "Nothing is called that."));
    }

    function tick(entry) {
      return el("label", { class: "rf-tick rf-tick--drawn" }, el("input", { type: "checkbox", "data-id": entry.id, checked: chosen[view.kind].includes(entry.id), "data-key": `tick ${entry.id}`,
        onchange: (event) => on.tick(view.kind, entry.id, event.target.checked) }),
      ui.sides(entry), el("span", { class: "rf-option__name" }, entry.name), el("span", { class: "rf-option__more" }, entry.ends ? ui.ends(entry) : entry.recognise || ui.half(entry)));
    }
  };
})(Ringfence.cards, Ringfence.ui);
