/* One question on the page: what is given, its drawing, the answers as buttons; and what is told afterwards. */

import { button, el } from "../ui/dom.js";
import { answer, choices, number as numberOf, right, said, why as whyNot } from "./bank.js";

const facts = (given) =>
  given && given.length
    ? el(
        "dl",
        { class: "rf-facts rf-class__given" },
        given.flatMap(([name, value]) => [el("dt", {}, name), el("dd", {}, value)]),
      )
    : null;
const drawing = (root, name, alt) =>
  el("img", { class: "rf-class__picture", src: `${root}draw/${encodeURIComponent(name)}.svg`, alt });

/* `on(given)` is called once, with what was answered. `chance` orders the choices. */
export function asked(one, { root, chance, on, place = "" }) {
  const title = el("h2", { class: "rf-ask__title", tabindex: "-1" }, one.asks);
  const pictures = (one.pictures || []).map((name) =>
    one.form === "tap" && one.spots ? tapped(root, one, name, on) : drawing(root, name, said(one)),
  );
  return el(
    "section",
    { class: "rf-ask rf-class__asked", "data-question": one.id },
    place ? el("p", { class: "rf-class__place" }, place) : null,
    title,
    facts(one.given),
    pictures.length ? el("div", { class: "rf-class__pictures" }, pictures) : null,
    one.target ? typed(one, on) : one.form === "order" ? ordered(one, chance, on) : chosen(one, chance, on),
  );
}

const chosen = (one, chance, on) =>
  el(
    "div",
    {
      class: one.form === "tap" ? "rf-replies rf-replies--short" : "rf-class__choices",
      role: "group",
      "aria-label": "Answers",
    },
    choices(one, chance).map(([id, text]) =>
      button({ class: "rf-reply", "data-answer": id, onclick: () => on([id]) }, text),
    ),
  );

/* The contacts on the drawing as well: for a thumb; the buttons below say the same to everyone else. */
function tapped(root, one, name, on) {
  const spots = Object.entries(one.spots)
    .filter(([id]) => one.choices.some(([each]) => each === id))
    .map(([id, [x, y]]) => {
      const spot = button({
        class: "rf-class__spot",
        tabindex: "-1",
        "aria-hidden": "true",
        "data-spot": id,
        onclick: () => on([id]),
      });
      spot.style.left = `${x}%`;
      spot.style.top = `${y}%`;
      return spot;
    });
  return el("span", { class: "rf-class__tap" }, drawing(root, name, said(one)), spots);
}

function typed(one, on) {
  const wrong = el("p", { class: "rf-fault", role: "alert" });
  const input = el("input", {
    inputmode: "decimal",
    autocomplete: "off",
    name: "number",
    "aria-label": `Your number, in ${one.target[1]}`,
  });
  const give = (event) => {
    event.preventDefault();
    const number = numberOf(input.value);
    if (number === null) wrong.textContent = "Write a number, like 12 or 0.5.";
    else on(number);
  };
  return el(
    "form",
    { class: "rf-class__typed", onsubmit: give },
    input,
    el("span", {}, one.target[1]),
    el("button", { type: "submit", class: "rf-button" }, "That is my guess"),
    wrong,
    el("p", { class: "rf-fine" }, `Within ${one.target[2]} ${one.target[1]} counts as right.`),
  );
}

/* Steps are tapped one after the other; a tap on a numbered one takes it and all after it back. */
function ordered(one, chance, on) {
  const given = [],
    steps = choices(one, chance);
  const told = el("p", { class: "rf-fine", role: "status" }, "Tap the first step, then the next.");
  const buttons = steps.map(([id, text]) =>
    button({ class: "rf-reply", "data-answer": id, onclick: () => tap(id) }, text),
  );
  const done = button(
    { class: "rf-button", disabled: true, onclick: () => on([...given]) },
    "This is the order",
  );
  function tap(id) {
    const at = given.indexOf(id);
    if (at < 0) given.push(id);
    else given.splice(at);
    steps.forEach(([each, text], place) => {
      buttons[place].textContent = given.includes(each) ? `${given.indexOf(each) + 1}. ${text}` : text;
    });
    done.disabled = given.length < steps.length;
    told.textContent = done.disabled
      ? `${given.length} of ${steps.length} steps are numbered. Tap one again to take it back.`
      : "All steps are numbered.";
  }
  return el(
    "div",
    {},
    el("div", { class: "rf-class__choices", role: "group", "aria-label": "Steps" }, buttons),
    told,
    done,
  );
}

/* What is told once it is answered; `given` null where nobody answered and the answer is just shown. */
export function told(one, given, { root }) {
  const good = given !== null && right(one, given),
    why = given === null ? "" : whyNot(one, given);
  const head =
    given === null
      ? `It is: ${answer(one)}`
      : good
        ? `Right${one.target ? `: it is ${answer(one)}` : ""}`
        : `Not quite. It is: ${answer(one)}`;
  return el(
    "section",
    {
      class: `rf-ask rf-class__told${good ? " rf-class__told--right" : ""}`,
      "data-right": given === null ? null : String(good),
    },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, head),
    el("p", { class: "rf-class__because" }, one.because),
    why ? el("p", {}, `What you took: ${why}`) : null,
    el(
      "div",
      { class: "rf-class__pictures" },
      (one.shown || []).map((name) => drawing(root, name, answer(one))),
    ),
    el(
      "p",
      { class: "rf-fine" },
      el("a", { href: `${root}${one.works}` }, "The working"),
      ` · ${one.level} · evidence: ${one.evidence}`,
      one.note ? el("br", {}) : null,
      one.note || null,
    ),
  );
}
