/* A searchable list of what fits at one step, and on request of what does not and why. */

import { ends, family, half, matches, port, seldom } from "../ui/catalogue.js";
import { button, el, verdict } from "../ui/dom.js";
import { effort as effortOf } from "../ui/effort.js";
import { ONLY_TAKES, OTHER_KIND } from "../ui/fits.js";
import { later } from "../ui/later.js";
import { byPicture, sides } from "../ui/side.js";
import { grow } from "../ui/slices.js";
import { worth } from "../ui/table.js";
import { capital, inOrder } from "../ui/words.js";
import { chips as chipsOf } from "./chips.js";
import { glyphs } from "./glyph.js";

const places = (entry) => (entry.ends ? Object.values(entry.ends) : [entry]);
const QUESTIONS = {
  from: "What have you got?",
  through: "Which lead have you got?",
  into: "What does it go into?",
};
const FORMS = ["cable", "adapter", "converter", "splitter"]; // as common as they are in a bag
const APART = {
  [OTHER_KIND]: "No lead helps here. Choose one to see whether a box does.",
  [ONLY_TAKES]: "Choose one, then say what goes into it.",
}; // what stands at the end of a list, and what choosing it is good for
const HIDDEN = { through: "leads that do not fit", into: "that do not fit" };
const told = ({ id, text }) => (id ? port(id).name.split(",")[0] : `“${text}”`);
const ROOT = () => document.querySelector("[data-root]")?.dataset.root ?? "";

/* `choices` is {fit, not}; `hint(entry)` may give {verdict, offered, offer} to show; `beside` is what the choice will be plugged into; `first` is an extra button before the list;
   `last` is the id chosen last time; `back`, where there is an answer to go back to, returns to it unchanged; `onask`, told what a whole question says, makes the field take
   one; `typed` is what stands in the field already. Other pages ask their own `question` and say what is `hidden`. */
