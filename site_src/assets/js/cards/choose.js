/* Choosing: the paper, what is printed, and the list to tick from. */

import { bag } from "../ui/bag.js";
import { ends, half, matches, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { byPicture, sides } from "../ui/side.js";
import { inOrder } from "../ui/words.js";
import { KINDS } from "./address.js";

const SHOWN = 40;
const WORDS = { connectors: "Connectors", leads: "Leads", ports: "Devices" };
const PAPERS = { a6: ["A6", "one card to a sheet"], a4: ["A4", "four cards, with marks to cut by"] };

export const entry = (kind, id) => Ringfence.data[kind][id];

export const papers = (chosen, on) =>
  el(
    "fieldset",
    { class: "rf-papers" },
    el("legend", {}, "Paper"),
    Object.entries(PAPERS).map(([paper, [name, more]]) =>
      el(
        "label",
        { class: "rf-papers__one" },
        el("input", {
          type: "radio",
          name: "paper",
          value: paper,
          checked: chosen.paper === paper,
          "data-key": `paper ${paper}`,
          onchange: () => on.paper(paper),
        }),
        el("span", {}, el("strong", {}, name), el("small", {}, more)),
      ),
    ),
  );

/* What is chosen, each one tap from being taken out. */
export function chosen(chosen, on) {
  const items = KINDS.flatMap((kind) => chosen[kind].map((id) => [kind, id]));
  return items.length
    ? el(
        "ul",
        { class: "rf-taken", "aria-label": "Chosen" },
        items.map(([kind, id]) =>
          el(
            "li",
            {},
            button(
              {
                class: "rf-chip",
                "aria-label": `Take out: ${entry(kind, id).name}`,
                onclick: () => on.tick(kind, id, false),
              },
              entry(kind, id).name,
              el("span", { "aria-hidden": "true" }, " ×"),
            ),
          ),
        ),
      )
    : null;
}

/* Leads of the bag, devices of one's own in it, and the connectors of the others, that are not chosen yet, {connectors, leads, ports}; null when there are none. */
export function bagged(chosen) {
  const { leads, ports } = bag();
  const own = ports.filter((id) => port(id).mine),
    found = {
      leads,
      ports: own,
      connectors: [...new Set(ports.filter((id) => !own.includes(id)).map((id) => port(id).connector))],
    };
  const more = Object.fromEntries(
    KINDS.map((kind) => [kind, found[kind].filter((id) => !chosen[kind].includes(id))]),
  );
  return Object.values(more).flat().length ? more : null;
}

/* `view` holds what is typed and which kind is shown. */
export function list(chosen, view, on) {
  const list = el("div", {});
  const field = el("input", {
    type: "search",
    class: "rf-picker__search",
    autocomplete: "off",
    enterkeyhint: "search",
    "data-key": "cards search",
    value: view.typed,
    "aria-label": "Search this list",
    placeholder: "Name or connector",
    oninput: () => {
      view.typed = field.value.trim();
      show();
    },
  });
  show();
  const kinds = el(
    "div",
    { class: "rf-chips", role: "group", "aria-label": "Show" },
    KINDS.map((kind) =>
      button(
        {
          class: "rf-chip",
          "data-key": `kind ${kind}`,
          "aria-pressed": String(view.kind === kind),
          onclick: () => on.kind(kind),
        },
        `${WORDS[kind]}: ${chosen[kind].length}`,
      ),
    ),
  );
  const bag = bagged(chosen);
  return el(
    "section",
    { class: "rf-cards__list", "aria-label": "Choose" },
    kinds,
    bag
      ? button(
          { class: "rf-button rf-button--quiet", "data-key": "bag", onclick: () => on.add(bag) },
          "Add what is in my kit",
        )
      : null,
    field,
    byPicture(),
    list,
  );

  function show() {
    const found = Object.values(Ringfence.data[view.kind])
      .filter((entry) => matches(entry, view.typed))
      .sort((a, b) => inOrder(a.name, b.name));
    list.replaceChildren(
      el(
        "ul",
        {},
        found.slice(0, SHOWN).map((entry) => el("li", {}, tick(entry))),
      ),
      found.length > SHOWN
        ? el("p", { class: "rf-picker__none" }, `${found.length - SHOWN} more. Type a part of the name.`)
        : "",
      found.length ? "" : el("p", { class: "rf-picker__none" }, "Nothing is called that."),
    );
  }

  function tick(entry) {
    return el(
      "label",
      { class: "rf-tick rf-tick--drawn" },
      el("input", {
        type: "checkbox",
        "data-id": entry.id,
        checked: chosen[view.kind].includes(entry.id),
        "data-key": `tick ${entry.id}`,
        onchange: (event) => on.tick(view.kind, entry.id, event.target.checked),
      }),
      sides(entry),
      el("span", { class: "rf-option__name" }, entry.name),
      el("span", { class: "rf-option__more" }, entry.ends ? ends(entry) : entry.recognise || half(entry)),
    );
  }
}
