/* What is inside the lead besides wire: parts with their values, and the cable. */

import { button, el } from "../ui/dom.js";
import { quantity, tidied } from "../ui/quantity.js";
import { capital } from "../ui/words.js";
import { part } from "./components.js";
import { partSaid } from "./drawing.js";
import { stock as stockOf } from "./stock.js";
import { contacts, freePoint, joinOf, points, said, screenOf } from "./wiring.js";

const FIELDS = {
  resistor: { value: ["Value", "4.7 kohm"], rating: ["Stands, in watts", "0.25 W"], nodes: ["From", "To"] },
  capacitor: { value: ["Value", "10 uF"], rating: ["Stands, in volts", "63 V"], nodes: ["From", "To"] },
  transformer: { value: ["Turns", "1:1"], nodes: ["First winding from", "to", "Second winding from", "to"] },
};

const options = (items, chosen) =>
  items.map(([value, text]) => el("option", { value, selected: value === chosen }, text));

/* The parts there are, and the form for one more. `draft` holds what is typed, so that nothing is lost; `on`: draft(changes), add(part), remove(part). */
export function partsForm(wiring, draft, on) {
  const fields = FIELDS[draft.kind];
  const free = freePoint(wiring);
  const places = [...contacts(wiring).map(({ node }) => node), ...points(wiring)].map((node) => [
    node,
    capital(said(wiring, node)),
  ]);
  if (free) places.push([free, `A new point inside (${free})`]);
  const fault = el("p", { class: "rf-fault", role: "alert" }, draft.fault || "");
  return el(
    "form",
    { class: "rf-form", onsubmit: add, "aria-label": "Add a part" },
    field(
      "Part",
      el(
        "select",
        { "data-key": "part kind", onchange: (event) => on.draft({ kind: event.target.value, fault: "" }) },
        options(
          Object.keys(FIELDS).map((kind) => [kind, capital(kind)]),
          draft.kind,
        ),
      ),
    ),
    fields.nodes.map((label, i) =>
      field(
        label,
        el(
          "select",
          {
            "data-key": `part node ${i}`,
            onchange: (event) => {
              draft.nodes[i] = event.target.value;
            },
          },
          options([["", "Choose"], ...places], draft.nodes[i]),
        ),
      ),
    ),
    text("value", fields.value),
    fields.rating ? text("rating", fields.rating) : null,
    fields.rating
      ? el(
          "p",
          { class: "rf-form__note" },
          "Left empty, what it stands is not known, and that counts against the lead wherever a supply reaches it.",
        )
      : el(
          "p",
          { class: "rf-form__note" },
          "Taken as a common line transformer of 20 H and 50 Ω a winding, scaled by its turns; from memory.",
        ),
    fault,
    el("button", { class: "rf-button rf-button--quiet", "data-key": "part add" }, `Add the ${draft.kind}`),
  );

  function text(name, [label, example]) {
    return field(
      label,
      el("input", {
        type: "text",
        value: draft[name],
        placeholder: example,
        autocomplete: "off",
        autocapitalize: "off",
        spellcheck: "false",
        "data-key": `part ${name}`,
        "aria-invalid": draft.field === name && draft.fault ? "true" : null,
        oninput: (event) => {
          draft[name] = event.target.value;
        },
      }),
    );
  }

  function add(event) {
    event.preventDefault();
    const nodes = fields.nodes.map((_, i) => draft.nodes[i] || "");
    if (!nodes.every((node) => places.some(([known]) => known === node)))
      return on.draft({ fault: "Choose what it stands between.", field: "nodes" });
    const made = part(draft.kind, nodes, draft.value || "", draft.rating || "");
    return made.part ? on.add(made.part) : on.draft(made);
  }
}

export function partsList(wiring, on) {
  if (!wiring.parts.length) return null;
  return el(
    "ul",
    { class: "rf-things", "aria-label": "Parts" },
    wiring.parts.map((part, i) => {
      const [name, ...words] = partSaid(wiring, part).split(/ (?=from )|, (?=first)/);
      const joined =
        part.kind !== "transformer" && (joinOf(wiring, part.nodes[0]) || []).includes(part.nodes[1]);
      return el(
        "li",
        {},
        el("span", { class: "rf-things__name" }, capital(name)),
        el(
          "span",
          { class: "rf-things__more" },
          words.join(" "),
          joined ? "; both its ends are on one conductor, so it does nothing" : "",
        ),
        button(
          {
            class: "rf-things__out",
            "data-key": `part out ${i}`,
            "aria-label": `Take out ${partSaid(wiring, part)}`,
            onclick: () => on.remove(part),
          },
          "×",
        ),
      );
    }),
  );
}

/* Cable, length and which conductor is the screen. `on(changes)`. */
export function cableForm(wiring, on) {
  const stock = stockOf(),
    cable = wiring.cable && stock[wiring.cable];
  const screen = screenOf(wiring, stock);
  const fault = cable && wiring.length ? quantity(wiring.length, "m").fault : "";
  return el(
    "div",
    { class: "rf-form" },
    field(
      "Cable",
      el(
        "select",
        {
          "data-key": "cable",
          onchange: (event) => on({ cable: event.target.value || null, length: wiring.length || "3 m" }),
        },
        options(
          [["", "None: an adapter, or not known"], ...Object.values(stock).map(({ id, name }) => [id, name])],
          wiring.cable || "",
        ),
      ),
      true,
    ),
    cable
      ? field(
          "Length",
          el("input", {
            type: "text",
            inputmode: "text",
            value: wiring.length,
            placeholder: "3 m",
            autocomplete: "off",
            "data-key": "length",
            "aria-invalid": fault ? "true" : null,
            onchange: (event) => on({ length: tidied(event.target.value, "m") }),
          }),
        )
      : null,
    cable && cable.screen
      ? field(
          "Screen",
          el(
            "select",
            { "data-key": "screen", onchange: (event) => on({ screen: event.target.value }) },
            options(
              [
                ["none", "No conductor is the screen"],
                ...wiring.joins.map((join) => [join[0], capital(said(wiring, join[0]))]),
              ],
              screen ? screen[0] : "none",
            ),
          ),
        )
      : null,
    fault ? el("p", { class: "rf-fault", role: "alert" }, `'${wiring.length}' is no length. ${fault}`) : null,
  );
}

export function field(label, control, wide = false) {
  return el("label", { class: `rf-field${wide ? " rf-field--wide" : ""}` }, el("span", {}, label), control);
}
