/* The page of one's own devices: what is kept, what came by a link, and handing on. */

import { changed } from "../own/apply.js";
import { add } from "../own/devices.js";
import { fromFile } from "../own/file.js";
import { kept as keptOf } from "../own/keep.js";
import { removeLead } from "../own/leads.js";
import { readDevices, writeDevices } from "../own/link.js";
import { mark } from "../own/words.js";
import { lead, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { ownAwaited, withOwn } from "../ui/own.js";
import { card, numbers, starter } from "./card.js";

let root,
  status,
  said = "",
  step = null; // what was done last, where it can be taken back: {words, back}

function start() {
  root = document.getElementById("rf-mine");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  if (ownAwaited(location.hash)) return void withOwn().then(start); // leads are made by the scripts of the bench
  window.addEventListener("hashchange", render);
  render();
}

function tell(words, fault, back) {
  said = fault || "";
  step = back && !fault ? { words, back } : null;
  status.textContent = words;
  render();
}

function render() {
  const { devices, fault } = keptOf(),
    arrived = readDevices(location.hash);
  root.replaceChildren(
    ...[
      arrived ? arrival(arrived) : null,
      said || fault ? el("p", { class: "rf-own__fault", role: "alert" }, said || fault) : null,
      step ? undo(step) : null,
      devices.length
        ? el(
            "ul",
            { class: "rf-mine" },
            devices.map((device) => el("li", {}, card(device, root.dataset.root, tell))),
          )
        : el(
            "p",
            { class: "rf-mine__none" },
            "No device yet. Check a connection, tap a number that decides, type what the manual says, and keep it under a name; or start from a class:",
          ),
      el(
        "p",
        {},
        el(
          "a",
          { class: "rf-button rf-button--quiet", href: `${root.dataset.root}check/` },
          "Check a connection",
        ),
      ),
      starter(tell),
      taken(),
      leads(),
    ].filter(Boolean),
  );
}

const undo = ({ words, back }) =>
  el(
    "p",
    { class: "rf-mine__undo" },
    `${words}. `,
    button(
      { class: "rf-button rf-button--quiet", "data-key": "undo", onclick: () => tell("Undone", back()) },
      "Undo",
    ),
  );

/* Leads of the bench with a name. */
function leads() {
  const kept = keptOf().leads,
    to = root.dataset.root;
  const item = ({ id, name, wiring }) =>
    el(
      "li",
      { "data-lead": id },
      el("a", { href: `${to}bench/${wiring}` }, name),
      lead(id) ? null : el("span", {}, ": not a whole lead any more; open it and mend it."),
      " ",
      button(
        {
          class: "rf-own__out",
          "data-key": `remove ${id}`,
          onclick: () => tell(`${name} removed`, removeLead(id)),
        },
        `Remove ${name}`,
      ),
    );
  return el(
    "section",
    { class: "rf-mine__leads", "aria-label": "My leads" },
    el("h2", {}, "My leads"),
    kept.length
      ? el("ul", {}, kept.map(item))
      : el(
          "p",
          {},
          "None yet. ",
          el("a", { href: `${to}bench/` }, "Lay one out on the bench"),
          " and give it a name.",
        ),
  );
}

/* What would be kept, before it is. */
function offered({ name, base, answers }) {
  const { used } = changed(port(base), answers);
  return el(
    "section",
    { class: "rf-mine__offered", "aria-label": name },
    el("h2", {}, mark(), el("span", {}, name)),
    el("p", { class: "rf-mine__base" }, `Class: ${port(base).name}.`),
    used.length ? numbers(used) : null,
  );
}

/* A file comes in as a link does: it is read, shown, and kept where somebody says so. */
function taken() {
  const field = el("textarea", {
      id: "rf-mine-file",
      rows: "6",
      spellcheck: "false",
      autocomplete: "off",
      placeholder: "name: …\nsame_as: …\ncircuit: …",
    }),
    fault = el("p", { class: "rf-own__fault", role: "alert" });
  const pick = el("input", {
    type: "file",
    "aria-label": "A file of this device",
    accept: ".yaml,.yml,text/plain",
    onchange: async () => {
      field.value = await pick.files[0].slice(0, 20000).text();
    },
  });
  return el(
    "details",
    { class: "rf-more" },
    el("summary", {}, "Bring one in: a file"),
    el(
      "form",
      { class: "rf-mine__new rf-mine__in", onsubmit: read },
      el("label", { for: "rf-mine-file" }, "Choose a file that was handed on, or paste its text"),
      pick,
      field,
      fault,
      el("button", { type: "submit", class: "rf-button rf-button--quiet", "data-key": "read" }, "Read it"),
    ),
  );

  function read(event) {
    event.preventDefault();
    const { device, fault: why } = fromFile(field.value);
    fault.textContent = why || "";
    if (!device) return field.focus();
    history.pushState(null, "", writeDevices([device]));
    tell("Read. Look through it, then keep it");
    return root.scrollIntoView();
  }
}

/* Devices of a link are offered, never taken unasked. */
function arrival({ devices, unknown }) {
  const leave = () => {
    history.replaceState(null, "", location.pathname);
  };
  return el(
    "div",
    { class: "rf-unknown", role: "status" },
    el(
      "p",
      {},
      devices.length
        ? `Somebody hands you ${devices.length === 1 ? "a device" : `${devices.length} devices`}. The numbers are theirs to answer for: hold them against the manual.`
        : "There is no device in this link that is known here.",
    ),
    devices.map(offered),
    unknown.length
      ? el(
          "p",
          {},
          "Not understood: ",
          unknown.slice(0, 5).map((text) => el("code", {}, text)),
        )
      : null,
    el(
      "div",
      { class: "rf-actions" },
      devices.length
        ? button(
            {
              class: "rf-button rf-button--quiet",
              "data-key": "take",
              onclick: () => {
                const faults = devices.map((one) => add(one).fault);
                leave();
                tell("Kept among your devices", faults.find(Boolean));
              },
            },
            devices.length === 1 ? "Keep it with mine" : "Keep them with mine",
          )
        : null,
      button(
        {
          class: "rf-button rf-button--quiet",
          "data-key": "leave",
          onclick: () => {
            leave();
            tell("Left");
          },
        },
        "Leave it",
      ),
    ),
  );
}

document.addEventListener("DOMContentLoaded", start);
