/* One lead's form, and the tags to print. */

import { button, el, own } from "../ui/dom.js";
import { asLead } from "./log.js";

const field = (label, control, wide) =>
  el("label", { class: wide ? "rf-field rf-field--wide" : "rf-field" }, el("span", {}, label), control);

/* `was` is the lead as kept, or null for a new one; `names` id -> name; `on`: keep(lead, label), out(label), close(), test(label, passed). */
export function form(was, names, root, on) {
  const lead = was || asLead({ label: "?" }).lead;
  const ids = new Map(Object.entries(names).map(([id, name]) => [name, id]));
  const wrong = el("p", { class: "rf-fault", role: "alert" });
  const input = (name, type, more) =>
    el("input", { type, name, value: lead[name], autocomplete: "off", ...more });
  const control = {
    label: input("label", "text", { maxlength: "40", value: was ? was.label : "" }),
    lead: input("lead", "text", {
      list: "rf-upkeep-names",
      value: own(names, lead.lead) || lead.lead,
      placeholder: "Type XLR, jack, 20 m ...",
    }),
    made: input("made", "date"),
    tested: input("tested", "date"),
    due: input("due", "date"),
    result: el(
      "select",
      { name: "result" },
      [
        ["", "not tested"],
        ["passed", "passed"],
        ["failed", "failed"],
      ].map(([value, words]) => el("option", { value, selected: value === lead.result }, words)),
    ),
    quarantine: el("input", { type: "checkbox", name: "quarantine", checked: lead.quarantine }),
    note: el("textarea", { name: "note", rows: "2", maxlength: "400" }, lead.note),
  };

  function keep() {
    const typed = control.lead.value.trim();
    const id = ids.get(typed) || typed;
    if (id && !own(names, id)) {
      wrong.textContent = `“${typed}” is no lead of this catalogue. Choose one from the list, or leave it empty. Nothing was lost.`;
      return;
    }
    const said = Object.fromEntries(
      Object.entries(control).map(([name, one]) => [name, name === "quarantine" ? one.checked : one.value]),
    );
    const { lead: made, fault } = asLead({ ...said, lead: id });
    wrong.textContent = fault ? `${fault} Nothing was lost.` : on.keep(made, was ? was.label : null);
  }

  return el(
    "section",
    { class: "rf-ask" },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, was ? was.label : "A lead of yours"),
    was && own(names, was.lead)
      ? el(
          "p",
          {},
          el(
            "a",
            { href: `${root}workshop/${was.lead}/` },
            "Test it step by step, find its fault, make it again",
          ),
        )
      : null,
    was
      ? el(
          "div",
          { class: "rf-replies rf-replies--way-out" },
          button(
            { class: "rf-reply", "data-answer": "passed", onclick: () => on.test(was.label, true) },
            "Passed today",
          ),
          button(
            { class: "rf-reply", "data-answer": "failed", onclick: () => on.test(was.label, false) },
            "Failed today",
          ),
        )
      : null,
    el(
      "form",
      {
        class: "rf-form",
        onsubmit: (event) => {
          event.preventDefault();
          keep();
        },
      },
      field("Label, as it is written on the lead", control.label, true),
      field("What it is", control.lead, true),
      el(
        "datalist",
        { id: "rf-upkeep-names" },
        Object.values(names).map((name) => el("option", { value: name })),
      ),
      field("Made or bought", control.made),
      field("Tested", control.tested),
      field("Result", control.result),
      field("Next due", control.due),
      el(
        "label",
        { class: "rf-upkeep__tick" },
        control.quarantine,
        el("span", {}, "Out of use until it is mended"),
      ),
      field("Note", control.note, true),
      wrong,
      el(
        "div",
        { class: "rf-actions" },
        button({ class: "rf-button", onclick: keep }, "Keep"),
        button({ class: "rf-button rf-button--quiet", onclick: on.close }, "Close"),
        was
          ? button(
              { class: "rf-button rf-button--quiet", onclick: () => on.out(was.label) },
              "Take it off the list",
            )
          : null,
      ),
    ),
  );
}
