/* The page "Make a lesson": stops are picked, here or while browsing (#add=KIND|OF|SAY), put in order, and kept in the address, in this browser and in a file. */

import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { asFile, draft, fromFile, gone, keepDraft, LONGEST, read, stop as stopOf, write } from "./address.js";
import { bank, ready as isReady } from "./bank.js";
import { begin, field } from "./begin.js";
import { list } from "./list.js";
import { drawable as drawableOf, guides, pasted } from "./stops.js";

const UNKEPT =
  "This browser keeps nothing: before you go on, copy the lesson's address or save it as a file.";
let root,
  status,
  place,
  lesson,
  kept = true,
  picked = "",
  earlier = "";

const fresh = () => ({ title: "My lesson", stops: [], faults: [] });
const begun = () => (draft() ? read(draft()) : fresh());

function open() {
  const said = new URLSearchParams(location.hash.slice(1)),
    ready = isReady(said.get("lesson")),
    more = said.get("add");
  picked = "";
  lesson = ready
    ? { title: ready.title, stops: ready.stops.map(({ kind, of, say }) => ({ kind, of, say })), faults: [] }
    : said.has("stop")
      ? read(location.hash)
      : begun();
  earlier = (ready || said.has("stop")) && draft() !== write(lesson) ? draft() : "";
  if (more === null) return render(lesson.faults);
  const stop = stopOf(more),
    faults = lesson.faults;
  history.replaceState(null, "", `#${write(lesson)}`); // loaded again, nothing is added twice
  if (["say", "draw", "check", "guide", "ask"].includes(stop.kind)) picked = "Added. ";
  else return render([...faults, "That address adds nothing this version knows. Nothing was lost."]);
  return add(stop);
}

function keep() {
  const said = write(lesson);
  history.replaceState(null, "", `#${said}`);
  kept = keepDraft(lesson.stops.length ? said : "");
}

function change(told) {
  keep();
  render(kept ? [] : [UNKEPT]);
  status.textContent = told;
}

/* Back to where a stop was picked, and on with browsing; the lesson waits here. */
const goOn = () =>
  el(
    "p",
    { class: "rf-actions" },
    button({ class: "rf-button", onclick: () => history.back() }, "Back to where you were"),
    el(
      "span",
      {},
      `Stop ${lesson.stops.length} is added. Press “Add to a lesson” on the next thing you find.`,
    ),
  );

function anew() {
  lesson = fresh();
  change("A new lesson.");
  history.replaceState(null, "", location.pathname);
}

/* One lesson is kept in a browser; one that is opened by its address would take the place of another that was begun. */
const another = () =>
  el(
    "p",
    { class: "rf-fine" },
    `You had begun another lesson, “${read(earlier).title}”. `,
    el("a", { href: `#${earlier}` }, "Open that one"),
    ". This browser keeps one: once you change what is here, keep the other by its address or as a file.",
  );

const select = (name, options) =>
  el(
    "select",
    { name },
    options.map(([value, words]) => el("option", { value }, words)),
  );

function add(stop) {
  const fault = !stop
    ? "That is no address of this site that can be a stop. Copy one from a record, a guide, a question or the check."
    : lesson.stops.length >= LONGEST.stops
      ? `A lesson has ${LONGEST.stops} stops at most.`
      : gone(stop);
  if (fault) {
    picked = "";
    return render([`${fault} Nothing was lost.`]);
  }
  lesson.stops.push(stop);
  return change(`Stop ${lesson.stops.length} is added.`);
}

function render(faults) {
  const title = el("input", {
    name: "title",
    maxlength: "100",
    value: lesson.title,
    oninput: () => {
      lesson.title = title.value.trim() || "A lesson";
      keep();
      links();
    },
  });
  const say = el("textarea", { name: "say", rows: "2", maxlength: "600" });
  const paste = el("input", {
    name: "paste",
    type: "text",
    autocomplete: "off",
    placeholder: "…/check/#from=…",
  });
  const draw = el("input", {
      name: "draw",
      list: "rf-make-drawn",
      autocomplete: "off",
      placeholder: "Type XLR, TRS, lead …",
    }),
    drawable = drawableOf();
  const ask = select(
    "ask",
    bank().map((one) => [
      one.id,
      `${one.level}: ${one.asks} ${(one.given || []).map(([, value]) => value).join(", ")}`.slice(0, 140),
    ]),
  );
  const guide = select("guide", guides());
  const adder = (words, stop) =>
    button({ class: "rf-button rf-button--quiet", onclick: () => add(stop()) }, words);
  const named = () =>
    (drawable.find(([id, name]) => name === draw.value.trim() || id === draw.value.trim()) || [
      draw.value.trim(),
    ])[0];
  place.replaceChildren(
    ...[
      ...faults.map((fault) => el("p", { class: "rf-fault", role: "alert" }, fault)),
      earlier ? another() : null,
      picked ? goOn() : null,
      el("div", { class: "rf-form" }, field("Title", title)),
      list(lesson, change),
      el("h2", {}, "Add a stop"),
      el(
        "div",
        { class: "rf-form" },
        field("Own words, on their own or before the next stop", say),
        adder("Add the words", () => ({ kind: "say", of: "", say: say.value.trim() })),
        field("A page of this site, by its address: a check, a record, a guide, a question", paste),
        adder("Add that page", () => pasted(paste.value.trim())),
        field("A drawing, by name", draw),
        el(
          "datalist",
          { id: "rf-make-drawn" },
          drawable.map(([, name]) => el("option", { value: name })),
        ),
        adder("Add the drawing", () => ({ kind: "draw", of: named(), say: "" })),
        field("A question", ask),
        adder("Add the question", () => ({ kind: "ask", of: ask.value, say: "" })),
        field("A guide", guide),
        adder("Add the guide", () => ({ kind: "guide", of: guide.value, say: "" })),
      ),
      el("h2", {}, "Take it with you"),
      el("div", { class: "rf-actions", id: "rf-make-links" }),
      files(),
    ].filter(Boolean),
  );
  links();
}

/* The address holds the whole lesson: to the player, and to be copied. */
function links() {
  const target = `${root}class/lesson/#${write(lesson)}`;
  document
    .getElementById("rf-make-links")
    .replaceChildren(
      el("a", { class: "rf-button", href: target }, "Play it"),
      copier("Copy its address", new URL(target, location.href).href, "The lesson's address"),
      button({ class: "rf-button rf-button--quiet", onclick: save }, "Save as a file"),
      button(
        { class: "rf-button rf-button--quiet", disabled: !lesson.stops.length, onclick: anew },
        "Begin another",
      ),
    );
}

function files() {
  const file = el("input", {
    class: "rf-hidden",
    id: "rf-make-file",
    type: "file",
    accept: ".json,application/json",
    onchange: async () => {
      if (file.files.length) take(await file.files[0].text());
    },
  });
  return el(
    "p",
    {},
    file,
    el("label", { class: "rf-button rf-button--quiet", for: "rf-make-file" }, "Open a file"),
  );
}

function take(text) {
  const { lesson: found, fault } = fromFile(text);
  if (fault) return render([fault]);
  lesson = found;
  keep();
  return render(found.faults);
}

function save() {
  const url = URL.createObjectURL(new Blob([asFile(lesson)], { type: "application/json" }));
  el("a", { href: url, download: "lesson.json" }).click();
  URL.revokeObjectURL(url);
}

begin("rf-make", (page) => {
  ({ root, place, status } = page);
  open();
});
