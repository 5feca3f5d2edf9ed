/* Holds the state of the adapter page: its ends and the two devices live in the address, only what is being chosen lives here. */

import { notFound } from "../check/answer.js";
import { picker } from "../check/picker.js";
import { half, inlets, outlets, port as portOf } from "../ui/catalogue.js";
import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { mated } from "../ui/fits.js";
import { byPicture, side } from "../ui/side.js";
import { read, write } from "./address.js";
import { result } from "./result.js";
import { endName, ends as endsOf } from "./siblings.js";

let root,
  status,
  state = null,
  picking = null;

function start() {
  root = document.getElementById("rf-adapter");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  window.addEventListener("hashchange", () => {
    picking = null;
    render(true);
  });
  render(false);
}

function go(changes) {
  picking = null;
  const hash = write({ ...state, ...changes });
  history.pushState(null, "", hash || location.pathname);
  render(true);
}

function render(moved) {
  state = read(location.hash);
  const { ends, from, into, unknown } = state;
  const told = unknown.length ? notFound(unknown) : null;
  const open = picking || (ends.length < 2 ? { end: ends.length } : null);
  const parts = open
    ? ["from", "into"].includes(open)
      ? [slots(), portPicker(open)]
      : [slots(), endPicker(open.end)]
    : [slots(), result(state, root.dataset.root), el("div", { class: "rf-actions rf-share" }, share())];
  root.replaceChildren(...[told, ...parts].filter(Boolean));
  const head = root.querySelector(".rf-picker__title, .rf-answer__head");
  if (moved && head) head.focus({ preventScroll: false });
  status.textContent =
    open || !from || !into ? "" : root.querySelector(".rf-adapter__summary")?.textContent || "";
}

function slots() {
  const { ends } = state;
  const end = (at) =>
    button(
      {
        class: "rf-slot",
        "data-end": String(at),
        onclick: () => {
          picking = { end: at };
          render(true);
        },
      },
      el("span", { class: "rf-step__label" }, `End ${at + 1}`),
      ends[at]
        ? [side(place(ends[at])), el("span", { class: "rf-step__name" }, half(place(ends[at])))]
        : el("span", { class: "rf-step__name" }, "choose"),
    );
  const port = (step, label) =>
    button(
      {
        class: "rf-slot",
        "data-step": step,
        onclick: () => {
          picking = step;
          render(true);
        },
      },
      el("span", { class: "rf-step__label" }, label),
      el("span", { class: "rf-step__name" }, state[step] ? portOf(state[step]).name.split(",")[0] : "choose"),
    );
  const more =
    ends.length >= 2 && endsOf(ends).length
      ? button(
          {
            class: "rf-button rf-button--quiet",
            onclick: () => {
              picking = { end: ends.length };
              render(true);
            },
          },
          "It has another end",
        )
      : null;
  return el(
    "div",
    { class: "rf-slots" },
    [...new Set([0, 1, ...ends.keys()])].map(end),
    port("from", "What you have"),
    port("into", "What it goes into"),
    more,
  );
}

const place = (end) => {
  const [connector, half] = end.split("/");
  return { connector, half };
};

/* Ends as pictures, the commonest first; of the second end only what is sold with the first. */
function endPicker(at) {
  const others = state.ends.filter((_, i) => i < at),
    choices = endsOf(others);
  return el(
    "section",
    { class: "rf-picker rf-picker--ends", "aria-label": `End ${at + 1}` },
    el(
      "h2",
      { class: "rf-picker__title", tabindex: "-1" },
      at ? "And the other end?" : "What is on one end?",
    ),
    byPicture(),
    el(
      "ul",
      { class: "rf-ends" },
      choices.map((end) =>
        el(
          "li",
          {},
          button(
            {
              class: "rf-end",
              "data-end": endName(end),
              onclick: () => go({ ends: [...others, endName(end)] }),
            },
            side(end),
            el("span", {}, half(end)),
          ),
        ),
      ),
    ),
  );
}

function portPicker(step) {
  const meets = (port) => state.ends.some((end) => mated(port, place(end)) || mated(place(end), port)),
    all = step === "from" ? outlets() : inlets();
  const choices = {
    fit: all.filter(meets),
    not: all
      .filter((port) => !meets(port))
      .map((entry) => ({ entry, why: "None of these ends goes in there." })),
  };
  return picker(step, choices, {
    hint: () => null,
    back: () => {
      picking = null;
      render(true);
    },
    onchoose: (id) => go({ [step]: id }),
    hidden: "that take none of these ends",
  });
}

function share() {
  const link = location.href;
  if (!navigator.share) return copier("Share: copy the link", link, "Link to this adapter");
  return button(
    {
      class: "rf-button rf-button--quiet",
      onclick: () => navigator.share({ title: document.title, url: link }).catch(() => null),
    },
    "Share",
  );
}

document.addEventListener("DOMContentLoaded", start);
