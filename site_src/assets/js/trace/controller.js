/* Step by step along a run, without a meter. The address holds what is wrong, how many leads there are, and what was tried:
   `#hear=dead&leads=2&tried=look=stays,swap-lead1=gone`. */

import { button, el } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { run, symptoms as symptomsOf, traced } from "./search.js";

const MOST = 6;
let root, status, table;

function start() {
  root = document.getElementById("rf-trace");
  status = document.getElementById("rf-status");
  if (!root) return;
  table = JSON.parse(document.getElementById("rf-run-table").textContent);
  window.addEventListener("hashchange", () => render(true));
  render(false);
}

export const write = ({ heard, leads, tried }) =>
  new URLSearchParams([
    ["hear", heard],
    ["leads", leads],
    ...(tried.length
      ? [["tried", tried.map(([id, gone]) => `${id}=${gone ? "gone" : "stays"}`).join(",")]]
      : []),
  ]).toString();

export function read(hash, symptoms) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  const leads = Math.min(MOST, Math.max(1, Math.trunc(Number(asked.get("leads"))) || 2));
  const tried = (asked.get("tried") || "")
    .split(",")
    .map((text) => text.split("="))
    .filter(([id, ended]) => id && ["gone", "stays"].includes(ended));
  return {
    heard: symptoms.includes(asked.get("hear")) ? asked.get("hear") : null,
    leads,
    tried: tried.map(([id, ended]) => [id, ended === "gone"]),
  };
}

const go = (state) => {
  location.hash = write(state);
};

function render(moved) {
  const symptoms = symptomsOf(table),
    state = read(
      location.hash,
      symptoms.map(([name]) => name),
    );
  root.replaceChildren(...(state.heard ? searching(state) : [begin(state, symptoms)]));
  if (!moved) return;
  const title = root.querySelector(".rf-ask__title");
  status.textContent = title.textContent;
  title.focus({ preventScroll: true });
  root.scrollIntoView({ block: "start" });
}

function begin(state, symptoms) {
  let leads = state.leads;
  const said = el("strong", {}, String(leads));
  const step = (by) => {
    leads = Math.min(MOST, Math.max(1, leads + by));
    said.textContent = String(leads);
  };
  return el(
    "section",
    { class: "rf-ask" },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, "How many leads and adapters are in the run?"),
    el(
      "div",
      { class: "rf-trace__count" },
      button({ class: "rf-reply", "aria-label": "One lead less", onclick: () => step(-1) }, "−"),
      said,
      button({ class: "rf-reply", "aria-label": "One lead more", onclick: () => step(1) }, "+"),
    ),
    el("h2", {}, "What is wrong?"),
    el(
      "div",
      { class: "rf-replies" },
      symptoms.map(([name, row]) =>
        button(
          { class: "rf-reply", "data-heard": name, onclick: () => go({ heard: name, leads, tried: [] }) },
          capital(row.says),
        ),
      ),
    ),
  );
}

/* Leads are counted from the source. */
function named(count) {
  const place = (i) =>
    count === 1 ? "" : i === 0 ? ", the one at the source" : i === count - 1 ? ", the one at the input" : "";
  return {
    source: "the source",
    input: "the input",
    leads: Array.from({ length: count }, (_, i) => (count === 1 ? "the lead" : `lead ${i + 1}${place(i)}`)),
  };
}

function searching(state) {
  const known = run(table, state.heard, named(state.leads));
  const found = traced(table, known, state.tried);
  const answer = (gone) => go({ ...state, tried: [...state.tried, [found.next.id, gone]] });
  return [
    taken(state, known),
    found.next ? ask(found.next, answer) : outcome(found, known, state),
    likely(found, known),
    found.tries.length > 1 ? others(found, state) : null,
  ].filter(Boolean);
}