export function picker(
  step,
  choices,
  {
    hint,
    beside = [],
    first,
    last,
    back,
    onchoose,
    onask = null,
    typed = "",
    question = QUESTIONS[step],
    backTo = "Back",
    hidden: unfit = HIDDEN[step],
  },
) {
  let found = null,
    looking = false; // what the search finds for what is typed, best first, once its scripts are here; on their way
  const only = { device: "", family: "" };
  const list = el("div", { class: "rf-picker__list" });
  const rest = el("div", { class: "rf-picker__rest" }),
    count = el("p", { class: "rf-hidden", role: "status" });
  const field = el("input", {
    type: "search",
    id: "rf-search",
    class: "rf-picker__search",
    autocomplete: "off",
    enterkeyhint: "search",
    placeholder: onask ? "dynamic mic into camera mini jack" : "Name, device or connector",
    value: typed || null,
    oninput: () => {
      typed = field.value.trim();
      sought();
    },
    onfocus: () => Ringfence.seek || later("seek"),
    onkeydown: (event) => {
      if (event.key === "Enter" && asked.firstElementChild) asked.firstElementChild.click();
    },
  });
  const asked = el("div", { class: "rf-asked" });
  const heading = el("h2", { class: "rf-picker__title", tabindex: "-1" }, question);
  if (typed) sought();
  else show();
  return el(
    "section",
    { class: "rf-picker", "data-step": step, "aria-label": question },
    heading,
    back ? button({ class: "rf-picker__back", onclick: back }, backTo) : null,
    el("label", { class: "rf-hidden", for: "rf-search" }, "Search this list"),
    field,
    asked,
    byPicture(),
    el(
      "div",
      { class: "rf-picker__chips" },
      chips("device", "Only this kind of device", (entry) =>
        QUESTIONS[step] && entry.device ? [entry.device] : [],
      ),
      chips("family", "Only this connector", (entry) => places(entry).map(family)),
    ),
    first || null,
    count,
    list,
    rest,
  );

  /* What is typed is searched for; until the search is here the words themselves must stand in a name. */
  function sought() {
    if (!Ringfence.seek) {
      looking = true;
      later("seek").then((loaded) => {
        looking = false;
        if (typed) (loaded ? sought : show)();
      });
    }
    const understood = Ringfence.seek && typed && onask ? Ringfence.seek.understand(typed) : null;
    found =
      Ringfence.seek && typed
        ? Ringfence.seek.among(
            [...choices.fit, ...choices.not.map(({ entry }) => entry)],
            understood ? (understood[step] || understood.from).text : typed,
          )
        : null;
    asked.replaceChildren(
      understood
        ? button(
            { class: "rf-option rf-option--asked", onclick: () => onask(understood) },
            el("span", { class: "rf-option__name" }, `${told(understood.from)} → ${told(understood.into)}`),
            el(
              "span",
              { class: "rf-option__more" },
              understood.from.id && understood.into.id ? "Show the ways" : "Ask me the rest",
            ),
          )
        : "",
    );
    show();
  }

  function chips(kind, label, words) {
    return chipsOf(choices.fit, label, words, (word) => {
      only[kind] = word;
      show();
    });
  }

  /* What only takes is a long list that few want whole: it is there for who asks for it. */
  function untold(entry) {
    return !typed && !only.device && !only.family && choices.apart?.(entry) === ONLY_TAKES;
  }

  function shown(entry) {
    return (
      !untold(entry) &&
      (!only.family || places(entry).some((place) => family(place) === only.family)) &&
      (!only.device || entry.device === only.device) &&
      (!typed || (found ? found.has(entry.id) : matches(entry, typed)))
    );
  }

  function show() {
    const fitting = choices.fit.filter(shown);
    const not = choices.not.filter(({ entry }) => shown(entry)),
      none = looking
        ? "One moment."
        : not.length
          ? "Nothing that fits is called that. Below is what does not fit."
          : "Nothing here is called that. Brands are not kept here: say what kind of thing it is, or find it by its picture.";
    rest.replaceChildren();
    grow(
      list,
      (body) => grouped(body, fitting),
      () => {
        if (!fitting.length && !asked.firstElementChild)
          list.append(
            el("p", { class: "rf-picker__none" }, none),
            looking || not.length
              ? ""
              : el(
                  "p",
                  {},
                  el("a", { class: "rf-button", href: `${ROOT()}recognise/` }, "What is this plug?"),
                ),
          );
        rest.replaceChildren(
          not.length ? hidden(not, !fitting.length) : "",
          choices.fit.some(untold)
            ? el("p", {}, "What only takes, such as headphones: search for it, or choose its kind above.")
            : "",
        );
      },
    );
    count.textContent =
      typed || only.device || only.family ? `${fitting.length} of ${choices.fit.length} shown` : "";
  }

  /* What the search found in its own order, what takes another kind of signal after it; else under what was chosen last time and what one meets daily: devices by how common they are,
     leads by how common their form is. */
  function* grouped(body, entries) {
    const groups = new Map(),
      sure = found && typed;
    for (const entry of sure
      ? [...entries].sort((a, b) => found.get(a.id).place - found.get(b.id).place)
      : entries) {
      const name = sure
        ? (choices.apart && choices.apart(entry)) || ""
        : entry.id === last
          ? "Last time"
          : (choices.apart && choices.apart(entry)) ||
            (seldom(entry) === 0 ? "Common" : capital(entry.device || `${entry.form}s`));
      groups.set(name, [...(groups.get(name) || []), entry]);
    }
    const often = (members) => members.reduce((sum, entry) => sum + 2 - seldom(entry), 0);
    const place = ([name, members]) =>
      ({ "Last time": -1e4, Common: -1e3 })[name] ??
      (APART[name] ? 1e4 : null) ??
      (members[0].form ? FORMS.indexOf(members[0].form) : -10 * often(members) - members.length);
    for (const [name, members] of [...groups].sort((a, b) => place(a) - place(b) || inOrder(a[0], b[0]))) {
      const rows = el("ul");
      body.append(
        el(
          "section",
          { class: "rf-picker__group" },
          name ? el("h3", {}, name) : null,
          APART[name] ? el("p", {}, APART[name]) : null,
          rows,
        ),
      );
      for (const entry of sure ? members : members.sort(byHint)) yield rows.append(el("li", {}, row(entry)));
    }
  }

  function byHint(a, b) {
    const [one, two] = [a, b].map((entry) => (hint(entry) ? worth(hint(entry)) : 9)),
      effort = (entry) => (entry.form ? effortOf({ through: [entry.id] }) : 0);
    const mixed = (entry) => new Set([...places(entry), ...beside].map(({ connector }) => connector)).size; // the plain lead before what turns one connector into another
    return (
      one - two ||
      seldom(a) - seldom(b) ||
      mixed(a) - mixed(b) ||
      effort(a) - effort(b) ||
      inOrder(a.name, b.name)
    );
  }

  function row(entry) {
    const way = hint(entry);
    return button(
      { class: "rf-option rf-option--drawn", "data-id": entry.id, onclick: () => onchoose(entry.id) },
      sides(entry),
      entry.device && entry.halves === undefined && !entry.ends ? glyphs(entry) : null,
      el("span", { class: "rf-option__name" }, entry.name),
      el(
        "span",
        { class: "rf-option__more" },
        [
          entry.ends ? ends(entry) : half(entry),
          found && typed && found.get(entry.id)?.also
            ? el("em", {}, ` · also: ${found.get(entry.id).also}`)
            : null,
        ].filter(Boolean),
      ),
      way && way.offer ? el("span", { class: "rf-option__more rf-option__order" }, way.offer) : null,
      way ? verdict(way.verdict) : null,
    );
  }

  function hidden(not, open) {
    const body = el("ul", {});
    return el(
      "details",
      { class: "rf-why", open, ontoggle: fill },
      el("summary", {}, `${not.length} hidden: ${unfit}. Show why`),
      body,
    );
    function fill() {
      if (body.childElementCount) return;
      body.append(
        ...not.map(({ entry, why }) => el("li", {}, el("strong", {}, entry.name), el("span", {}, why))),
      );
    }
  }
}

/* The choice of no lead at all. */
export const straight = (onclick) =>
  button(
    { class: "rf-option rf-option--none", "data-id": "", onclick },
    el("span", { class: "rf-option__name" }, "None"),
    el("span", { class: "rf-option__more" }, "Plugged straight in"),
  );
