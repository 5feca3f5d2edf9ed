/* Holds the state of the bench. The wiring lives in the address; here are what is in the hand, what is being typed, and the way back. */

import { picker } from "../check/picker.js";
import { family, half } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { read, write } from "./address.js";
import { answer } from "./answer.js";
import { board as boardOf, conductors, hint, meter } from "./board.js";
import { partSaid } from "./drawing.js";
import { cableForm, partsForm, partsList } from "./inside.js";
import { often } from "./often.js";
import { stock } from "./stock.js";
import {
  addPart,
  cutOff,
  dropEnd,
  EMPTY,
  joinOf,
  made,
  place,
  removePart,
  said,
  setEnd,
  touch,
  unjoin,
} from "./wiring.js";

let root,
  status,
  wiring,
  unknown,
  past = [],
  picked = null,
  choosing = null,
  drawn = null;
const told = { name: "", note: "", grade: "from memory" };
let draft = { kind: "resistor", nodes: [], value: "", rating: "" };
const opened = new Set();

function start() {
  root = document.getElementById("rf-bench");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  ({ wiring, unknown } = read(location.hash));
  drawn = answer(root.dataset.root, say);
  window.addEventListener("hashchange", arrive);
  render();
}

/* Somebody opened another wiring in this tab; the one before is one step back. */
function arrive() {
  if (location.hash === write(wiring) && !unknown.length) return;
  past.push({ wiring, unknown });
  ({ wiring, unknown } = read(location.hash));
  picked = choosing = null;
  render();
}

const say = (text) => {
  status.textContent = text;
};

/* What was not understood stays so, and nothing is judged, until somebody says to go on without it. */
function change(next, words, left = unknown, moved = false) {
  past.push({ wiring, unknown });
  show(next, words, left, moved);
}

function show(next, words, left, moved) {
  wiring = next;
  unknown = left;
  picked = choosing = null;
  if (!unknown.length) history.replaceState(null, "", write(wiring) || location.pathname);
  render(moved);
  say(words);
}

const on = {
  tap(node) {
    if (picked === null || picked === node) {
      picked = picked ? null : node;
      render();
      say(picked ? `${said(wiring, node)} picked` : "Put down");
    } else on.beep(picked, node);
  },
  beep(one, two) {
    const join = joinOf(wiring, one),
      parted = Boolean(join && join.includes(two));
    change(
      touch(wiring, one, two),
      `${capital(said(wiring, two))} ${parted ? "parted from" : "joined to"} ${said(wiring, one)}`,
    );
  },
  cut(node) {
    change(cutOff(wiring, node), `${capital(said(wiring, node))} is cut off at the far end`);
  },
  drop() {
    picked = null;
    render();
  },
  unjoin(join) {
    change(unjoin(wiring, join), "Taken out");
  },
  choose(index) {
    choosing = index;
    picked = null;
    render(true);
  },
  dropEnd() {
    change(dropEnd(wiring), "The third end is gone");
  },
  undo() {
    const before = past.pop();
    show(before.wiring, "Undone", before.unknown);
  },
  clear() {
    change(EMPTY, "Started over", []);
  },
  rest() {
    change(wiring, "Going on with the rest", []);
  },
  cable(changes) {
    change(made(wiring, changes), "Cable changed");
  },
  draft(changes) {
    draft = { ...draft, fault: "", field: "", ...changes };
    render();
  },
  add(part) {
    draft = { kind: part.kind, nodes: [], value: "", rating: "" };
    change(addPart(wiring, part), `Added ${partSaid(wiring, part)}`);
  },
  remove(part) {
    change(removePart(wiring, part), "Taken out");
  },
};

function render(moved) {
  const key = root.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  const step =
    choosing !== null ? choosing : wiring.ends.length < 2 && !unknown.length ? wiring.ends.length : null;
  document.body.dataset.bench = step === null ? "board" : "ends";
  root.replaceChildren(
    ...[
      unknown.length ? notUnderstood() : null,
      tools(step),
      ...(step !== null
        ? [ends(step)]
        : wiring.ends.length < 2
          ? []
          : [board(), drawn(wiring, unknown.length > 0, told, fold)]),
    ].filter(Boolean),
  );
  const again = key && root.querySelector(`[data-key="${CSS.escape(key)}"]`);
  const target = moved ? root.querySelector(".rf-picker__title, .rf-bench__work") : again;
  if (target) target.focus({ preventScroll: !moved });
}

