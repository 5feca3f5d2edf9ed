/* How own numbers are said, and the mark of a verdict that rests on them: a label with a hole, drawn in dashes, never the mark of the catalogue. */

import { el, slug, verdict as verdictMark } from "../ui/dom.js";
import { used as usedOf } from "./asked.js";

const SVG = "http://www.w3.org/2000/svg";
const SIGNS = {
  safe: "M-8 0 l3.5 4 l6.5 -8",
  lossy: "M-3 -5 v9 m-4 -4 l4 4.5 l4 -4.5",
  "no signal": "M-9 0 h12",
  dangerous: "M-3 -6 v7 m0 4 v.6",
  "does not fit": "M-8 -5 l9 9 m0 -9 l-9 9",
};

/* "6.5 kohm" as "6.5 kΩ", "-10 dBV" as "−10 dBV". */
export const pretty = (text) =>
  text
    .replace(/ \+-.*$/, "")
    .replace("..", " to ")
    .replace(/\bkohm\b/, "kΩ")
    .replace(/\bMohm\b/, "MΩ")
    .replace(/\bohm\b/, "Ω")
    .replace(/\bu(?=[VA]\b)/, "µ")
    .replace(/^-/, "−");

/* A question on the page: a number stays beside its unit. */
export const asks = ({ asks }) => asks.replace(/(\d) (?=[A-Za-z])/g, "$1\u00a0");

/* How the catalogue knows its value; what nobody knows has no source. */
export const grade = ({ value, evidence }) => (value === "unknown" ? "" : evidence.grade);

/* The catalogue's value as it is shown beside an own one. */
export const catalogue = ({ value }) =>
  value === "unknown"
    ? "not known"
    : value
        .replace("+-", "±")
        .replace("..", " to ")
        .replace(/\bkohm\b/, "kΩ")
        .replace(/\bMohm\b/, "MΩ")
        .replace(/\bohm\b/, "Ω")
        .replace(/^-/, "−");

/* ", by your number: 63 V"; ", by your manual" where only yes and no were answered. */
export function words(question) {
  const used = usedOf(question),
    numbers = [
      ...new Set(used.filter(({ question: { unit } }) => unit !== null).map(({ shown }) => pretty(shown))),
    ];
  if (!numbers.length) return used.length ? ", by your manual" : "";
  return `, by your number${numbers.length > 1 ? "s" : ""}: ${numbers.slice(0, 3).join(", ")}${numbers.length > 3 ? " …" : ""}`;
}

/* The mark of a verdict; with none, the plain label of a device. */
export function mark(verdict = "") {
  const svg = document.createElementNS(SVG, "svg");
  for (const [name, value] of Object.entries({
    class: "rf-mark rf-own__mark",
    viewBox: "-14 -14 28 28",
    "aria-hidden": "true",
    "data-mark": `own-${slug(verdict)}`,
  }))
    svg.setAttribute(name, value);
  const line = {
    fill: "none",
    stroke: "currentColor",
    "stroke-width": 2,
    "stroke-linecap": "round",
    "stroke-linejoin": "round",
  };
  for (const drawn of [
    { d: "M-12.5 -9 H5 L13 0 L5 9 H-12.5 Z", "stroke-dasharray": "3.4 2.6" },
    { d: "M7.6 -1.2 a1.4 1.4 0 1 0 .01 0 z" },
    ...(verdict ? [{ d: SIGNS[verdict] || SIGNS.dangerous, "stroke-width": 2.6 }] : []),
  ]) {
    const path = document.createElementNS(SVG, "path");
    for (const [name, value] of Object.entries({ ...line, ...drawn })) path.setAttribute(name, value);
    svg.append(path);
  }
  return svg;
}

/* A verdict in a list, by own numbers. A danger keeps the mark of danger. */
export const verdict = (verdict) =>
  verdict === "dangerous"
    ? verdictMark(verdict)
    : el(
        "span",
        { class: `rf-verdict rf-own__verdict rf-verdict--${slug(verdict)}` },
        mark(verdict),
        `${verdict}, by yours`,
      );
