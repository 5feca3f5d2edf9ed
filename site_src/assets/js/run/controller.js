/* The page of a run: the address holds it, every change is answered at once, cures are worked out one by one between frames. */

import { styled, treble } from "../hum/plot.js";
import { readAddress, writeAddress } from "../interference/address.js";
import { answer as answerOf, totalHeard } from "../interference/answer.js";
import { cure, ranked, reading as readingOf } from "../interference/remedies.js";
import { cautions as cautionsOf, headline, ofReading } from "../interference/words.js";
import { copier } from "../ui/copier.js";
import { button, el, takeCare } from "../ui/dom.js";
import { form } from "./form.js";
import { answered, cures as curesOf, guessed, never, numbers } from "./result.js";

let root,
  status,
  tables,
  run,
  before = null,
  turn = 0,
  wide = false;

function start() {
  root = document.getElementById("rf-run");
  status = document.getElementById("rf-status");
  if (!root) return;
  tables = Ringfence.tables;
  window.addEventListener("hashchange", () => open(location.hash));
  open(location.hash);
}

function open(hash) {
  const read = readAddress(hash, tables);
  run = read.run;
  render(read.unknown);
}

/* Edits a copy; the address follows without a new step back. */
function change(edit, whole) {
  const next = structuredClone(run);
  edit(next);
  [run, before] = [next, null];
  history.replaceState(null, "", writeAddress(run));
  if (whole) render([]);
  else answer();
}

function render(unknown) {
  const told = unknown.length
    ? el(
        "p",
        { class: "rf-fault", role: "alert" },
        `The address names something that is not here: ${unknown.join(", ")}. The rest is as it says.`,
      )
    : null;
  const opened = [...root.querySelectorAll("details")].map((one) => one.open);
  root.replaceChildren(
    el("section", { class: "rf-run__answer", "aria-label": "Answer" }),
    ...(told ? [told] : []),
    el("section", { class: "rf-run__form", "aria-label": "The run" }, form(run, tables, change)),
    el("section", { class: "rf-run__cures", "aria-label": "What to do" }),
    el("section", { class: "rf-run__more", "aria-label": "Numbers" }),
  );
  const folds = root.querySelectorAll(".rf-run__form details");
  if (opened.length >= folds.length)
    folds.forEach((one, i) => {
      one.open = opened[i];
    });
  answer();
}

function answer() {
  const found = answerOf(run, tables),
    part = (name) => root.querySelector(`.rf-run__${name}`);
  part("answer").replaceChildren(...answered(found, run, tables, before));
  part("cures").replaceChildren(
    el("h2", {}, "What to do"),
    el("p", { class: "rf-wait" }, "Working out what helps …"),
  );
  const reading = readingOf(run, tables),
    cautions = takeCare(cautionsOf(run, tables));
  part("more").replaceChildren(
    ...[
      reading ? el("p", {}, ofReading(reading)) : null,
      cautions,
      length(),
      numbers(found, run, tables),
      guessed(found, run, tables, change),
      never(tables),
      copier("Copy the address of this run", location.href, "The address of this run"),
    ].filter(Boolean),
  );
  status.textContent = headline(found);
  cures(found);
}

/* What the length costs of the treble, as a plot and as a table. */
function length() {
  styled(root.dataset.root);
  return el(
    "details",
    { class: "rf-fold", open: wide },
    el(
      "summary",
      {
        onclick: () => {
          wide = !wide;
        },
      },
      el("strong", {}, "Length and treble"),
    ),
    treble(run, tables),
  );
}

/* One cure between two frames, so that the page never stands still. */
function cures(found) {
  const mine = ++turn,
    heard = totalHeard(run, tables),
    left = Object.keys(tables.remedies),
    made = [];
  (function next() {
    if (mine !== turn) return;
    if (left.length) {
      made.push(cure(left.shift(), run, tables, heard));
      setTimeout(next);
      return;
    }
    const back = before
      ? button(
          { class: "rf-button rf-button--quiet", onclick: () => history.back() },
          "Take the last one back",
        )
      : null;
    root
      .querySelector(".rf-run__cures")
      .replaceChildren(
        ...curesOf(found, ranked(made, run, tables), tables, (one) => trial(one, found)),
        ...(back ? [back] : []),
      );
  })();
}

/* A cure tried: a new step in the browser's history, the bars tell what it was. */
function trial(one, found) {
  history.pushState(null, "", writeAddress(one.of));
  run = one.of;
  before = found;
  render([]);
  root.querySelector(".rf-run__says").focus({ preventScroll: true });
  root.scrollIntoView({ block: "start" });
}

window.addEventListener("popstate", () => {
  before = null;
  if (root) open(location.hash);
});
if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
else start();
