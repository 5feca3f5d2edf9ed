/* The controls of the form: a choice, a number with its unit, a tick. Each writes into a copy of the run and hands it on. */

import { button, el } from "../ui/dom.js";

/* A labelled control. */
export const field = (label, control, wide) =>
  el("label", { class: wide ? "rf-field rf-field--wide" : "rf-field" }, el("span", {}, label), control);

/* A choice; `options` [[value, words]] or {heading: [[value, words]]}. */
export function choice(label, options, value, put, wide) {
  const option = ([one, words]) => el("option", { value: one, selected: one === value }, words);
  const inside = Array.isArray(options)
    ? options.map(option)
    : Object.entries(options).map(([heading, some]) => el("optgroup", { label: heading }, some.map(option)));
  return field(label, el("select", { onchange: (event) => put(event.target.value) }, inside), wide);
}

/* A number told in `unit`, kept in SI: what is typed times `scale`. `limits` in SI; empty is `none`. */
export function number(label, unit, scale, limits, value, put, none = 0) {
  const shown = value ? String(Number((value / scale).toPrecision(6))) : "";
  const fault = el("span", { class: "rf-fault", role: "alert" });
  const control = el("input", {
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    value: shown,
    onchange: read,
  });

  function read() {
    const text = control.value.trim().replace(",", "."),
      typed = text === "" ? none : Number(text) * scale;
    const good = Number.isFinite(typed) && (text === "" || (typed >= limits[0] && typed <= limits[1]));
    control.toggleAttribute("aria-invalid", !good);
    fault.textContent = good
      ? ""
      : `Write a number from ${plain(limits[0] / scale)} to ${plain(limits[1] / scale)} ${unit}.`;
    if (good) put(typed);
  }
  return field(`${label}, ${unit}`, el("span", { class: "rf-run__number" }, control, fault));
}

const plain = (value) => String(Number(value.toPrecision(3)));

export const tick = (label, value, put) =>
  el(
    "label",
    { class: "rf-run__tick" },
    el("input", { type: "checkbox", checked: value, onchange: (event) => put(event.target.checked) }),
    el("span", {}, label),
  );

/* A group that folds; what has to do with it stands in its heading. */
export const group = (title, said, open, ...children) =>
  el(
    "details",
    { class: "rf-fold rf-run__group", open },
    el("summary", {}, el("strong", {}, title), el("span", {}, said)),
    el("div", { class: "rf-form" }, children),
  );

export const remove = (words, act) => button({ class: "rf-button rf-button--quiet", onclick: act }, words);
