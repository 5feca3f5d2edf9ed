/* The part of a circuit that decides a finding, drawn as a small schematic: the twin of schematic.py from _ladder on. A line that crosses a
   rail in a bow does not touch it; a dot is a joint. */

import { flows, ladders, railVolts, readBeside } from "./ladder.js";
import { SYMBOL_HALF, shape, symbol } from "./symbols.js";

const WIDE = 320,
  SIZE = 12,
  STEP = 15;
const LEFT = 2,
  GUTTER = 71,
  RIGHT = WIDE - 2; // where the names of rails begin, the rails, and where they end
const PITCH = 82,
  BESIDE = 14,
  BESIDES = 62; // between columns; from a part's middle to its words, and how wide those may be
const HOP = 5,
  DOT = 2.8,
  GAP = 14;
const line = (d, look = "line") => shape("path", { class: `rf-draw-${look}`, d });
let pen = null;

/* The SVG of a working; `parts` are its parts with their keys. */
export function schematic(working, parts) {
  const drawn = [];
  let height = 0;
  for (const ladder of ladders(working, parts)) {
    const { items, tall } = drawLadder(ladder, working, parts);
    drawn.push(shape("g", { transform: `translate(0 ${height})` }, ...items));
    height += tall + GAP;
  }
  const tall = Math.max(1, Math.ceil(height - GAP));
  return shape(
    "svg",
    {
      class: "rf-schematic",
      viewBox: `0 0 ${WIDE} ${tall}`,
      role: "img",
      "aria-label": described(working, parts),
    },
    ...drawn,
  );
}

/* All that the picture shows, in words. */
function described(working, parts) {
  const rails = [...working.nets]
    .sort((one, two) => two.volts - one.volts)
    .map((net) => `${net.name} ${railVolts(net)}`)
    .join(", ");
  const each = parts.map(
    (part) =>
      `${part.key} ${[part.name, part.value].filter(Boolean).join(", ")}, between ${part.a} and ${part.b}: ${readBeside(part, working).join(", ")}.`,
  );
  return `Circuit drawing. Rails from the top: ${rails}. ${each.join(" ")}`;
}

function drawLadder({ rails, standing }, working, parts) {
  const names = rails.map((net) => ({
    name: wrapped(net.name, GUTTER - LEFT - 4, true),
    volts: wrapped(railVolts(net), GUTTER - LEFT - 4),
  }));
  const words = new Map(standing.map((one) => [one, wordsOf(one.part, working)]));
  const ys = [names[0].name.length * STEP + 6];
  for (let band = 0; band < rails.length - 1; band++) {
    const inside = standing
      .filter((one) => one.band === band)
      .map((one) => Math.max(2 * SYMBOL_HALF + 24, words.get(one).length * STEP + 14));
    ys.push(
      ys[band] + Math.max((names[band].volts.length + names[band + 1].name.length) * STEP + 8, ...inside),
    );
  }
  const shorted = new Set(parts.filter((part) => part.decides && part.a === part.b).map((part) => part.a)),
    items = [];
  rails.forEach((net, i) => {
    if (shorted.has(net.name)) items.push(line(`M${GUTTER} ${ys[i]}H${RIGHT}`, "marked"));
    items.push(line(`M${GUTTER} ${ys[i]}H${RIGHT}`, net.zero ? "heavy" : "line"));
    items.push(
      ...block(names[i].name, LEFT, ys[i] - names[i].name.length * STEP, () => true),
      ...block(names[i].volts, LEFT, ys[i] + 1),
    );
  });
  for (const one of standing)
    items.push(
      shape(
        "g",
        {},
        shape("title", {}, [one.part.key, one.part.name, ...words.get(one).slice(1)].join(" ")),
        ...stand(one, ys, words.get(one), working),
      ),
    );
  return { items, tall: ys[ys.length - 1] + names[names.length - 1].volts.length * STEP + 4 };
}

function wordsOf(part, working) {
  const said = new Set([part.value, ...readBeside(part, working)].filter(Boolean));
  return [part.key, ...[...said].flatMap((words) => wrapped(words, BESIDES, true))];
}

/* A part between its rails: line, bows over rails it does not touch, symbol, words. */
function* stand({ part, top, foot, column, upside, band }, ys, words, working) {
  const x = GUTTER + 11 + column * PITCH,
    half = SYMBOL_HALF,
    middle = (ys[band] + ys[band + 1]) / 2;
  if (part.decides) yield line(`M${x} ${ys[top]}V${ys[foot]}`, "marked");
  yield line(way(x, ys.slice(top, foot + 1), middle));
  yield shape(
    "g",
    { transform: `translate(${x} ${middle})${upside ? " rotate(180)" : ""}` },
    ...symbol(part, working.nature),
  );
  if (flows(part, working)) yield arrow(x, middle - half - 2, part.amps > 0 !== upside);
  for (const y of [ys[top], ys[foot]])
    yield shape("circle", { class: "rf-draw-solid", cx: x, cy: y, r: DOT });
  if (part.kind === "meter")
    yield text(working.nature === "test" ? "Ω" : "V", x, middle + SIZE * 0.36, true, "middle");
  yield* block(words, x + BESIDE, middle - (words.length * STEP) / 2, (i) => !i || part.decides);
}

/* The way from rail to rail with a bow over each rail between, left open where the symbol stands. */
function way(x, [top, ...below], middle) {
  const half = SYMBOL_HALF,
    foot = below[below.length - 1];
  let d = "",
    start = top;
  for (const y of below) {
    const stop = y === foot ? y : y - HOP,
      here = start < middle && middle < stop;
    d += here ? `M${x} ${start}V${middle - half}M${x} ${middle + half}V${stop}` : `M${x} ${start}V${stop}`;
    if (y !== foot) d += `M${x} ${y - HOP}a${HOP} ${HOP} 0 0 1 0 ${2 * HOP}`;
    start = y + HOP;
  }
  return d;
}

/* Which way current flows. */
function arrow(x, y, down) {
  const tip = down ? 4 : -4;
  return line(`M${x - 4} ${y - tip}H${x + 4}L${x} ${y + tip}Z`, "solid");
}

const text = (words, x, y, bold, anchor = null) =>
  shape("text", { x, y, class: bold ? "rf-draw-bold" : null, "text-anchor": anchor }, words);

/* Lines of text under one another; `y` is the top of the first. */
const block = (lines, x, y, bold = () => false) =>
  lines.map((words, i) => text(words, x, y + SIZE * 0.88 + i * STEP, bold(i)));

/* Words in as few lines as fit; a number and its unit stay together, and a word is only broken if it must be. */
function wrapped(words, room, bold = false) {
  const lines = [""],
    fits = (words) => width(words.trim(), bold) <= room;
  for (const word of words.replace(/(\d) (?=\D)/g, "$1\u00a0").split(/(?<=[ -])/)) {
    if (fits(lines[lines.length - 1] + word)) {
      lines[lines.length - 1] += word;
      continue;
    }
    lines.push("");
    for (const letter of word) {
      if (!fits(lines[lines.length - 1] + letter)) lines.push("");
      lines[lines.length - 1] += letter;
    }
  }
  return lines.map((one) => one.trim()).filter(Boolean);
}

function width(words, bold) {
  pen = pen || document.createElement("canvas").getContext("2d");
  pen.font = `${bold ? 700 : 400} ${SIZE}px ${getComputedStyle(document.body).fontFamily}`;
  return pen.measureText(words).width;
}