const ask = (next, answer) =>
  el(
    "section",
    { class: "rf-ask", "aria-label": "Next" },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, next.says),
    el(
      "p",
      { class: "rf-ask__help" },
      `About ${next.seconds} s. Turn the input down before you plug or unplug anything. Then listen: is it gone?`,
    ),
    el(
      "div",
      { class: "rf-replies rf-replies--way-out" },
      button({ class: "rf-reply", "data-answer": "gone", onclick: () => answer(true) }, "It is gone"),
      button({ class: "rf-reply", "data-answer": "stays", onclick: () => answer(false) }, "It stays"),
    ),
  );

function outcome(found, known, state) {
  const [top] = found.likely[0],
    lead = top.startsWith("lead");
  const again = button(
    {
      class: "rf-button rf-button--quiet",
      onclick: () => {
        location.hash = "";
      },
    },
    "Start again",
  );
  if (found.state !== "found") {
    return el(
      "section",
      { class: "rf-ask" },
      el("h2", { class: "rf-ask__title", tabindex: "-1" }, "No swap tells more"),
      el(
        "p",
        {},
        "Perhaps two things are wrong at once, or it lies outside this run. Start again with what you know is good at one end.",
      ),
      again,
    );
  }
  return el(
    "section",
    { class: "rf-ask" },
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, `It is ${known.names.get(top)}`),
    el(
      "p",
      {},
      lead
        ? "Put tape on it and take it out of use. With a meter, its own page finds the fault in it."
        : top === "settings"
          ? "What you changed last was it."
          : "Mark it and take it out of use.",
    ),
    lead
      ? el(
          "p",
          {},
          el(
            "a",
            { class: "rf-button", href: `${root.dataset.root}workshop/#leads` },
            "Find the fault in the lead",
          ),
        )
      : null,
    again,
  );
}

const likely = (found, known) =>
  el(
    "div",
    {},
    el("h3", {}, "Likely now"),
    el(
      "ul",
      { class: "rf-plain rf-workshop__likely" },
      found.likely
        .filter(([, share]) => share > 0.005)
        .map(([element, share]) =>
          el("li", {}, capital(known.names.get(element)), el("small", {}, ` ${Math.round(100 * share)} %`)),
        ),
    ),
  );

/* What else could be tried, with what each is expected to tell. */
const others = (found, state) =>
  el(
    "details",
    { class: "rf-more" },
    el("summary", {}, "Try something else, or see what each try tells"),
    el(
      "ul",
      { class: "rf-plain" },
      found.tries.map((one) =>
        el(
          "li",
          {},
          one.says,
          el("small", {}, ` ${one.bits.toFixed(2)} bit in ${one.seconds} s`),
          el(
            "span",
            { class: "rf-trace__else" },
            [
              ["gone", true],
              ["stays", false],
            ].map(([words, gone]) =>
              button(
                {
                  class: "rf-chip",
                  "aria-label": `${one.says} ${gone ? "It is gone" : "It stays"}`,
                  onclick: () => go({ ...state, tried: [...state.tried, [one.id, gone]] }),
                },
                gone ? "gone" : "stays",
              ),
            ),
          ),
        ),
      ),
    ),
  );

function taken(state, known) {
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
  const short = (id) => {
    const one = known.tries.find((other) => other.id === id);
    return one ? one.covers.map((element) => known.names.get(element).split(",")[0]).join(" and ") : id;
  };
  return el(
    "ul",
    { class: "rf-taken", "aria-label": "What is wrong, and what you tried" },
    el(
      "li",
      {},
      button(
        {
          class: "rf-chip",
          "aria-label": `Take back: ${table[state.heard].says}`,
          onclick: () => {
            location.hash = new URLSearchParams({ leads: state.leads }).toString();
          },
        },
        capital(table[state.heard].says),
        el("span", { "aria-hidden": "true" }, " ×"),
      ),
    ),
    state.tried.map(([id, gone], i) =>
      chip(`${capital(short(id))}: ${gone ? "gone" : "stays"}`, {
        ...state,
        tried: state.tried.filter((_, j) => j !== i),
      }),
    ),
  );
}

document.addEventListener("DOMContentLoaded", start);
