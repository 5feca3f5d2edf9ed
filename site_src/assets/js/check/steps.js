"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The three steps, From, Through and Into: a bar while choosing, a path once everything is chosen. */
(function (check, ui) {
  const { el, button } = ui;

  /* `on` holds what the buttons do: open(step, index), remove(index), add(). */
  check.steps = function (state, open, on) {
    const complete = state.from && state.through && state.into && !open;
    return el("nav", { class: `rf-steps rf-steps--${complete ? "path" : "bar"}`, "aria-label": "Your connection" },
      el("ol", {},
        step("from", "From", state.from ? [ui.port(state.from)] : [], true),
        through(),
        step("into", "Into", state.into ? [ui.port(state.into)] : [], Boolean(state.from && state.through))));

    function step(name, label, chosen, reachable) {
      return el("li", { class: `rf-step rf-step--${name}`, "data-chosen": String(chosen.length > 0) },
        opener(name, label, chosen[0], reachable, 0));
    }

    function opener(name, label, port, reachable, index) {
      const current = open && open.step === name;
      return button({
        class: "rf-step__open", disabled: !reachable, "aria-current": current ? "step" : null, "data-step": name,
        onclick: () => on.open(name, index),
      },
      el("span", { class: "rf-step__label" }, label),
      el("span", { class: "rf-step__name" }, port ? port.name : current ? "choosing" : "not chosen"),
      port && complete ? el("span", { class: "rf-step__more" }, port.ends ? ui.ends(port) : ui.half(port)) : null);
    }

    function through() {
      const leads = state.through || [];
      const reachable = Boolean(state.from);
      const inside = complete
        ? [...leads.map(link), leads.length ? null : opener("through", "Through", { name: "No lead, straight in", connector: ui.port(state.from).connector, half: ui.port(state.from).half }, true, 0),
          button({ class: "rf-step__add", onclick: on.add }, leads.length ? "Add another lead" : "Add a lead")]
        : [opener("through", "Through", state.through ? { name: leads.map((id) => ui.lead(id).name).join(", then ") || "No lead" } : null, reachable, 0)];
      return el("li", { class: "rf-step rf-step--through", "data-chosen": String(state.through !== null) }, inside);
    }

    function link(id, index) {
      const lead = ui.lead(id);
      return el("div", { class: "rf-step__lead" },
        opener("through", index ? "Then" : "Through", lead, true, index),
        button({ class: "rf-step__remove", "aria-label": `Take out ${lead.name}`, onclick: () => on.remove(index) }, "×"));
    }
  };
})(Ringfence.check, Ringfence.ui);
