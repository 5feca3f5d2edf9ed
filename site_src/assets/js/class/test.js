/* The page "Test": a trainer sets it and checks codes; whoever opens its address sits it, and is told how it went at the end. */

import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { asked, told } from "./asked.js";
import { right, said } from "./bank.js";
import { begin, field } from "./begin.js";
import { code as codeOf, decode, drawnFor, LIMITS, readTest, writeTest } from "./code.js";
import { chance } from "./seed.js";

let root, place, status, going;

function open() {
  if (!location.hash.includes("test=")) return trainer();
  const { test, fault } = readTest(location.hash);
  if (fault) return trainer(fault);
  return new URLSearchParams(location.hash.slice(1)).has("check") ? checking(test) : enter(test);
}

const alert = (fault) => (fault ? el("p", { class: "rf-fault", role: "alert" }, fault) : null);
const show = (...parts) => place.replaceChildren(...parts.flat().filter(Boolean));

function trainer(fault = "") {
  const { kinds, levels } = Ringfence.lessons,
    { FEWEST, MOST } = LIMITS;
  const seed = el("input", {
      name: "seed",
      maxlength: "40",
      autocomplete: "off",
      placeholder: "a word nobody guesses",
    }),
    count = el("input", { name: "count", inputmode: "numeric", value: "10" });
  const level = el(
    "select",
    { name: "level" },
    [["", "All levels"], ...levels.map((one) => [one, one])].map(([value, words]) =>
      el("option", { value }, words),
    ),
  );
  const boxes = Object.entries(kinds).map(([kind, about]) => [
    kind,
    el("input", { type: "checkbox", name: kind }),
    about,
  ]);
  const wrong = el("p", { class: "rf-fault", role: "alert" });
  const make = () => {
    const hash = writeTest({
      seed: seed.value.trim(),
      kinds: boxes.filter(([, box]) => box.checked).map(([kind]) => kind),
      level: level.value,
      count: Number(count.value),
    });
    const read = readTest(hash);
    if (read.fault) {
      wrong.textContent = `${read.fault} Nothing was lost.`;
      return;
    }
    const found = drawnFor(read.test, 1);
    if (found.length < read.test.count) {
      wrong.textContent = `There are only ${found.length} such questions. Ask for fewer, or add kinds. Nothing was lost.`;
      return;
    }
    location.hash = `${hash}&check=`;
  };
  show(
    alert(fault),
    el(
      "form",
      {
        class: "rf-form",
        onsubmit: (event) => {
          event.preventDefault();
          make();
        },
      },
      field("Seed", seed),
      field("Level", level),
      field(`How many questions, ${FEWEST} to ${MOST}`, count),
      el(
        "fieldset",
        { class: "rf-class__kinds rf-field--wide" },
        el("legend", {}, "Kinds of question; all if none is ticked"),
        boxes.map(([, box, about]) => el("label", {}, box, el("span", {}, about))),
      ),
      wrong,
      el("button", { type: "submit", class: "rf-button" }, "Make the test"),
    ),
  );
}

/* The trainer's side of one test: its address, and the codes that come back. */
function checking(test) {
  const address = new URL(`${location.pathname}#${writeTest(test)}`, location.href).href,
    told = el("div", { role: "status" });
  const codes = el("textarea", { name: "codes", rows: "5", autocomplete: "off", spellcheck: "false" });
  const read = () =>
    told.replaceChildren(
      ...codes.value
        .split(/\n/)
        .map((line) => line.trim())
        .filter(Boolean)
        .slice(0, 200)
        .map((line) => result(test, line)),
    );
  show(
    el(
      "h2",
      { class: "rf-ask__title", tabindex: "-1" },
      `Test “${test.seed}”: ${test.count} questions, ${test.level || "all levels"}`,
    ),
    el(
      "p",
      {},
      "Give every learner this address and a number of their own, from 1 up. Each number draws other questions of the same kinds and levels.",
    ),
    el(
      "div",
      { class: "rf-actions" },
      copier("Copy the learners' address", address, "The learners' address"),
      el("a", { class: "rf-button rf-button--quiet", href: `#${writeTest(test)}` }, "Sit it yourself"),
    ),
    el("h2", {}, "Check codes"),
    el(
      "div",
      { class: "rf-form" },
      field("Codes, one a line", codes),
      button({ class: "rf-button", onclick: read }, "Check"),
    ),
    told,
    el(
      "p",
      { class: "rf-fine" },
      "A code says what a learner's device counted. It is no proof of who sat there, or that nobody helped.",
    ),
  );
}

