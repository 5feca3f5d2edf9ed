/* What the wiring is called, and how to hand it on: known leads, the link, and the file for the catalogue. */

import { copier } from "../ui/copier.js";
import { el } from "../ui/dom.js";
import { capital, sentence } from "../ui/words.js";
import { field } from "./inside.js";
import { known } from "./known.js";
import { defaultName, yaml } from "./yaml.js";

export function match(lead, wiring, root) {
  const { equal, near } = known(lead, wiring);
  const link = (other) => el("a", { href: `${root}leads/${encodeURIComponent(other.id)}/` }, other.name);
  const rows = (leads) =>
    el(
      "ul",
      { class: "rf-plain" },
      leads.map((other) => el("li", {}, link(other))),
    );
  if (equal.length) {
    return el(
      "section",
      { class: "rf-match" },
      el("h2", {}, equal.length > 1 ? "Wired like these" : "Wired like this one"),
      rows(equal),
      equal.length > 1
        ? el(
            "p",
            {},
            "A meter finds no difference between them: only the cable, its length, or a screen cut off inside is another.",
          )
        : null,
    );
  }
  if (!near.length)
    return el(
      "section",
      { class: "rf-match" },
      el("h2", {}, "Not in the catalogue"),
      el("p", {}, "No lead in the catalogue has these ends."),
    );
  return el(
    "section",
    { class: "rf-match" },
    el("h2", {}, "No known lead is wired like this"),
    el("p", {}, "The nearest, and how they differ:"),
    el(
      "ul",
      { class: "rf-near" },
      near.map((one) =>
        el(
          "li",
          {},
          link(one.lead),
          el(
            "span",
            {},
            sentence(
              `In it, ${one.differs.join("; ")}${one.more ? `; and ${one.more} more differences` : ""}`,
            ),
          ),
        ),
      ),
    ),
  );
}

export function share(hash) {
  const link = new URL(hash, location.href).href;
  return copier("Copy link to this wiring", link, "Link to this wiring");
}

/* `told` holds what is typed: {name, note, grade}. */
export function offer(wiring, told) {
  const path = el("p", { class: "rf-offer__path" }),
    text = el("pre", { class: "rf-offer__text", tabindex: "0", "aria-label": "The file" }),
    copy = el("div", {});
  const input = (name, example, control = "input") =>
    el(
      control,
      {
        type: control === "input" ? "text" : null,
        placeholder: example,
        value: control === "input" ? told[name] : null,
        "data-key": `offer ${name}`,
        oninput: (event) => {
          told[name] = event.target.value;
          show();
        },
      },
      control === "textarea" ? told[name] : "",
    );
  show();
  return el(
    "div",
    { class: "rf-form rf-offer" },
    field("Name", input("name", defaultName(wiring)), true),
    field(
      "How it is known",
      el(
        "select",
        {
          "data-key": "offer grade",
          onchange: (event) => {
            told.grade = event.target.value;
            show();
          },
        },
        ["from memory", "common practice"].map((grade) =>
          el("option", { value: grade, selected: grade === told.grade }, capital(grade)),
        ),
      ),
    ),
    field("What would confirm it", input("note", "Measured with a meter on one lead", "textarea"), true),
    path,
    text,
    copy,
    el(
      "p",
      { class: "rf-form__note" },
      "A lead in the catalogue also says how to tell it apart with a meter, and what it is mistaken for.",
    ),
  );

  function show() {
    const made = yaml(wiring, { ...told, date: new Date().toISOString().slice(0, 10) });
    path.replaceChildren("Save as ", el("code", {}, made.path));
    text.textContent = made.text;
    copy.replaceChildren(copier("Copy the file", made.text, "The file"));
  }
}
