/* Step by step with a meter: where to put the probes, what that would mean, what is likely now. The address holds the readings. */

import { button, el } from "../ui/dom.js";
import { ohms as ohmsOf, read, write } from "./address.js";
import { likelihood, typical } from "./likely.js";
import { best, ending as endingOf, posterior, prior as priorOf, unpacked } from "./search.js";

const LIKELY = 5,
  EXPECTED = 0.002;
let root, status, known, kept;

/* On the page of a lead the address holds the readings. */
function start() {
  const place = document.getElementById("rf-workshop");
  if (!place) return;
  window.addEventListener("hashchange", () => render(true));
  mount(
    place,
    document.getElementById("rf-status"),
    JSON.parse(document.getElementById("rf-dictionary").textContent),
    {
      get: () => read(location.hash, known),
      put: (state) => {
        location.hash = write(state, known.pairs);
      },
    },
  );
}

/* The search in a place; `keep` holds its state {heard, read}, in its own variable where nothing else is given. */
export function mount(place, live, data, keep = held()) {
  [root, status, known, kept] = [place, live, unpacked(data), keep];
  render(false);
}

function held() {
  let state = { heard: null, read: [] };
  return {
    get: () => state,
    put: (next) => {
      state = next;
      render(true);
    },
  };
}

const go = (state) => kept.put(state);

function render(moved) {
  const state = kept.get();
  const read = state.read.filter(([, answer]) => answer !== "skip");
  const left = state.read.filter(([, answer]) => answer === "skip").map(([m]) => m);
  const prior = priorOf(known, state.heard);
  const likely = posterior(known, prior, read);
  const next = best(known, likely, read, left);
  const ending = endingOf(known, prior, likely, read.length > 0, next);
  const done = ending.state === "found" || ending.state === "cannot tell";
  root.replaceChildren(
    ...[
      state.read.length || state.heard ? taken(state) : hear(state),
      done ? outcome(state, ending) : ask(state, likely, next, ending.state === "named"),
      misfits(read, ending),
      state.read.length || state.heard ? candidates(likely) : null,
    ].filter(Boolean),
  );
  if (!moved) return;
  const title = root.querySelector(".rf-ask__title");
  if (status) status.textContent = title.textContent;
  title.focus({ preventScroll: true });
  root.scrollIntoView({ block: "start" });
}

/* What is heard makes some faults likelier from the start. */
function hear(state) {
  if (!known.symptoms.length) return null;
  return el(
    "details",
    { class: "rf-group" },
    el("summary", {}, el("span", { class: "rf-group__name" }, "What do you hear? (optional)")),
    el(
      "div",
      { class: "rf-replies" },
      known.symptoms.map(({ id, says }) =>
        button({ class: "rf-reply", "data-heard": id, onclick: () => go({ ...state, heard: id }) }, says),
      ),
    ),
  );
}

function ask(state, likely, next, proof) {
  const answer = (value) => go({ ...state, read: [...state.read, [next, value]] });
  const shares = new Map();
  likely.forEach((share, f) => {
    const k = known.which[f][next],
      words = known.shows[k];
    const one = shares.get(words) || { share: 0, most: 0, k };
    shares.set(words, {
      share: one.share + share,
      ...(share > one.most ? { most: share, k } : { most: one.most, k: one.k }),
    });
  });
  const expected = [...shares]
    .filter(([, { share }]) => share > EXPECTED)
    .sort((a, b) => b[1].share - a[1].share);
  return el(
    "section",
    { class: "rf-ask", "aria-label": "Next measurement" },
    el(
      "h2",
      { class: "rf-ask__title", tabindex: "-1" },
      `${proof ? "To prove it" : "Next"}: ${probes(next, known.terminals, " to ")}`,
    ),
    el(
      "p",
      { class: "rf-ask__help" },
      `One probe on ${probes(next, known.places, ", the other on ")}. Flex the lead at both plugs while you read.`,
    ),
    el(
      "div",
      { class: "rf-replies" },
      expected.map(([words, { k }]) =>
        button(
          { class: "rf-reply", "data-answer": words, onclick: () => answer(typical(known.classes[k])) },
          words,
        ),
      ),
    ),
    typed(answer),
    el(
      "div",
      { class: "rf-replies rf-replies--way-out" },
      shares.has(known.moves) && expected.some(([words]) => words === known.moves)
        ? null
        : button(
            { class: "rf-reply rf-reply--quiet", "data-answer": "moves", onclick: () => answer("moves") },
            known.moves,
          ),
      button(
        { class: "rf-reply rf-reply--quiet", "data-answer": "skip", onclick: () => answer("skip") },
        "Cannot reach it",
      ),
    ),
  );
}

