/* The two ends, both open from the start, and the lead, which nobody has to choose: a bar while choosing, a path once both ends are. */

import { lead as leadOf, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";

/* `on` holds what the buttons do: open(step, index), remove(index), add(). */
export function steps(state, open, on) {
  const complete = state.from && state.into && !open;
  return el(
    "nav",
    { class: `rf-steps rf-steps--${complete ? "path" : "bar"}`, "aria-label": "Your connection" },
    el(
      "ol",
      {},
      step("from", complete ? "From" : "What you have", state.from ? [port(state.from)] : []),
      complete ? through() : null,
      step("into", complete ? "Into" : "What it goes into", state.into ? [port(state.into)] : []),
      complete ? null : through(),
    ),
  );

  function step(name, label, chosen) {
    return el(
      "li",
      { class: `rf-step rf-step--${name}`, "data-chosen": String(chosen.length > 0) },
      opener(name, label, chosen[0], true, 0),
    );
  }

  function opener(name, label, port, reachable, index) {
    const current = open && open.step === name;
    return button(
      {
        class: "rf-step__open",
        disabled: !reachable,
        "aria-current": current ? "step" : null,
        "data-step": name,
        onclick: () => on.open(name, index),
      },
      el("span", { class: "rf-step__label" }, label),
      el(
        "span",
        { class: "rf-step__name" },
        port
          ? complete
            ? port.name
            : port.name.split(",")[0]
          : name === "through"
            ? "I have a certain lead"
            : current
              ? "choosing"
              : "choose",
      ),
    );
  }

  function through() {
    const leads = state.through || [];
    const reachable = Boolean(state.from);
    const inside = complete
      ? leads.length
        ? leads.map(link)
        : [
            el(
              "div",
              { class: "rf-step__lead" },
              opener("through", "Through", state.through && { name: "No lead, straight in" }, true, 0),
              state.through ? add("Add a lead") : null,
            ),
          ]
      : [
          opener(
            "through",
            "Through (optional)",
            state.through
              ? { name: leads.map((id) => leadOf(id).name.split(",")[0]).join(" then ") || "No lead" }
              : null,
            reachable,
            0,
          ),
        ];
    return el(
      "li",
      { class: "rf-step rf-step--through", "data-chosen": String(state.through !== null) },
      inside,
    );
  }

  function link(id, index) {
    const lead = leadOf(id);
    return el(
      "div",
      { class: "rf-step__lead" },
      opener("through", index ? "Then" : "Through", lead, true, index),
      button(
        { class: "rf-step__tool", "aria-label": `Take out ${lead.name}`, onclick: () => on.remove(index) },
        "×",
      ),
      index === state.through.length - 1 ? add("Add another lead") : null,
    );
  }

  function add(words) {
    return button({ class: "rf-step__tool", "aria-label": words, title: words, onclick: on.add }, "+");
  }
}
