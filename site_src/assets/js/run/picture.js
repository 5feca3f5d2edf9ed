/* The run as it lies: two devices, the lead, the loop of both earths shaded, what is beside it. The way in that lets most through is marked by a
   broad broken band and named below, if any of it may be heard. As generator/drawing/runs.py draws the worked runs, for a run that changes. */

import { lengthOf } from "../interference/nearby.js";
import { metres } from "../interference/words.js";
import { el } from "../ui/dom.js";

const WIDE = 340,
  BOX = 92,
  HIGH = 50,
  EARTH = 116,
  FOOT = 150,
  ROW = 22,
  BREAK = 13,
  MARGIN = 4;
const LEFT = MARGIN + BOX,
  RIGHT = WIDE - MARGIN - BOX,
  FROM = MARGIN + BOX / 2,
  INTO = WIDE - MARGIN - BOX / 2,
  MIDDLE = HIGH / 2;
const POWER = { earthed: "earthed mains", insulated: "two-pin mains", battery: "no mains" };
const MARKED = {
  chassis: "loop",
  loop: "loop",
  drain: "loop",
  "contact-one": "loop",
  coil: "spare",
  electric: "electric",
  induced: "induced",
};
const svg = (tag, attributes, ...children) => {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
};
const look = (name) => `rf-lies__${name}`;
const line = (x1, y1, x2, y2, name) => svg("line", { x1, y1, x2, y2, class: look(name) });
const rect = (x, y, width, height, name, rx = 0) =>
  svg("rect", { x, y, width, height, rx, class: look(name) });
const text = (x, y, words, anchor = "middle") => svg("text", { x, y, "text-anchor": anchor }, words);

/* The picture with its words; `found` is the answer of the run. */
export function picture(found, run, tables) {
  const marked = found.worst === "inaudible" ? "" : MARKED[found.dominant] || "",
    both = run.source.powered === "earthed" && run.input.powered === "earthed";
  const beside = [
    ...run.beside.map((one) => [
      `${tables.mains[one.cable].name}, ${one.lies === "crossing" ? "crossing" : `${metres(one.distance)} away`}`,
      one.lies === "crossing",
    ]),
    ...run.things.map((one) => [`${tables.things[one.thing].name}, ${metres(one.distance)} away`, false]),
  ];
  const near = run.transmitters.map(
    (one) => `${tables.transmitters[one.transmitter].name}, ${metres(one.distance)} away`,
  );
  const most = marked
    ? `Marked: ${tables.formulas[found.dominant].name.toLowerCase()}, the way most of it gets in.`
    : "";
  const said =
    `${tables.sources[run.source.device].name} (${POWER[run.source.powered]}) into ${tables.inputs[run.input.device].name} (${POWER[run.input.powered]}), ` +
    `${metres(lengthOf(run))}, ${found.balanced ? "two cores" : "one core"}, screen ${found.closed ? "joined" : "open"}.${both && found.closed ? " The loop through both earths is closed." : ""}` +
    `${beside.length ? ` Beside it: ${beside.map(([words]) => words).join("; ")}.` : ""}${most ? ` ${most}` : ""}`;
  const whole = FOOT + (beside.length + near.length) * ROW;
  return el(
    "figure",
    { class: "rf-lies" },
    svg(
      "svg",
      { viewBox: `0 -1 ${WIDE} ${whole + 1}`, role: "img", "aria-label": said },
      ...loop(marked, both, run, found.closed),
      ...lead(marked, run, found),
      ...device(MARGIN, tables.sources[run.source.device].name),
      ...device(RIGHT, tables.inputs[run.input.device].name),
      ...earth(FROM, run.source.powered),
      ...earth(INTO, run.input.powered),
      ...beside.flatMap(([words, crossing], i) =>
        row(
          FOOT + i * ROW,
          words,
          crossing,
          ["induced", "electric"].includes(marked) && i < run.beside.length,
        ),
      ),
      ...near.flatMap((words, i) => waves(FOOT + (beside.length + i) * ROW, words)),
    ),
    most ? el("figcaption", {}, most) : null,
  );
}

