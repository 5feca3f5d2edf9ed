/* The page of pads and blockers: what is asked stands in the address, every change works it out again. */

import { el } from "../ui/dom.js";
import { amount } from "../ui/words.js";
import { balanceKept } from "./attenuation.js";
import { blocker, designed, phantom } from "./design.js";

const FORMS = {
  U: "U: balanced, two legs and one across",
  H: "H: balanced, matched at both ends",
  L: "L: unbalanced",
  O: "O: balanced, the source sees what it saw",
};
const USUAL = {
  loss: "20",
  source: "200",
  load: "2000",
  form: "U",
  series: "E24",
  corner: "10",
  circuit: "1650",
};
const NUMBERS = {
  loss: [1, 80, "dB"],
  source: [1, 1e6, "Ω"],
  load: [1, 1e6, "Ω"],
  corner: [0.1, 1000, "Hz"],
  circuit: [1, 1e6, "Ω"],
};
const ohm = (value) => amount(value, "ohm");
let asked, forms;

function start() {
  const root = document.getElementById("rf-pads");
  if (!root) return;
  asked = read(location.hash);
  forms = { pad: el("div", { role: "status" }), block: el("div", { role: "status" }) };
  root.replaceChildren(
    el("h2", {}, "A pad"),
    el(
      "div",
      { class: "rf-form" },
      number("loss", "Loss wanted"),
      choice("form", "Form", FORMS),
      number("source", "The source's impedance"),
      number("load", "The input's impedance"),
      choice("series", "Resistors", { E24: "E24, in every drawer", E96: "E96, 1 %" }),
    ),
    forms.pad,
    el("h2", {}, "A phantom blocker"),
    el(
      "div",
      { class: "rf-form" },
      number("corner", "Corner wanted, at most"),
      number("circuit", "Source and input together"),
    ),
    forms.block,
  );
  show();
}

