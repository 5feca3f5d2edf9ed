/* The answer: one sentence, what to do, then levels, numbers and what was guessed. */

import { LIMITS } from "../interference/address.js";
import { PATHS } from "../interference/paths.js";
import { trebleOf } from "../interference/remedies.js";
import {
  betterCable,
  decibels,
  headline,
  helps,
  OUT_OF_RANGE,
  ofRadio,
  ofRemedy,
  oneFigure,
  worthTelling,
} from "../interference/words.js";
import { button, el } from "../ui/dom.js";
import { number } from "./fields.js";
import { picture } from "./picture.js";

const LOW = -40,
  HIGH = 60;
const svg = (tag, attributes) => {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
};

/* Sentence, radio, the run as it lies, and the bars; `before` is an answer to compare with, or null. */
export function answered(answer, run, tables, before) {
  const most = answer.dominant ? el("p", {}, `Most of it: ${tables.formulas[answer.dominant].words}`) : null;
  return [
    el("h2", { class: "rf-run__says", tabindex: "-1" }, headline(answer)),
    most,
    ...answer.radio.map((one) => el("p", {}, ofRadio(one, tables))),
    answer.inRange ? null : el("p", {}, OUT_OF_RANGE),
    picture(answer, run, tables),
    bars(answer, tables, before),
  ].filter(Boolean);
}

/* A bar for each way in, from 40 dB under the noise to 60 over it; the thin one is what it was before. */
function bars(answer, tables, before) {
  const names = PATHS.filter(
    (name) => answer.paths[name].noise[1] !== null || (before && before.paths[name].noise[1] !== null),
  );
  if (!names.length) return null;
  const x = (value) =>
    value === null ? 0 : Math.min(100, Math.max(0, ((value - LOW) / (HIGH - LOW)) * 100));
  return el(
    "div",
    { class: "rf-run__bars" },
    el(
      "p",
      { class: "rf-fine" },
      `Each way in, to the ear, against the noise (the upright line).${before ? " Thin: before." : ""}`,
    ),
    ...names.map((name) => {
      const level = answer.paths[name].noise[1],
        was = before ? before.paths[name].noise[1] : null,
        most = name === answer.dominant;
      const picture = svg("svg", {
        viewBox: "0 0 100 9",
        preserveAspectRatio: "none",
        "aria-hidden": "true",
      });
      picture.append(
        svg("rect", {
          class: most ? "rf-run__bar rf-run__bar--most" : "rf-run__bar",
          x: 0,
          y: 0,
          width: x(level),
          height: was === null ? 9 : 5.5,
        }),
      );
      if (was !== null)
        picture.append(svg("rect", { class: "rf-run__was", x: 0, y: 6.5, width: x(was), height: 2.5 }));
      picture.append(svg("line", { class: "rf-run__noise", x1: x(0), x2: x(0), y1: 0, y2: 9 }));
      const words = level === null ? "gone" : `${level > 0 ? "+" : ""}${decibels(level)}`;
      const changed = was === null ? "" : `, was ${was > 0 ? "+" : ""}${decibels(was)}`;
      return el(
        "div",
        { class: "rf-run__path" },
        el("span", {}, `${tables.formulas[name].name}: ${words}${changed}${most ? " (most)" : ""}`),
        picture,
      );
    }),
  );
}

/* The cures, each to be tried by a tap. */
export function cures(answer, found, tables, trial) {
  const helping = worthTelling(answer, found),
    idle = found.filter((one) => !helps(one));
  return [
    el("h2", {}, "What to do"),
    helping.length
      ? el(
          "ul",
          { class: "rf-rows" },
          helping.map((one) =>
            el(
              "li",
              { class: "rf-run__cure" },
              el(
                "span",
                {},
                ofRemedy(one, tables),
                el("small", {}, ` ${one.id === "length" ? "" : tables.remedies[one.id].but}`),
              ),
              one.id === "length"
                ? null
                : button(
                    { class: "rf-button rf-button--quiet", "data-cure": one.id, onclick: () => trial(one) },
                    "Try it",
                  ),
            ),
          ),
        )
      : el("p", {}, "Nothing: leave it as it is."),
    el("p", {}, betterCable(found)),
    idle.length
      ? el("p", { class: "rf-fine" }, `These gain 0 dB here: ${idle.map((one) => one.words).join(" ")}`)
      : null,
  ].filter(Boolean);
}

/* The table of numbers, quiet to loud. */
export function numbers(answer, run, tables) {
  const row = (name, level) =>
    el(
      "tr",
      {},
      el("th", { scope: "row" }, name),
      ...[0, 1, 2].map((end) => el("td", {}, oneFigure(level.volts[end], "V"))),
      el("td", {}, level.below[1] === null ? "–" : decibels(level.below[1])),
    );
  const rows = PATHS.filter((name) => answer.paths[name].volts[2]).map((name) =>
    row(tables.formulas[name].name, answer.paths[name]),
  );
  const treble = trebleOf(run, tables);
  return el(
    "details",
    { class: "rf-fold" },
    el("summary", {}, el("strong", {}, "Numbers")),
    el(
      "div",
      { class: "rf-scroll", tabindex: "0", role: "group", "aria-label": "Numbers" },
      el(
        "table",
        { class: "rf-table" },
        el(
          "thead",
          {},
          el(
            "tr",
            {},
            ...["at the input", "quiet", "typical", "loud", "below what is wanted"].map((one) =>
              el("th", { scope: "col" }, one),
            ),
          ),
        ),
        el("tbody", {}, ...rows, row("all together", answer.total)),
      ),
    ),
    el(
      "p",
      { class: "rf-fine" },
      `Wanted: ${oneFigure(answer.wanted[1], "V")} at the input. ` +
        (treble < -0.5 ? `Treble at 20 kHz: ${decibels(treble)}.` : "All of the treble is left."),
    ),
  );
}

/* What was guessed, with a field for each number that can be replaced. */
export function guessed(answer, run, tables, change) {
  const replaced = Object.keys(run.assume).map((key) => ({
    key,
    words: tables.constants[key] ? tables.constants[key].words : key,
    reason: "Yours.",
  }));
  const field = (one) => {
    const unit = tables.units[one.key] === "1" ? "" : tables.units[one.key];
    return number(one.words, unit, 1, LIMITS.assumed, run.assume[one.key] || 0, (value) =>
      change((it) => {
        if (value) it.assume[one.key] = value;
        else delete it.assume[one.key];
      }),
    );
  };
  const values = (one) =>
    one.values && one.values.length
      ? `${one.values.map((value) => Number(value.toPrecision(3))).join(" .. ")} ${one.unit === "1" ? "" : one.unit}. `
      : "";
  return el(
    "details",
    { class: "rf-fold" },
    el("summary", {}, el("strong", {}, "What was guessed")),
    el(
      "ul",
      { class: "rf-run__guesses" },
      [...answer.guesses, ...replaced].map((one) =>
        el(
          "li",
          {},
          el("strong", {}, one.words),
          ` ${values(one)}${one.reason} `,
          one.evidence ? el("span", { class: "rf-grade" }, one.evidence) : null,
          one.key ? el("div", { class: "rf-form" }, field(one)) : null,
        ),
      ),
    ),
  );
}

export const never = (tables) =>
  el(
    "details",
    { class: "rf-fold" },
    el("summary", {}, el("strong", {}, "Never")),
    el(
      "ul",
      {},
      Object.values(tables.never).map((row) => el("li", {}, `${row.words} ${row.why}`)),
    ),
  );
