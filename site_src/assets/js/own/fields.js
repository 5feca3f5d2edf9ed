/* The numbers a manual settles, as things to tap: one field with its unit, the catalogue's value and how that is known beside it. */

import { port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { GRADE } from "./apply.js";
import { read, sheet, withNumber, write } from "./asked.js";
import { deciding } from "./decide.js";
import { add, change } from "./devices.js";
import { draft as draftOf, kept, name as nameOf, remember, seen as seenOf } from "./keep.js";
import { said, units as unitsOf } from "./said.js";
import { asks, catalogue, grade, pretty } from "./words.js";

let count = 0;

/* `onown({own})` asks the same question with these own numbers, `onown(null)` the same once more. */
export function fields(judged, question, onown) {
  const keys = deciding(judged, question),
    sheets = ["from", "into"].flatMap((side) => sheet(question, side));
  const first = sheets
      .filter(({ key, typed }) => typed || keys.includes(key))
      .sort((a, b) => place(a, keys) - place(b, keys)),
    rest = sheets.filter((one) => !first.includes(one));
  const section = el(
    "section",
    { class: "rf-own" },
    el("h3", {}, "Numbers your manual settles"),
    first.length
      ? el(
          "p",
          { class: "rf-own__lead" },
          "These decide here. Tap one and type what the manual of your device says.",
        )
      : null,
    first.length ? list(first) : null,
    rest.length
      ? el(
          "details",
          { class: "rf-more" },
          el(
            "summary",
            {},
            first.length ? "More a manual can say" : "Type what the manual of your device says",
          ),
          list(rest),
        )
      : null,
    ...["from", "into"].map(again),
    ...["from", "into"].map(keeper),
    kept().fault ? el("p", { class: "rf-own__fault", role: "alert" }, kept().fault) : null,
  );
  return section;

  function list(items) {
    return el(
      "ul",
      {},
      items.map((one) => field(one, whose(one.side), answered)),
    );
  }

  function whose(side) {
    const device = question.named && question.named[side];
    return device ? device.name : port(question[side]).name.split(",")[0];
  }

  /* A number was typed (already in the catalogue's way), or taken out. */
  function answered({ side, ask }, typed) {
    const device = question.named && question.named[side];
    if (device) {
      const answers = { ...device.answers, [ask.id]: typed };
      if (!typed) delete answers[ask.id];
      change(device.id, { answers });
      onown(null);
      return;
    }
    const next = withNumber(question, side, ask.id, typed);
    remember(question[side], read(next.own)[side]);
    const sides = read(next.own);
    for (const other of ["from", "into"]) if (question.named && question.named[other]) sides[other] = {};
    onown({ own: write(sides) });
  }

  /* Numbers typed for this class some other day: offered, never used unasked. */
  function again(side) {
    const seen = seenOf(question[side]),
      typed = read(question.own)[side],
      numbers = Object.values(seen);
    if (!numbers.length || Object.keys(typed).length) return null;
    return el(
      "p",
      { class: "rf-own__again" },
      button(
        {
          class: "rf-button rf-button--quiet",
          "data-key": `again ${side}`,
          onclick: () => {
            const answers = read(question.own);
            answers[side] = seen;
            onown({ own: write(answers) });
          },
        },
        `Use what you typed before: ${numbers.map(pretty).join(", ")}`,
      ),
      el("span", {}, whose(side)),
    );
  }

  /* Numbers typed for a class become a device with a name. */
  function keeper(side) {
    const typed = read(question.own)[side];
    if (!Object.keys(typed).length || (question.named && question.named[side])) return null;
    const id = `rf-own-name-${++count}`,
      field = el("input", {
        id,
        type: "text",
        maxlength: "60",
        autocomplete: "off",
        placeholder: "What you call it",
      }),
      fault = el("p", { class: "rf-own__fault", role: "alert" });
    return el(
      "form",
      { class: "rf-own__keep", onsubmit: keep },
      el("label", { for: id }, `Keep these numbers as a device of mine (${whose(side)})`),
      el(
        "div",
        { class: "rf-own__row" },
        field,
        el(
          "button",
          { type: "submit", class: "rf-button rf-button--quiet", "data-key": `keep ${side}` },
          "Keep",
        ),
      ),
      fault,
    );

    function keep(event) {
      event.preventDefault();
      const name = nameOf(field.value);
      if (!name) {
        fault.textContent = "Give it a name first, such as My recorder.";
        field.focus();
        return;
      }
      const { device, fault: refused } = add({ name, base: question[side], answers: typed });
      if (refused) {
        fault.textContent = refused;
        return;
      }
      const others = read(question.own);
      others[side] = {};
      onown({ [side]: device.id, own: write(others) });
    }
  }
}

const place = ({ key, typed }, keys) => (typed ? -1 : keys.indexOf(key));

/* One question: what it stands at; tapped, the field. `answered(one, typed)` takes the number, "" to take it out. */
export function field(one, whose, answered) {
  const { ask, question, typed } = one,
    id = `rf-own-${++count}`,
    panel = el("div", { class: "rf-own__panel", id, hidden: true });
  const now = typed ? pretty(typed) : question.unit === null ? "not answered" : catalogue(ask);
  const open = button(
    {
      class: "rf-own__open",
      "data-ask": one.key,
      "aria-expanded": "false",
      "aria-controls": id,
      onclick: toggle,
    },
    el("span", { class: "rf-own__asks" }, asks(question)),
    el("span", { class: "rf-own__whose" }, whose),
    el(
      "span",
      { class: `rf-own__now${typed ? " rf-own__now--mine" : ""}` },
      el("span", { class: "rf-own__value" }, now),
      el("span", { class: "rf-own__grade" }, typed ? GRADE : question.unit === null ? "" : grade(ask)),
    ),
  );
  return el("li", { "data-own": one.key }, open, panel);

  function toggle() {
    panel.hidden = !panel.hidden;
    open.setAttribute("aria-expanded", String(!panel.hidden));
    if (!panel.childElementCount) panel.append(...(question.unit === null ? words() : number()));
    if (!panel.hidden) panel.querySelector("input, button").focus({ preventScroll: true });
  }

  function words() {
    const say = (word, value) =>
      button(
        {
          class: "rf-chip",
          "data-answer": word,
          "aria-pressed": String(value === typed),
          onclick: () => answered(one, value),
        },
        capital(word),
      );
    return [
      el(
        "div",
        { class: "rf-own__words", role: "group", "aria-label": question.asks },
        say("yes", "yes"),
        say("no", "no"),
        say("silent", ""),
      ),
      el("p", { class: "rf-own__note" }, "Silent changes nothing: the catalogue's numbers stay."),
    ];
  }

  function number() {
    const draft = `${one.of} ${one.key}`,
      units = unitsOf(question),
      [, was = "", unit = units[0]] = /^(\S+) (\S+)$/.exec(typed) || [];
    const field = el("input", {
      type: "text",
      inputmode: "decimal",
      autocomplete: "off",
      enterkeyhint: "done",
      maxlength: "40",
      "aria-label": question.asks,
      "aria-describedby": `${id}-fault`,
      value: draftOf(draft) || was,
      oninput: () => draftOf(draft, field.value),
    });
    const pick = el(
      "select",
      { "aria-label": "Unit" },
      units.map((name) =>
        el("option", { value: name, selected: name === unit }, pretty(`1 ${name}`).slice(2)),
      ),
    );
    const fault = el("p", { class: "rf-own__fault", id: `${id}-fault`, role: "alert" });
    return [
      el(
        "form",
        { class: "rf-own__row", onsubmit: take },
        field,
        pick,
        el("button", { type: "submit", class: "rf-button", "data-key": "judge" }, "Judge"),
      ),
      fault,
      el(
        "p",
        { class: "rf-own__note" },
        ask.value === "unknown"
          ? "The catalogue does not know it."
          : `Catalogue: ${catalogue(ask)} (${grade(ask)}).`,
      ),
      typed
        ? button(
            {
              class: "rf-own__out",
              "data-key": "take out",
              onclick: () => {
                draftOf(draft, "");
                answered(one, "");
              },
            },
            "Take my number out",
          )
        : null,
    ].filter(Boolean);

    function take(event) {
      event.preventDefault();
      const text = field.value.trim(),
        whole = /[A-Za-zΩµ%]$/.test(text) || !text ? text : `${text} ${pick.value}`,
        read = said(whole, ask, question);
      fault.textContent = read.reason || (read.silent && !typed ? "Type the number first." : "");
      if (fault.textContent) {
        field.setAttribute("aria-invalid", "true");
        field.focus();
        return;
      }
      draftOf(draft, "");
      answered(one, read.silent ? "" : read.shown);
    }
  }
}
