/* One device: its name, its class, its numbers, and what can be done with it; and the way to start a new one from a class. */

import { asksOf, changed, GRADE, question } from "../own/apply.js";
import { add, change, outdated, remove } from "../own/devices.js";
import { field as fieldOf } from "../own/fields.js";
import { name as nameOf } from "../own/keep.js";
import { LINK_MOST, writeDevices } from "../own/link.js";
import { asks, catalogue, grade, mark, pretty } from "../own/words.js";
import { yaml } from "../own/yaml.js";
import { drawing } from "../qr/code.js";
import { keepBag, bag as theBag } from "../ui/bag.js";
import { port } from "../ui/catalogue.js";
import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { inOrder } from "../ui/words.js";

let count = 0;

/* What differs from the class, number by number. */
export const numbers = (used) =>
  el(
    "dl",
    { class: "rf-mine__numbers" },
    used.map(({ ask, question, shown }) =>
      el(
        "div",
        {},
        el("dt", {}, asks(question)),
        el(
          "dd",
          {},
          el("strong", {}, pretty(shown)),
          el(
            "span",
            {},
            ` ${GRADE}${ask.value ? `; catalogue: ${[catalogue(ask), grade(ask)].filter(Boolean).join(", ")}` : ""}`,
          ),
        ),
      ),
    ),
  );

/* `tell(words, fault, back)` shows the page anew; `back` takes the step back. */
export function card(device, root, tell) {
  const base = port(device.base),
    { used, refused } = changed(base, device.answers),
    title = el("h2", {}, mark(), el("span", {}, device.name));
  return el(
    "section",
    { "aria-label": device.name, "data-device": device.id },
    title,
    el(
      "p",
      { class: "rf-mine__base" },
      "Class: ",
      el("a", { href: `${root}ports/${encodeURIComponent(device.base)}/` }, base.name),
      ". What differs:",
    ),
    outdated(device)
      ? el(
          "p",
          { class: "rf-own__fault", role: "status" },
          "This class has changed since you typed your numbers. They still stand; look through the rest. ",
          button(
            {
              class: "rf-own__out",
              "data-key": `seen ${device.id}`,
              onclick: () => tell("Noted", change(device.id, {})),
            },
            "I have",
          ),
        )
      : null,
    used.length ? numbers(used) : el("p", {}, "Nothing yet: type a number where it decides."),
    refused.length
      ? el(
          "p",
          { class: "rf-own__fault" },
          `Not used any more: ${refused.map(({ id, reason }) => `${id} (${reason})`).join("; ")}`,
        )
      : null,
    el(
      "div",
      { class: "rf-actions" },
      base.sources.length
        ? el(
            "a",
            { class: "rf-button rf-button--quiet", href: `${root}check/#from=${device.id}` },
            "Check from it",
          )
        : null,
      base.listeners.length
        ? el(
            "a",
            { class: "rf-button rf-button--quiet", href: `${root}check/#into=${device.id}` },
            "Check into it",
          )
        : null,
      carried(device, tell),
    ),
    edit(device, tell),
    hand(device),
  );
}

function carried(device, tell) {
  const bag = theBag(),
    inside = bag.ports.includes(device.id);
  const turn = () => {
    keepBag({
      ...bag,
      ports: inside ? bag.ports.filter((id) => id !== device.id) : [...bag.ports, device.id],
    });
    tell(inside ? "Out of your kit" : "In your kit");
  };
  return button(
    {
      class: "rf-button rf-button--quiet",
      "data-key": `bag ${device.id}`,
      "aria-pressed": String(inside),
      onclick: turn,
    },
    inside ? "In my kit" : "Put it in my kit",
  );
}

/* Name, numbers, and the way out. */
function edit(device, tell) {
  const id = `rf-mine-${++count}`,
    field = el("input", { id, type: "text", maxlength: "60", value: device.name });
  const asks = asksOf(device.base).map((ask) => ({
    ask,
    of: device.id,
    key: `${device.id}.${ask.id}`,
    question: question(ask),
    typed: device.answers[ask.id] || "",
  }));
  const answered = ({ ask }, typed) => {
    const answers = { ...device.answers, [ask.id]: typed };
    if (!typed) delete answers[ask.id];
    tell("Kept", change(device.id, { answers }));
  };
  return el(
    "details",
    { class: "rf-more" },
    el("summary", {}, "Name and numbers"),
    el(
      "form",
      {
        class: "rf-own__keep",
        onsubmit: (event) => {
          event.preventDefault();
          tell(
            "Kept",
            nameOf(field.value) ? change(device.id, { name: nameOf(field.value) }) : "A device needs a name.",
          );
        },
      },
      el("label", { for: id }, "Name"),
      el(
        "div",
        { class: "rf-own__row" },
        field,
        el("button", { type: "submit", class: "rf-button rf-button--quiet" }, "Keep"),
      ),
    ),
    el(
      "ul",
      { class: "rf-own" },
      asks.map((one) => fieldOf(one, "", answered)),
    ),
    button(
      {
        class: "rf-own__out",
        "data-key": `remove ${device.id}`,
        onclick: () => {
          const { fault, back } = remove(device.id);
          tell(`${device.name} removed`, fault, back);
        },
      },
      `Remove ${device.name}`,
    ),
  );
}

function hand(device) {
  const link = new URL(writeDevices([device]), location.href.split("#")[0]).href,
    { path, text } = yaml(device);
  const code =
    link.length <= LINK_MOST
      ? drawing(link, "L", {
          class: "rf-mine__code",
          role: "img",
          "aria-label": "The link as a code for a phone's camera",
        })
      : null;
  return el(
    "details",
    { class: "rf-more rf-mine__hand" },
    el("summary", {}, "Hand it on: link, code, file"),
    copier("Copy link", link, `Link to ${device.name}`),
    code || el("p", {}, "The link is too long for a code: copy it."),
    el("p", { class: "rf-own__note" }, `A file for the command line and for the catalogue: ${path}`),
    el("pre", { class: "rf-mine__file" }, el("code", {}, text)),
    copier("Copy the file", text, `${path} as text`),
  );
}

/* Any class, under a name. */
export function starter(tell) {
  const name = el("input", {
      type: "text",
      id: "rf-mine-new",
      maxlength: "60",
      placeholder: "What you call it",
    }),
    pick = el("select", { "aria-label": "Its class" });
  const ports = Object.values(Ringfence.data.ports)
    .filter(({ mine: own }) => !own)
    .sort((a, b) => inOrder(a.name, b.name));
  pick.append(
    el("option", { value: "" }, "What it is …"),
    ...ports.map((port) => el("option", { value: port.id }, port.name)),
  );
  const lacks = () =>
    !nameOf(name.value) ? "A device needs a name." : !pick.value ? "Say what it is: choose its class." : "";
  const fault = el("p", { class: "rf-own__fault", role: "alert" });
  return el(
    "form",
    { class: "rf-mine__new", onsubmit: start },
    el("label", { for: "rf-mine-new" }, "A new device"),
    name,
    pick,
    fault,
    el("button", { type: "submit", class: "rf-button rf-button--quiet" }, "Start it"),
  );

  function start(event) {
    event.preventDefault();
    fault.textContent = lacks();
    if (lacks()) (nameOf(name.value) ? pick : name).focus();
    else tell("Kept", add({ name: nameOf(name.value), base: pick.value, answers: {} }).fault);
  }
}
