/* Treble left against length, a line of its own pattern for each kind of cable, and the same numbers as a table. */

import { kindsFor, trebleAt } from "../interference/apart.js";
import { lengthOf } from "../interference/nearby.js";
import { trebleOf } from "../interference/remedies.js";
import { metres } from "../interference/words.js";
import { el } from "../ui/dom.js";

const LENGTHS = [1, 3, 10, 30, 100, 300],
  STEPS = 24,
  LOW = -12,
  WIDE = 320,
  TALL = 150,
  LEFT = 34,
  TOP = 8,
  FOOT = 20;
const PATTERNS = ["", "9 5", "2 5"];
const svg = (tag, attributes, ...children) => {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
};
const x = (metres) =>
  LEFT + (Math.log10(metres) / Math.log10(LENGTHS[LENGTHS.length - 1])) * (WIDE - LEFT - 14);
const y = (decibels) => TOP + Math.min(decibels / LOW, 1) * (TALL - TOP - FOOT);
const told = (value) => value.toFixed(1).replace("-", "−");

/* The style of all this, asked for once. `root` leads to the top of the site. */
export const styled = (root) =>
  document.getElementById("rf-hum-style") ||
  document.head.append(
    el("link", { id: "rf-hum-style", rel: "stylesheet", href: `${root}assets/css/hum.css` }),
  );

/* The plot for the two devices of a run, its length marked. */
export function treble(run, tables) {
  const kinds = kindsFor(run, tables),
    name = (kind) => tables.cables[kind].name;
  const span = [...Array(STEPS + 1).keys()].map((i) => LENGTHS[LENGTHS.length - 1] ** (i / STEPS));
  const curve = (kind) =>
    span
      .map((metres) => [metres, trebleAt(run, kind, metres, tables)])
      .filter(([, level], i, all) => !i || all[i - 1][1] > LOW)
      .map(([metres, level]) => `${x(metres).toFixed(1)},${y(level).toFixed(1)}`)
      .join(" ");
  const at = Math.min(Math.max(lengthOf(run), 1), LENGTHS[LENGTHS.length - 1]);
  const text = (left, top, words, anchor) => svg("text", { x: left, y: top, "text-anchor": anchor }, words);
  const picture = svg(
    "svg",
    {
      class: "rf-hum__plot",
      viewBox: `0 0 ${WIDE} ${TALL}`,
      role: "img",
      "aria-label": `Treble left at 20 kHz over metres of lead; the numbers are in the table below`,
    },
    ...[0, -3, -6, -9, -12].flatMap((level) => [
      svg("line", { class: "rf-hum__grid", x1: LEFT, x2: WIDE - 14, y1: y(level), y2: y(level) }),
      text(LEFT - 4, y(level) + 4, told(level).replace(".0", ""), "end"),
    ]),
    ...LENGTHS.flatMap((metres) => [
      svg("line", { class: "rf-hum__grid", x1: x(metres), x2: x(metres), y1: TOP, y2: TALL - FOOT }),
      text(x(metres), TALL - 5, String(metres), "middle"),
    ]),
    svg("line", { class: "rf-hum__here", x1: x(at), x2: x(at), y1: TOP, y2: TALL - FOOT }),
    ...kinds.map((kind, i) =>
      svg("polyline", { class: "rf-hum__curve", "stroke-dasharray": PATTERNS[i], points: curve(kind) }),
    ),
  );
  const key = kinds.map((kind, i) =>
    el(
      "li",
      {},
      svg(
        "svg",
        { viewBox: "0 0 36 8", width: 36, height: 8, "aria-hidden": "true" },
        svg("line", { class: "rf-hum__curve", "stroke-dasharray": PATTERNS[i], x1: 0, x2: 36, y1: 4, y2: 4 }),
      ),
      el("span", {}, name(kind)),
    ),
  );
  const row = (kind) =>
    el(
      "tr",
      {},
      el("th", { scope: "row" }, name(kind)),
      LENGTHS.map((metres) => el("td", {}, told(trebleAt(run, kind, metres, tables)))),
    );
  return el(
    "figure",
    { class: "rf-hum__treble" },
    el("figcaption", {}, sentence(run, tables), " Below: dB left at 20 kHz, over metres of lead."),
    picture,
    el("ul", { class: "rf-hum__key" }, key),
    el(
      "details",
      { class: "rf-more" },
      el("summary", {}, "The same as a table"),
      el(
        "div",
        { class: "rf-scroll", tabindex: "0", role: "group", "aria-label": "Treble against length" },
        el(
          "table",
          { class: "rf-table" },
          el(
            "thead",
            {},
            el(
              "tr",
              {},
              el("th", { scope: "col" }, "dB at 20 kHz"),
              LENGTHS.map((metres) => el("th", { scope: "col" }, `${metres} m`)),
            ),
          ),
          el("tbody", {}, kinds.map(row)),
        ),
      ),
    ),
  );
}

function sentence(run, tables) {
  const left = trebleOf(run, tables),
    length = lengthOf(run);
  return left > -0.5
    ? `${metres(length)} costs no treble you would hear.`
    : `${metres(length)} costs ${told(-left)} dB of treble at 20 kHz${left < -3 ? ": it sounds dull" : ""}.`;
}
