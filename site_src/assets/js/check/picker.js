"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* A searchable list of what fits at one step, and on request of what does not and why. */
(function (check, ui) {
  const { el, button } = ui;
  const places = (entry) => (entry.ends ? Object.values(entry.ends) : [entry]);
  const QUESTIONS = {
    from: "What do you plug from?",
    through: "Which lead or adapter?",
    into: "What do you plug into?",
  };
  const FORMS = ["cable", "adapter", "converter", "splitter"]; // as common as they are in a bag
  const HIDDEN = { from: "listen only", through: "leads that do not fit", into: "that do not fit" };

  /* `choices` is {fit, not}; `hint(entry)` may give {verdict, offered, offer} to show; `beside` is what the choice will be plugged into; `first` is an extra button before the list;
     `last` is the id chosen last time; `back`, where there is an answer to go back to, returns to it unchanged. Other pages ask their own `question` and say what is `hidden`. */
  check.picker = function (step, choices, { hint, beside = [], first, last, back, onchoose, question = QUESTIONS[step], backTo = "Back to the answer", hidden: unfit = HIDDEN[step] }) {
    let typed = "";
    const only = { device: "", family: "" };
    const list = el("div", { class: "rf-picker__list" });
    const rest = el("div", { class: "rf-picker__rest" }), count = el("p", { class: "rf-hidden", role: "status" });
    const field = el("input", {
      type: "search", id: "rf-search", class: "rf-picker__search", autocomplete: "off", enterkeyhint: "search",
      placeholder: "Name, device or connector", oninput: () => { typed = field.value.trim(); show(); },
    });
    const heading = el("h2", { class: "rf-picker__title", tabindex: "-1" }, question);
    show();
    return el("section", { class: "rf-picker", "data-step": step, "aria-label": question },
      heading, back ? button({ class: "rf-picker__back", onclick: back }, backTo) : null,
      el("label", { class: "rf-hidden", for: "rf-search" }, "Search this list"), field, ui.byPicture(),
      el("div", { class: "rf-picker__chips" }, chips("device", "Only this kind of device", (entry) => (QUESTIONS[step] && entry.device ? [entry.device] : [])),
        chips("family", "Only this connector", (entry) => places(entry).map(ui.family))), first || null, count, list, rest);

    function chips(kind, label, words) {
      return check.chips(choices.fit, label, words, (word) => { only[kind] = word; show(); });
    }

    function shown(entry) {
      return (!only.family || places(entry).some((place) => ui.family(place) === only.family)) && (!only.device || entry.device === only.device) && (!typed || ui.matches(entry, typed));
    }

    function show() {
      const fitting = choices.fit.filter(shown);
      const not = choices.not.filter(({ entry }) => shown(entry)), none = not.length ? "Nothing that fits is called that. Below is what does not fit." : "Nothing here is called that. Try another word, or fewer.";
      rest.replaceChildren();
      ui.grow(list, (body) => grouped(body, fitting), () => {
        if (!fitting.length) list.append(el("p", { class: "rf-picker__none" }, none));
        rest.replaceChildren(not.length ? hidden(not, !fitting.length) : "");
      });
      count.textContent = typed || only.device || only.family ? `${fitting.length} of ${choices.fit.length} shown` : "";
    }

    /* Under what was chosen last time: devices by how many there are, leads by how common their form is. */
    function* grouped(body, entries) {
      const groups = new Map();
      for (const entry of entries) {
        const name = entry.id === last ? "Last time" : ui.capital(entry.device || `${entry.form}s`);
        groups.set(name, [...(groups.get(name) || []), entry]);
      }
      const place = ([name, [{ form }, ...more]]) => (name === "Last time" ? -1000 : form ? FORMS.indexOf(form) : -more.length);
      for (const [name, members] of [...groups].sort((a, b) => place(a) - place(b) || ui.inOrder(a[0], b[0]))) {
        const rows = el("ul");
        body.append(el("section", { class: "rf-picker__group" }, el("h3", {}, name), rows));
        for (const entry of members.sort(byHint)) yield rows.append(el("li", {}, row(entry)));
      }
    }

    function byHint(a, b) {
      const [one, two] = [a, b].map((entry) => (hint(entry) ? ui.worth(hint(entry)) : 9)), effort = (entry) => (entry.form ? ui.effort({ through: [entry.id] }) : 0);
      const mixed = (entry) => new Set([...places(entry), ...beside].map(({ connector }) => connector)).size; // the plain lead before what turns one connector into another
      return one - two || mixed(a) - mixed(b) || effort(a) - effort(b) || ui.inOrder(a.name, b.name);
    }

    function row(entry) {
      const way = hint(entry);
      return button({ class: "rf-option rf-option--drawn", "data-id": entry.id, onclick: () => onchoose(entry.id) }, ui.sides(entry), entry.device && entry.halves === undefined && !entry.ends ? check.glyphs(entry) : null,
        el("span", { class: "rf-option__name" }, entry.name),
        el("span", { class: "rf-option__more" }, entry.ends ? ui.ends(entry) : ui.half(entry)),
        way && way.offer ? el("span", { class: "rf-option__more rf-option__order" }, way.offer) : null,
        way ? ui.verdict(way.verdict) : null);
    }

    function hidden(not, open) {
      const body = el("ul", {});
      return el("details", { class: "rf-why", open, ontoggle: fill },
        el("summary", {}, `${not.length} hidden: ${unfit}. Show why`), body);
      function fill() {
        if (body.childElementCount) return;
        body.append(...not.map(({ entry, why }) => el("li", {}, el("strong", {}, entry.name), el("span", {}, why))));
      }
    }
  };
})(Ringfence.check, Ringfence.ui);