function notUnderstood() {
  return el(
    "div",
    { class: "rf-unknown", role: "alert" },
    unknown.map((text) => el("p", {}, "Not understood: ", el("code", {}, text))),
    el(
      "p",
      {},
      "This link does not describe a whole wiring, so nothing is judged. What could be read is laid out below.",
    ),
    button(
      { class: "rf-button rf-button--quiet", "data-key": "rest", onclick: on.rest },
      "Go on with the rest",
    ),
  );
}

function tools(step) {
  const quiet = (words, key, onclick, disabled) =>
    button({ class: "rf-bench__tool", "data-key": key, onclick, disabled }, words);
  if (!past.length && (!wiring.ends.length || step !== null)) return null;
  const room = wiring.ends.length === 2 && step === null,
    third = wiring.ends.length === 3 && step === null;
  return el(
    "div",
    { class: "rf-bench__tools", role: "group", "aria-label": "Tools" },
    quiet("Undo", "undo", on.undo, !past.length),
    room ? quiet("Add a third end", "third", () => on.choose(2)) : null,
    third ? quiet("Remove the third end", "third", on.dropEnd) : null,
    wiring.ends.length ? quiet("Start over", "clear", on.clear) : null,
  );
}

function ends(index) {
  const wired = Object.values(Ringfence.data.connectors).filter(({ light }) => !light.length);
  const halves = wired.flatMap((connector) =>
    Object.keys(connector.halves).map((half) => ({
      id: `${connector.id}/${half}`,
      name: `${connector.name}, ${half}`,
      device: family({ connector: connector.id }),
      connector: connector.id,
      half,
      also_called: [],
    })),
  );
  const question = ["Which plug or socket is at one end?", "And at the other end?", "And the third end?"][
    index
  ];
  return picker(
    "end",
    { fit: halves, not: [] },
    {
      hint: () => null,
      first: often(halves, chosen),
      question,
      back:
        wiring.ends.length >= 2
          ? () => {
              choosing = null;
              render();
            }
          : null,
      backTo: "Back to the bench",
      onchoose: chosen,
    },
  );

  function chosen(id) {
    change(setEnd(wiring, index, id), `${capital(half(place(id)))} chosen`, unknown, true);
  }
}

/* A fold that stays as it was left. Its own state is read as well: a browser tells of a toggle only after the tap, and the bench may be drawn anew in between. */
function fold(name, summary, ...inside) {
  const before = root.querySelector(`[data-fold="${name}"]`);
  return el(
    "details",
    {
      class: "rf-fold",
      "data-fold": name,
      open: before ? before.open : opened.has(name),
      ontoggle: (event) => (event.target.open ? opened.add(name) : opened.delete(name)),
    },
    el("summary", { "data-key": `fold ${name}` }, summary),
    inside,
  );
}

function board() {
  const joined = wiring.joins.length,
    cable = wiring.cable && stock()[wiring.cable];
  return el(
    "section",
    { class: "rf-bench__work", tabindex: "-1", "aria-label": "Wiring" },
    hint(wiring, picked, on),
    boardOf(wiring, picked, on),
    fold(
      "meter",
      "Enter meter readings instead",
      el("p", { class: "rf-form__note" }, "Nothing plugged in, meter on beep. Mark each pair that beeps."),
      meter(wiring, on),
    ),
    fold("joins", `Conductors: ${joined || "none yet"}`, conductors(wiring, on)),
    fold(
      "parts",
      `Parts inside: ${wiring.parts.length || "none"}`,
      partsList(wiring, on),
      partsForm(wiring, draft, on),
    ),
    fold(
      "cable",
      `Cable: ${cable ? `${cable.name}, ${wiring.length}` : "none"}`,
      cableForm(wiring, on.cable),
    ),
  );
}

document.addEventListener("DOMContentLoaded", start);
