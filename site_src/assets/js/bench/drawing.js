/* The wires and parts between the contacts, from contact to contact; a gap where two only cross. */

import { listed } from "../ui/words.js";
import { runs as runsOf } from "./layout.js";
import { said as saidOf } from "./wiring.js";

const SVG = "http://www.w3.org/2000/svg";
const WIDTH = 148; // px: the room for the wires
const BREAK = 14; // px from the middle where a cut-off conductor ends

function shape(tag, attributes, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/* The SVG of a wiring laid out. `picked` is the contact in hand, `onjoin` is called with a join that is tapped. */
export function drawing(wiring, layout, names, picked, onjoin) {
  const svg = shape("svg", {
    class: "rf-wires",
    width: WIDTH,
    height: layout.height,
    viewBox: `0 0 ${WIDTH} ${layout.height}`,
    role: "img",
    "aria-label": said(wiring),
  });
  const runs = runsOf(wiring, layout),
    share = placed(runs),
    words = []; // words go on top, where no line can cut them
  for (const run of runs) svg.append(names.has(run.what) ? wire(run) : part(run));
  svg.append(...settled(words).map(text));
  return svg;

  function wire(run) {
    const name = names.get(run.what),
      { path } = run.to ? curve(run) : cutOff(run);
    const held = picked && run.what.includes(picked) ? " rf-wire--held" : "";
    const group = shape(
      "g",
      { class: `rf-wire${name === "screen" ? " rf-wire--screen" : ""}${held}` },
      ...strokes(path),
      shape("path", { class: "rf-wire__touch", d: path }),
    );
    if (run.first) words.push(label(name, run));
    group.addEventListener("click", () => onjoin(run.what));
    return group;
  }

  function part(run) {
    const { path, x, y, angle } = curve(run, share),
      beside = Math.abs(angle) > 45;
    const right = x < WIDTH * 0.6;
    if (run.first)
      words.push({
        said: printed(run.what.value),
        x: beside ? x + (right ? 13 : -13) : x,
        y: beside ? y + 4 : y - 13,
        anchor: beside ? (right ? "start" : "end") : "middle",
        name: "rf-part__value",
      });
    return shape(
      "g",
      { class: "rf-part" },
      ...strokes(path),
      shape(
        "g",
        { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${(angle - 90).toFixed(1)})` },
        ...SYMBOLS[run.kind](run),
      ),
    );
  }
}

const strokes = (path) => [
  shape("path", { class: "rf-wire__gap", d: path }),
  shape("path", { class: "rf-wire__line", d: path }),
];

/* {path, x, y, angle}: the line, the place for a symbol on it and the direction there. Across it is an S, within one side a loop. */
function curve(run, share = 0.5) {
  const points = run.from.side === run.to.side ? loop(run) : across(run);
  const [[ax, ay], [bx, by], [cx, cy], [dx, dy]] = points;
  const t = run.place || share,
    u = 1 - t; // a cubic of Bézier, and its slope
  const at = (a, b, c, d) => u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
  const slope = (a, b, c, d) => u * u * (b - a) + 2 * u * t * (c - b) + t * t * (d - c);
  return {
    path: `M${ax} ${ay}C${bx} ${by} ${cx} ${cy} ${dx} ${dy}`,
    x: at(ax, bx, cx, dx),
    y: at(ay, by, cy, dy),
    angle: (Math.atan2(slope(ay, by, cy, dy), slope(ax, bx, cx, dx)) * 180) / Math.PI,
  };
}

function across({ from, to, nth }) {
  const [one, two] = from.side === "left" ? [from.y, to.y] : [to.y, from.y];
  const bow = nth * 30; // a second line between the same contacts bends away from the first
  return [
    [0, one],
    [WIDTH / 2, one + bow],
    [WIDTH / 2, two + bow],
    [WIDTH, two],
  ];
}

function loop({ from, to, kind, number = 0 }) {
  const span = Math.abs(to.y - from.y);
  const depth =
    kind === "join"
      ? Math.min(52, 12 + span * 0.16)
      : kind === "transformer"
        ? WIDTH / 2 - 14
        : Math.min(90, 28 + number * 16);
  const [edge, reach] = from.side === "left" ? [0, depth / 0.75] : [WIDTH, WIDTH - depth / 0.75];
  const [top, low] = from.y < to.y ? [from.y, to.y] : [to.y, from.y];
  return [
    [edge, top],
    [reach, top],
    [reach, low],
    [edge, low],
  ];
}

/* Where symbols stand on their lines, so that few stand on each other: parts within a side keep the room of that side. */
function placed(runs) {
  const loops = { left: 0, right: 0 };
  for (const run of runs.filter(({ to, kind }) => to && kind !== "join" && kind !== "transformer")) {
    if (run.from.side !== run.to.side) continue;
    run.number = loops[run.from.side]++;
    run.place = [0.5, 0.34, 0.66][run.number % 3];
  }
  return loops.left && !loops.right ? 0.66 : loops.right && !loops.left ? 0.34 : 0.5;
}

function cutOff({ from: { side, y } }) {
  const [start, stop] = side === "left" ? [0, WIDTH / 2 - BREAK] : [WIDTH, WIDTH / 2 + BREAK];
  return { path: `M${start} ${y}H${stop}M${stop} ${y - 6}V${y + 6}` };
}

function label(name, { from, to }) {
  const left = from.side === "left" || (to && to.side === "left");
  const [y, end] = from.side === "left" || !to || to.side !== "left" ? [from.y, to && to.y] : [to.y, from.y];
  const climbs = to && from.side !== to.side && end < y; // its name stands below it then, out of its way
  return {
    said: name.replace(/-/g, " "),
    x: left ? 7 : WIDTH - 7,
    y: climbs ? y + 15 : y - 6,
    anchor: left ? "start" : "end",
    name: null,
  };
}

const text = ({ said, x, y, anchor, name }) =>
  shape("text", { class: name, x: x.toFixed(1), y: y.toFixed(1), "text-anchor": anchor }, said);

/* Words moved up or down where they would stand on others; widths are a guess of 6 px a letter, which is enough for that. */
function settled(words) {
  const taken = [];
  return words.map((one) => {
    const wide = one.said.length * 6,
      left = one.x - { start: 0, middle: wide / 2, end: wide }[one.anchor];
    const free = (y) =>
      !taken.some(
        (other) => Math.abs(other.y - y) < 11 && left < other.left + other.wide && other.left < left + wide,
      );
    const y = [0, 11, -11, 22, -22].map((step) => one.y + step).find(free) || one.y;
    taken.push({ y, left, wide });
    return { ...one, y };
  });
}

/* Symbols stand upright around 0, 0; 1 to 1 with the pixels of the drawing. */
const SYMBOLS = {
  resistor: () => [shape("rect", { class: "rf-part__body", x: -5, y: -12, width: 10, height: 24 })],
  capacitor: () => [
    shape("rect", { class: "rf-part__clear", x: -8, y: -3, width: 16, height: 6 }),
    shape("path", { class: "rf-part__line", d: "M-10 -3.5H10M-10 3.5H10" }),
  ],
  transformer: ({ from }) => {
    const inward = from.side === "left" ? 1 : 0;
    return [
      shape("rect", { class: "rf-part__clear", x: -5, y: -15, width: 10, height: 30 }),
      shape("path", {
        class: "rf-part__line",
        d: `M0 -15${`a5 5 0 0 ${inward} 0 10`.repeat(3)}M${inward ? 11 : -11} -15V15`,
      }),
    ];
  },
};

/* The drawing in words, for who cannot see it. */
function said(wiring) {
  const joins = wiring.joins.map((join) =>
    join.length > 1
      ? `${listed(join.map((node) => saidOf(wiring, node)))} are joined`
      : `${saidOf(wiring, join[0])} is cut off at the far end`,
  );
  return `The lead as wired: ${[...joins, ...wiring.parts.map((part) => partSaid(wiring, part))].join("; ") || "nothing joined yet"}.`;
}

/* "4.7 kohm" as print has it: "4.7 kΩ". */
export const printed = (value) =>
  value
    .replace("ohm", "Ω")
    .replace(/\bu(?=[FHVAW])/, "µ")
    .replace("+-", " ± ");

export function partSaid(wiring, { kind, nodes, value, rating }) {
  const [one, two, three, four] = nodes.map((node) => saidOf(wiring, node));
  if (kind === "transformer")
    return `transformer ${value}, first winding from ${one} to ${two}, second from ${three} to ${four}`;
  return `${kind} ${printed(value)} from ${one} to ${two}, ${rating ? `stands ${printed(rating)}` : "what it stands is not known"}`;
}