function read(hash) {
  const said = new URLSearchParams(hash.replace(/^#/, "")),
    found = { ...USUAL };
  for (const name of Object.keys(NUMBERS))
    if (said.has(name) && !fault(name, said.get(name))) found[name] = said.get(name);
  if (Object.hasOwn(FORMS, said.get("form"))) found.form = said.get("form");
  if (said.get("series") === "E96") found.series = "E96";
  return found;
}

const value = (text) => {
  const said = text.trim().replace(",", "."),
    k = /k$/i.test(said);
  return (said === "" ? NaN : Number(said.replace(/k$/i, ""))) * (k ? 1000 : 1);
};

function fault(name, text) {
  const [low, high, unit] = NUMBERS[name],
    typed = value(text);
  return typed >= low && typed <= high ? "" : `Write a number from ${low} to ${high} ${unit}.`;
}

function number(name, label) {
  const told = el("span", { class: "rf-fault", role: "alert" });
  const control = el("input", {
    inputmode: "decimal",
    autocomplete: "off",
    value: asked[name],
    name,
    oninput: () => {
      told.textContent = fault(name, control.value);
      control.toggleAttribute("aria-invalid", Boolean(told.textContent));
      if (told.textContent) return;
      asked[name] = control.value.trim();
      show();
    },
  });
  return el("label", { class: "rf-field" }, el("span", {}, `${label}, ${NUMBERS[name][2]}`), control, told);
}

const choice = (name, label, options) =>
  el(
    "label",
    { class: "rf-field rf-field--wide" },
    el("span", {}, label),
    el(
      "select",
      {
        name,
        onchange: (event) => {
          asked[name] = event.target.value;
          show();
        },
      },
      Object.entries(options).map(([key, words]) =>
        el("option", { value: key, selected: asked[name] === key }, words),
      ),
    ),
  );

function show() {
  const changed = Object.entries(asked).filter(([name, text]) => text !== USUAL[name]);
  history.replaceState(null, "", changed.length ? `#${new URLSearchParams(changed)}` : location.pathname);
  const [loss, source, load, corner, circuit] = ["loss", "source", "load", "corner", "circuit"].map((name) =>
    value(asked[name]),
  );
  forms.pad.replaceChildren(
    ...pad(designed({ loss, source, load, form: asked.form, series: asked.series }), loss, source, load),
  );
  forms.block.replaceChildren(...block(blocker(corner, circuit), corner, circuit));
}

const rows = (found) =>
  el(
    "dl",
    { class: "rf-facts" },
    found.flatMap(([name, words]) => [el("dt", {}, name), el("dd", {}, words)]),
  );
const db = (number) => `${number.toFixed(1).replace("-", "−")} dB`;

function pad(found, loss, source, load) {
  if (found.fault) return [el("p", { class: "rf-fault" }, found.fault)];
  const { form, does, leg, resistors } = found,
    balanced = form !== "L";
  const { left, watts } = phantom(leg);
  return [
    el(
      "p",
      { class: "rf-pads__says" },
      resistors
        .map(
          ([name, ohms]) => `${ohm(ohms)} ${name}${balanced && name.includes("leg") ? " (two of them)" : ""}`,
        )
        .join(", "),
    ),
    rows([
      [
        "Loss",
        `${db(does.loss)} between ${ohm(source)} and ${ohm(load)}; ${db(does.unloaded)} with nothing behind it`,
      ],
      ["The source sees", `${ohm(does.sourceSees)} (before: ${ohm(load)})`],
      ["The input sees", `${ohm(does.loadSees)} (before: ${ohm(source)})`],
      [
        "Noise",
        `${does.noise.toFixed(1).replace("-", "−")} dBu at its output; ${db(does.noiseCost)} less signal to noise where the source's own noise ruled`,
      ],
      ...(balanced
        ? [
            [
              "Hum rejection left",
              `${[0.05, 0.01, 0.001].map((share) => `${share * 100} %: ${balanceKept(leg, share).toFixed(0)} dB`).join(", ")}, when the legs are off that far in opposite directions (10 kΩ to ground). Take both legs from one reel, or measure pairs.`,
            ],
            [
              "Phantom",
              Math.max(...watts) < 0.1
                ? `It passes: a microphone of 5 mA finds ${left.toFixed(1)} V. A leg takes ${amount(watts[0], "W")}, ${amount(watts[1], "W")} with a fault behind it: 1/8 W does.`
                : `It passes poorly: a microphone of 5 mA finds ${Math.max(left, 0).toFixed(1)} V, and a leg takes up to ${amount(Math.max(...watts), "W")}.`,
            ],
          ]
        : [["Phantom", "Do not use an unbalanced pad where phantom is on."]]),
      ...(form === "H"
        ? [["Its middle", "Leave it free: joined to contact 1 it would short phantom through the legs."]]
        : []),
      ...(form !== "H" && loss < 20
        ? [["Mind", "Below 20 dB no pad suits every microphone and input: this one is made for these two."]]
        : []),
    ]),
  ];
}

function block(found, corner, circuit) {
  if (found.fault) return [el("p", { class: "rf-fault" }, found.fault)];
  return [
    el(
      "p",
      { class: "rf-pads__says" },
      `${amount(found.farad, "F")} in each leg, 63 V, + towards the input that gives phantom`,
    ),
    rows([
      [
        "Corner",
        `−3 dB at ${found.corner.toFixed(1)} Hz in ${ohm(circuit)} (asked for ${corner} Hz at most)`,
      ],
      [
        "Bleeders",
        "100 kΩ to 220 kΩ from each leg of the quiet side to contact 1, so that it charges before the plug goes in",
      ],
      [
        "Wait",
        `${amount(Number(found.charging.toFixed(1)), "s")} after phantom is switched on or off, input turned down`,
      ],
      ["Where it stays for years unpolarised", "take film capacitors, or two electrolytics back to back"],
    ]),
  ];
}

document.addEventListener("DOMContentLoaded", start);
