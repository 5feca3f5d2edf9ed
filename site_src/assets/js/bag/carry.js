/* Ticking what one carries, and handing the bag on. */

import { starters } from "../kit/starters.js";
import { countOf, filled as filledIn, MOST_OF_A_KIND } from "../ui/bag.js";
import { ends, half, leads, matches } from "../ui/catalogue.js";
import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { byPicture, sides } from "../ui/side.js";
import { capital, inOrder } from "../ui/words.js";
import { write } from "./codes.js";
import { asJson, asText } from "./exchange.js";

/* `view` holds what is typed and which kind is shown; `on`: tick(kind, id, yes), count(id, number), kind(name), clear(), take(text). */
export function carry(contents, view, on) {
  const kind = view.kind,
    chosen = contents[kind];
  const entries = kind === "leads" ? leads() : Object.values(Ringfence.data.ports);
  const list = el("div", {});
  const field = el("input", {
    type: "search",
    class: "rf-picker__search",
    autocomplete: "off",
    enterkeyhint: "search",
    "data-key": "carry search",
    value: view.typed,
    "aria-label": "Search this list",
    placeholder: "Name, device or connector",
    oninput: () => {
      view.typed = field.value.trim();
      show();
    },
  });
  show();
  return el(
    "section",
    { "aria-label": "What I carry" },
    el("h2", { class: "rf-hidden" }, "What I carry"),
    starters(on.begin, !contents.ports.length && !contents.leads.length),
    handOn(contents, view, on),
    kinds(),
    field,
    byPicture(),
    list,
  );

  function kinds() {
    const chip = (name, words) =>
      button(
        {
          class: "rf-chip",
          "data-key": `kind ${name}`,
          "aria-pressed": String(kind === name),
          onclick: () => on.kind(name),
        },
        `${words}: ${contents[name].length}`,
      );
    return el(
      "div",
      { class: "rf-chips", role: "group", "aria-label": "Show" },
      chip("leads", "Leads"),
      chip("ports", "Devices"),
    );
  }

  function show() {
    const found = entries.filter((entry) => !view.typed || matches(entry, view.typed));
    const groups = new Map();
    for (const entry of found) {
      const name =
        chosen.includes(entry.id) && view.ticked.includes(entry.id)
          ? "In the bag"
          : capital(entry.device || `${entry.form}s`);
      groups.set(name, [...(groups.get(name) || []), entry]);
    }
    const sorted = [...groups].sort(
      ([a], [b]) => (b === "In the bag") - (a === "In the bag") || inOrder(a, b),
    );
    list.replaceChildren(
      ...sorted.map(([name, members]) =>
        el(
          "section",
          { class: "rf-picker__group" },
          el("h3", {}, name),
          el(
            "ul",
            {},
            members
              .sort((a, b) => inOrder(a.name, b.name))
              .map((entry) => el("li", {}, tick(entry), number(entry))),
          ),
        ),
      ),
      found.length ? "" : el("p", { class: "rf-picker__none" }, "Nothing is called that."),
    );
  }

  /* How many, of what is in the bag. */
  function number(entry) {
    const many = countOf(contents, entry.id);
    if (!many) return null;
    const step = (words, sign, next, key) =>
      button(
        {
          class: "rf-tick__step",
          "data-key": `${key} ${entry.id}`,
          "aria-label": `${words}: ${entry.name}`,
          disabled: next < 1 || next > MOST_OF_A_KIND,
          onclick: () => on.count(entry.id, next),
        },
        sign,
      );
    return el(
      "div",
      { class: "rf-tick__many", role: "group", "aria-label": `How many: ${entry.name}` },
      step("One fewer", "−", many - 1, "fewer"),
      el("span", {}, `${many} ×`),
      step("One more", "+", many + 1, "more"),
    );
  }

  function tick(entry) {
    return el(
      "label",
      { class: "rf-tick rf-tick--drawn" },
      el("input", {
        type: "checkbox",
        "data-id": entry.id,
        checked: chosen.includes(entry.id),
        "data-key": `tick ${entry.id}`,
        onchange: (event) => on.tick(kind, entry.id, event.target.checked),
      }),
      sides(entry),
      el("span", { class: "rf-option__name" }, entry.name),
      el("span", { class: "rf-option__more" }, entry.ends ? ends(entry) : half(entry)),
    );
  }
}

export function handOn(contents, view, on) {
  const filled = filledIn(contents) > 0;
  const paste = el(
    "textarea",
    {
      rows: "4",
      "data-key": "paste",
      placeholder: "A list, a file's text or a link",
      oninput: () => {
        view.pasted = paste.value;
      },
    },
    view.pasted,
  );
  const file = el("input", {
    type: "file",
    accept: ".json,.txt,application/json,text/plain",
    class: "rf-hidden",
    id: "rf-bag-file",
    onchange: read,
  });
  return el(
    "details",
    {
      class: "rf-fold rf-bag__hand",
      open: view.hand,
      ontoggle: (event) => {
        view.hand = event.target.open;
      },
    },
    el("summary", { "data-key": "hand on" }, "Hand it on, or bring one in"),
    filled
      ? el(
          "div",
          { class: "rf-bag__out" },
          copier("Copy link", new URL(write(contents), location.href).href, "Link to this bag"),
          copier("Copy as text", asText(contents), "The bag as text"),
          copier("Copy as JSON", asJson(contents), "The bag as JSON"),
          saver(contents),
        )
      : el("p", {}, "Nothing is ticked yet."),
    el(
      "div",
      { class: "rf-form" },
      el("label", { class: "rf-field rf-field--wide" }, el("span", {}, "Bring a bag in"), paste),
      el("p", { class: "rf-fault", role: "alert" }, view.fault || ""),
      el(
        "div",
        { class: "rf-actions" },
        button(
          { class: "rf-button rf-button--quiet", "data-key": "take", onclick: () => on.take(paste.value) },
          "Read it",
        ),
        file,
        el("label", { class: "rf-button rf-button--quiet", for: "rf-bag-file" }, "Open a file"),
      ),
    ),
    filled
      ? button({ class: "rf-bench__tool", "data-key": "empty", onclick: on.clear }, "Empty the bag")
      : null,
    el(
      "p",
      { class: "rf-form__note" },
      view.kept
        ? "Kept in this browser only. A phone may forget it after some weeks without a visit: copy the link to be sure."
        : "This browser does not keep it: copy the link before you leave.",
    ),
  );

  async function read() {
    if (file.files.length) on.take(await file.files[0].text());
  }
}

/* The JSON as a file to keep. */
function saver(contents) {
  return button(
    {
      class: "rf-button rf-button--quiet",
      "data-key": "save",
      onclick: () => {
        const url = URL.createObjectURL(new Blob([asJson(contents)], { type: "application/json" }));
        el("a", { href: url, download: "bag.json" }).click();
        setTimeout(() => URL.revokeObjectURL(url), 1000);
      },
    },
    "Save as a file",
  );
}
