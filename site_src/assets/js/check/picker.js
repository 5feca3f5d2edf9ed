"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* A searchable list of what fits at one step, and on request of what does not and why. */
(function (check, ui) {
  const { el, button } = ui;
  const QUESTIONS = {
    from: "What do you plug from?",
    through: "Which lead or adapter?",
    into: "What do you plug into?",
  };
  const HIDDEN = { from: "listen only", through: "leads that do not fit", into: "that do not fit" };

  /* `choices` is {fit, not}; `hint(entry)` may give a verdict to show; `first` is an extra button before the list;
     `back`, where there is an answer to go back to, returns to it unchanged. Other pages ask their own `question` and say what is `hidden`. */
  check.picker = function (step, choices, { hint, first, back, onchoose, question = QUESTIONS[step], backTo = "Back to the answer", hidden: unfit = HIDDEN[step] }) {
    let typed = "";
    let family = "";
    const list = el("div", { class: "rf-picker__list" });
    const rest = el("div", { class: "rf-picker__rest" });
    const field = el("input", {
      type: "search", id: "rf-search", class: "rf-picker__search", autocomplete: "off", enterkeyhint: "search",
      placeholder: "Name, device or connector", oninput: () => { typed = field.value.trim(); show(); },
    });
    const heading = el("h2", { class: "rf-picker__title", tabindex: "-1" }, question);
    show();
    return el("section", { class: "rf-picker", "data-step": step, "aria-label": question },
      heading, back ? button({ class: "rf-picker__back", onclick: back }, backTo) : null,
      el("label", { class: "rf-hidden", for: "rf-search" }, "Search this list"), field,
      families(), first || null, list, rest);

    function families() {
      const places = choices.fit.flatMap((entry) => (entry.ends ? Object.values(entry.ends) : [entry]));
      const names = [...new Set(places.map(ui.family))].sort();
      if (names.length < 2 || choices.fit.length < 8) return null;
      const chips = names.map((name) =>
        button({ class: "rf-chip", "aria-pressed": "false", onclick: (event) => pick(event.currentTarget, name) }, name));
      return el("div", { class: "rf-chips", role: "group", "aria-label": "Only this connector" }, chips);
    }

    function pick(chip, name) {
      family = family === name ? "" : name;
      chip.parentNode.querySelectorAll("button").forEach((other) =>
        other.setAttribute("aria-pressed", String(other === chip && family === name)));
      show();
    }

    function shown(entry) {
      const places = entry.ends ? Object.values(entry.ends) : [entry];
      return (!family || places.some((place) => ui.family(place) === family)) && (!typed || ui.matches(entry, typed));
    }

    function show() {
      const fitting = choices.fit.filter(shown);
      list.replaceChildren(...grouped(fitting), fitting.length ? "" : el("p", { class: "rf-picker__none" }, "Nothing that fits is called that."));
      const not = choices.not.filter(({ entry }) => shown(entry));
      rest.replaceChildren(not.length ? hidden(not) : "");
    }

    function grouped(entries) {
      const groups = new Map();
      for (const entry of entries) {
        const name = ui.capital(entry.device || `${entry.form}s`);
        groups.set(name, [...(groups.get(name) || []), entry]);
      }
      return [...groups].sort(([a], [b]) => a.localeCompare(b)).map(([name, members]) =>
        el("section", { class: "rf-picker__group" }, el("h3", {}, name),
          el("ul", {}, members.sort(byHint).map((entry) => el("li", {}, row(entry))))));
    }

    function byHint(a, b) {
      const [one, two] = [a, b].map((entry) => (hint(entry) ? ui.rank(hint(entry)) : 9));
      return one - two || a.name.localeCompare(b.name);
    }

    function row(entry) {
      const verdict = hint(entry);
      return button({ class: "rf-option", "data-id": entry.id, onclick: () => onchoose(entry.id) },
        el("span", { class: "rf-option__name" }, entry.name),
        el("span", { class: "rf-option__more" }, entry.ends ? ui.ends(entry) : ui.half(entry)),
        verdict ? ui.verdict(verdict) : null);
    }

    function hidden(not) {
      const body = el("ul", {});
      return el("details", { class: "rf-why", ontoggle: fill },
        el("summary", {}, `${not.length} hidden: ${unfit}. Show why`), body);
      function fill() {
        if (body.childElementCount) return;
        body.append(...not.map(({ entry, why }) => el("li", {}, el("strong", {}, entry.name), el("span", {}, why))));
      }
    }
  };
})(Ringfence.check, Ringfence.ui);