function device(x, name) {
  const lines = wrapped(name).slice(0, 3),
    top = MIDDLE - (lines.length - 1) * 7 + 4;
  return [
    rect(x, 0, BOX, HIGH, "device", 5),
    ...lines.map((words, i) => text(x + BOX / 2, top + i * 14, words)),
  ];
}

function wrapped(words) {
  const lines = [""];
  for (const word of words.split(" ")) {
    const last = lines[lines.length - 1];
    if (last && last.length + word.length >= BREAK) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  }
  return lines;
}

/* The screen as an envelope, its cores inside, a gap where it is open; turns of spare lead above it. */
function lead(marked, run, { balanced, closed }) {
  const made = ["induced", "electric"].includes(marked) ? [line(LEFT, MIDDLE, RIGHT, MIDDLE, "marked")] : [],
    x = (LEFT + RIGHT) / 2;
  made.push(rect(LEFT, MIDDLE - 9, RIGHT - LEFT - (closed ? 0 : 14), 18, "screen", 8));
  for (const y of balanced ? [MIDDLE - 3, MIDDLE + 3] : [MIDDLE]) made.push(line(LEFT, y, RIGHT, y, "core"));
  if (run.transformer)
    made.push(
      rect(x + 24, MIDDLE - 12, 22, 24, "device", 3),
      line(x + 33, MIDDLE - 8, x + 33, MIDDLE + 8, "heavy"),
      line(x + 37, MIDDLE - 8, x + 37, MIDDLE + 8, "heavy"),
    );
  if (run.ferrite) made.push(rect(RIGHT - 30, MIDDLE - 12, 16, 24, "ferrite", 4));
  if (run.spare)
    for (const i of [-1, 0, 1])
      made.push(
        svg("circle", {
          cx: x - 30 + i * 7,
          cy: MIDDLE - 14,
          r: 9,
          class: look(marked === "spare" ? "marked" : "line"),
        }),
      );
  made.push(text(x, HIGH + 8, metres(lengthOf(run))));
  return made;
}

/* The loop of screen and earths: shaded where both are earthed and the screen joins them, dotted where only a capacitance closes it. */
function loop(marked, both, run, closed) {
  const points = `${FROM},${HIGH} ${FROM},${EARTH} ${INTO},${EARTH} ${INTO},${HIGH}`,
    made = [];
  if (both && closed)
    made.push(
      rect(FROM, MIDDLE, INTO - FROM, EARTH - MIDDLE, "loop"),
      text(WIDE / 2, EARTH - 14, "loop of both earths"),
    );
  if (marked === "loop")
    made.push(
      svg("polyline", { points, class: look("marked") }),
      line(LEFT, MIDDLE, RIGHT, MIDDLE, "marked"),
    );
  if (![run.source.powered, run.input.powered].includes("battery"))
    made.push(svg("polyline", { points, class: look(both ? "line" : "dots") }));
  return made;
}

function earth(x, powered) {
  const made = [text(x, EARTH + 28, POWER[powered])];
  if (powered === "earthed")
    made.push(...[11, 7, 3].map((w, i) => line(x - w, EARTH + i * 4, x + w, EARTH + i * 4, "heavy")));
  if (powered === "insulated")
    made.push(
      line(x - 10, EARTH - 24, x + 10, EARTH - 24, "heavy"),
      line(x - 10, EARTH - 18, x + 10, EARTH - 18, "heavy"),
    );
  return made;
}

function row(y, words, crossing, marked) {
  const at = y + ROW / 2,
    wires = crossing
      ? [line(26, y + 2, 26, y + 20, "heavy"), line(31, y + 2, 31, y + 20, "heavy")]
      : [line(MARGIN, at - 2.5, 54, at - 2.5, "heavy"), line(MARGIN, at + 2.5, 54, at + 2.5, "heavy")];
  return [
    ...(marked ? [line(MARGIN, at, 54, at, "marked")] : []),
    ...wires,
    text(64, at + 4, cut(words), "start"),
  ];
}

const waves = (y, words) => [
  ...[3, 6, 9].map((r) => svg("circle", { cx: 29, cy: y + ROW / 2, r, class: look("line") })),
  text(64, y + ROW / 2 + 4, cut(words), "start"),
];
const cut = (words) => (words.length > 46 ? `${words.slice(0, 44)} …` : words);