/* Both sides of a measurement in words; contacts under one probe are joined with a wire or a clip. */
function probes(measurement, words, between) {
  const sides = known.measurements[measurement].map((side) => side.map((terminal) => words[terminal]));
  return sides
    .map((side) =>
      side.length === 1 ? side[0] : `${side.slice(0, -1).join(", ")} and ${side.at(-1)} joined`,
    )
    .join(between);
}

/* Anything else, as a number. */
function typed(answer) {
  const field = el("input", {
    class: "rf-workshop__ohms",
    inputmode: "decimal",
    autocomplete: "off",
    "aria-label": "What the meter shows, in ohm",
    placeholder: "0.3, 680, 2.2k",
  });
  const wrong = el("p", { class: "rf-workshop__wrong", role: "alert" });
  const take = () => {
    const ohms = ohmsOf(field.value);
    if (Number.isNaN(ohms))
      wrong.textContent = `“${field.value}” is not a resistance. Write it like 0.3, 680 or 2.2k. Nothing was lost.`;
    else answer(ohms);
  };
  return el(
    "form",
    {
      class: "rf-workshop__typed",
      onsubmit: (event) => {
        event.preventDefault();
        take();
      },
    },
    field,
    el("span", { "aria-hidden": "true" }, "Ω"),
    button({ class: "rf-button", onclick: take }, "It shows this"),
    wrong,
  );
}

const words = (faults) => [...new Set(faults.map((f) => known.groups[known.faults[f].group]))];

function outcome(state, ending) {
  const found = ending.state === "found";
  const mends = [...new Set(ending.named.map((f) => known.mends[known.faults[f].mend]))];
  return el(
    "section",
    { class: "rf-ask" },
    el(
      "h2",
      { class: "rf-ask__title", tabindex: "-1" },
      found ? `Found: ${words(ending.named).join("; ")}` : "These readings tell no more",
    ),
    found ? null : el("p", {}, `Still possible: ${words(ending.named).join("; ")}.`),
    found && words(ending.named).length > 1
      ? el("p", { class: "rf-ask__help" }, "No ohmmeter tells these apart.")
      : null,
    found
      ? el(
          "ul",
          { class: "rf-plain" },
          mends.map((text) => el("li", {}, text)),
        )
      : null,
    button(
      { class: "rf-button rf-button--quiet", onclick: () => go({ heard: null, read: [] }) },
      "Start again",
    ),
  );
}

function misfits(read, ending) {
  if (ending.state === "measuring") return null;
  const odd = read.filter(
    ([m, answer]) =>
      likelihood(answer, known.classes[known.which[ending.named[0]][m]], known.rules) < known.rules.against,
  );
  return odd.length
    ? el(
        "p",
        { class: "rf-caution", role: "note" },
        `${odd.map(([m, answer]) => `${known.pairs[m]} (${said(answer)})`).join(", ")} does not fit what you read before. Read it again.`,
      )
    : null;
}

function candidates(likely) {
  const shares = new Map();
  likely.forEach((share, f) =>
    shares.set(known.faults[f].group, (shares.get(known.faults[f].group) || 0) + share),
  );
  const order = [...shares]
    .sort((a, b) => b[1] - a[1])
    .slice(0, LIKELY)
    .filter(([, share]) => share > 0.005);
  return el(
    "div",
    {},
    el("h3", {}, "Likely now"),
    el(
      "ul",
      { class: "rf-plain rf-workshop__likely" },
      order.map(([group, share]) =>
        el("li", {}, known.groups[group], el("small", {}, ` ${Math.round(100 * share)} %`)),
      ),
    ),
  );
}

const said = (answer) =>
  typeof answer === "string"
    ? { moves: "comes and goes", skip: "left out" }[answer] || answer
    : answer === Infinity
      ? "no reading"
      : `${Number(answer.toPrecision(3))} Ω`;

/* What was read, each one tap from being taken back. */
function taken(state) {
  const heard = known.symptoms.find(({ id }) => id === state.heard);
  const chip = (text, without) =>
    el(
      "li",
      {},
      button(
        { class: "rf-chip", "aria-label": `Take back: ${text}`, onclick: () => go(without) },
        text,
        el("span", { "aria-hidden": "true" }, " ×"),
      ),
    );
  return el(
    "ul",
    { class: "rf-taken", "aria-label": "Your readings" },
    heard ? chip(heard.says, { ...state, heard: null }) : null,
    state.read.map(([m, answer], i) =>
      chip(`${known.pairs[m]}: ${said(answer)}`, { ...state, read: state.read.filter((_, j) => j !== i) }),
    ),
  );
}

document.addEventListener("DOMContentLoaded", start);
