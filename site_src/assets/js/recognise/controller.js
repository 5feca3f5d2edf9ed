/* Asks one question at a time; the address holds the answers, so the browser's own way back takes one back too. */

import { button, el } from "../ui/dom.js";
import { side } from "../ui/side.js";
import { read, write } from "./address.js";
import { candidates, nearly } from "./candidates.js";
import { left as leftOf, near, next } from "./narrow.js";
import { questions as questionsOf } from "./questions.js";

let root, status, plugs, questions;

function start() {
  root = document.getElementById("rf-recognise");
  status = document.getElementById("rf-status");
  if (!root) return;
  plugs = Object.entries(Ringfence.plugs.connectors).map(([id, plug]) => ({ id, ...plug }));
  questions = questionsOf(plugs, Ringfence.plugs.words);
  document.querySelectorAll("details.rf-every").forEach((table) => {
    table.open = false;
  });
  window.addEventListener("hashchange", () => render(true));
  render(false);
}

const go = (given) => {
  location.hash = write(given);
};

function render(moved) {
  const given = read(location.hash, questions);
  const left = leftOf(plugs, questions, given);
  const question = next(plugs, questions, given);
  const count = given.length
    ? `${left.length} of ${plugs.length} connectors fit`
    : `${plugs.length} connectors`;
  root.replaceChildren(
    ...[
      taken(given),
      question ? ask(question, given) : outcome(left, given),
      el("h2", { class: "rf-plugs__count" }, count),
      given.length
        ? null
        : el(
            "p",
            { class: "rf-actions" },
            el(
              "a",
              { class: "rf-button rf-button--quiet", href: `${root.dataset.root}plugs/` },
              "All plugs at true size",
            ),
          ),
      given.length ? candidates(left, Ringfence.plugs.connectors, root.dataset.root) : null,
      nearly(near(plugs, questions, given), root.dataset.root),
    ].filter(Boolean),
  );
  if (!moved) return;
  status.textContent = `${count}.`;
  root.querySelector(".rf-ask__title").focus({ preventScroll: true });
  root.scrollIntoView({ block: "start" });
}

function ask(question, given) {
  const answer = (id) => () => go([...given, { question: question.id, answer: id }]);
  const drawn = ({ shown = [] }) =>
    question.pictured
      ? el(
          "span",
          { class: "rf-reply__drawn", "aria-hidden": "true" },
          shown.map((place) => side(place, { scale: 0.4 })),
        )
      : null;
  const looks = question.pictured
    ? " rf-replies--pictured"
    : question.answers.every(({ label }) => label.length < 4 || label.startsWith("More"))
      ? " rf-replies--short"
      : "";
  return el(
    "section",
    { class: "rf-ask", "aria-label": question.asks },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, question.asks),
    el("p", { class: "rf-ask__help" }, question.help),
    el(
      "div",
      { class: `rf-replies${looks}` },
      question.answers.map(({ id, label, more, ...rest }) =>
        button(
          { class: "rf-reply", "data-answer": id, onclick: answer(id) },
          drawn(rest),
          label,
          more ? el("small", {}, more) : null,
        ),
      ),
    ),
    el(
      "div",
      { class: "rf-replies rf-replies--way-out" },
      button(
        { class: "rf-reply rf-reply--quiet", "data-answer": "unsure", onclick: answer("unsure") },
        question.pictured ? "Not sure: ask me" : "Not sure",
      ),
      button(
        { class: "rf-reply rf-reply--quiet", "data-answer": "other", onclick: answer("other") },
        "None of these",
      ),
    ),
  );
}

/* No question is left that would help. */
function outcome(left, given) {
  const [title, more] = !left.length
    ? [
        "Nothing in this catalogue looks like that",
        "Not every plug is here. Do not go by the nearest one; take an answer back, or measure.",
      ]
    : left.length === 1
      ? [
          "Most likely this",
          "Compare it with the picture and the words. The shape tells what goes in, not what is on the contacts.",
        ]
      : ["No more questions help", "These answer them alike. Read what tells each apart."];
  return el(
    "section",
    { class: "rf-ask" },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, title),
    el("p", { class: "rf-ask__help" }, more),
    given.length
      ? button({ class: "rf-button rf-button--quiet", onclick: () => go([]) }, "Start again")
      : null,
  );
}

/* What was answered, each one tap from being taken back. */
function taken(given) {
  if (!given.length) return null;
  return el(
    "ul",
    { class: "rf-taken", "aria-label": "Your answers" },
    given.map((one) => {
      const words = said(one);
      return el(
        "li",
        {},
        button(
          {
            class: "rf-chip",
            "aria-label": `Take back: ${words}`,
            onclick: () => go(given.filter((other) => other !== one)),
          },
          words,
          el("span", { "aria-hidden": "true" }, " ×"),
        ),
      );
    }),
  );
}

function said({ question, answer }) {
  const { short, answers } = questions.find(({ id }) => id === question);
  const label =
    { unsure: "not sure", other: "none of these" }[answer] || answers.find(({ id }) => id === answer).label;
  return `${short}: ${/^[A-Z][a-z]/.test(label) ? `${label.charAt(0).toLowerCase()}${label.slice(1)}` : label}`; // XLR stays XLR
}

document.addEventListener("DOMContentLoaded", start);