function result(test, line) {
  const { learner, answers, fault } = decode(test, line);
  if (fault) return el("p", { class: "rf-fault" }, el("strong", {}, line.slice(0, 60)), ` ${fault}`);
  const missed = drawnFor(test, learner).filter((_, at) => !answers[at]);
  return el(
    "details",
    { class: "rf-class__result" },
    el("summary", {}, `Learner ${learner}: ${answers.filter(Boolean).length} of ${answers.length} right`),
    missed.length
      ? el(
          "ul",
          {},
          missed.map((one) =>
            el(
              "li",
              {},
              el("a", { href: `${root}class/practice/#ask=${encodeURIComponent(one.id)}` }, one.asks),
              ` ${said(one)}`,
            ),
          ),
        )
      : el("p", {}, "Nothing was missed."),
  );
}

function enter(test, fault = "") {
  const number = el("input", { name: "learner", inputmode: "numeric", autocomplete: "off" });
  const begin = (event) => {
    event.preventDefault();
    const learner = Number(number.value);
    if (!Number.isInteger(learner) || learner < 1 || learner > LIMITS.LEARNERS)
      return enter(test, `Write the number your trainer gave you, from 1 to ${LIMITS.LEARNERS}.`);
    const questions = drawnFor(test, learner);
    if (!questions.length)
      return enter(test, "This version of the site has no such questions. Ask your trainer.");
    going = { test, learner, questions, answers: [] };
    return ask();
  };
  show(
    alert(fault),
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, `Test “${test.seed}”, ${test.count} questions`),
    el(
      "p",
      {},
      "You are told at the end how it went. Nothing is sent anywhere; you show your trainer the code.",
    ),
    el(
      "form",
      { class: "rf-form", onsubmit: begin },
      field("Your number", number),
      el("button", { type: "submit", class: "rf-button" }, "Begin"),
    ),
  );
}

function ask() {
  const at = going.answers.length,
    one = going.questions[at];
  if (!one) return end();
  show(
    asked(one, {
      root,
      chance: chance(`${going.learner} ${one.id}`),
      place: `${at + 1} of ${going.questions.length}`,
      on: (given) => {
        going.answers.push({ one, given, good: right(one, given) });
        ask();
      },
    }),
  );
  return look();
}

function end() {
  const good = going.answers.map((each) => each.good),
    code = codeOf(going.test, going.learner, good);
  show(
    el(
      "section",
      { class: "rf-ask" },
      el(
        "h2",
        { class: "rf-ask__title", tabindex: "-1" },
        `${good.filter(Boolean).length} of ${good.length} right`,
      ),
      el("p", {}, "Your code, for your trainer:"),
      el("p", { class: "rf-class__code" }, code),
      copier("Copy the code", code, "Your code"),
    ),
    el("h2", {}, "What it was"),
    going.answers.map(({ one, given }) =>
      el(
        "details",
        { class: "rf-class__result" },
        el("summary", {}, `${right(one, given) ? "Right" : "Wrong"}: ${one.asks}`),
        told(one, given, { root }),
      ),
    ),
  );
  look();
}

function look() {
  place.querySelector(".rf-ask__title").focus({ preventScroll: true });
  place.scrollIntoView({ block: "start" });
  status.textContent = "";
}

begin("rf-test", (page) => {
  ({ root, place, status } = page);
  open();
});
