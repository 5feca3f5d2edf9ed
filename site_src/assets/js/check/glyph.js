/* A connector half as small as a word: its mating face with the contacts where they stand, or the bands of its plug. What is filled goes in,
   what is hollow takes it. */

import { connector as connectorOf } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";

const SVG = "http://www.w3.org/2000/svg";
const SIZE = 32,
  ROOM = 14,
  LEAST = 1.5; // units: the picture, from its middle to its edge, the smallest contact
const known = new Map();

function shape(tag, attributes, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/* The picture of a port's half, or of the first and the last end of a lead, one above the other; nothing is said that the words beside it do not say. */
export function glyphs(entry) {
  const ends = Object.values(entry.ends || {}),
    places = entry.ends ? [ends[0], ends[ends.length - 1]] : [entry];
  return el("span", { class: "rf-glyphs", "aria-hidden": "true" }, places.map(glyph));
}

function glyph({ connector, half }) {
  const key = `${connector}/${half}`;
  if (!known.has(key))
    known.set(
      key,
      shape(
        "svg",
        { class: "rf-glyph", viewBox: `0 0 ${SIZE} ${SIZE}` },
        ...drawn(connectorOf(connector), half),
      ),
    );
  return known.get(key).cloneNode(true);
}

function drawn(connector, half) {
  const goesIn = half === "male" || half === "plug";
  if (connector.shape === "concentric") return bands(connector, goesIn);
  if (connector.shape === "coaxial")
    return [ring(16, 16, ROOM - 3, "line"), ring(16, 16, 4, goesIn ? "solid" : "line")];
  return face(connector, half, goesIn);
}

const ring = (cx, cy, r, look) => shape("circle", { cx, cy, r, class: `rf-draw-${look}` });

/* The face from the front: the male one as it is measured, the female one mirrored. */
function face({ shape: outline, face: stands, key_angle: key, halves }, half, goesIn) {
  const at = ({ angle, radius }, scale) => [
    16 + (goesIn ? 1 : -1) * Math.sin((angle * Math.PI) / 180) * radius * scale,
    16 - Math.cos((angle * Math.PI) / 180) * radius * scale,
  ];
  const points = Object.values(stands),
    reach = Math.max(...points.map(({ radius }) => radius)),
    round = outline === "circular";
  const scale = (round ? ROOM - 5 : ROOM - 3) / (reach || 1),
    dot = Math.max(LEAST, Math.min(2.6, 15 / points.length)),
    middles = points.map((point) => at(point, scale));
  const tall = reach ? Math.max(...middles.map(([, y]) => Math.abs(y - 16))) + 5 : ROOM; // one alone in the middle of a square
  const shell = round
    ? ring(16, 16, ROOM, "line")
    : shape("rect", {
        x: 1,
        y: 16 - tall,
        width: 30,
        height: 2 * tall,
        rx: Math.min(tall, 5),
        class: "rf-draw-line",
      });
  const [kx, ky] =
    round && key !== null && key !== undefined && halves[half] ? at({ angle: key, radius: ROOM }, 1) : [];
  return [
    shell,
    ...(kx === undefined ? [] : [ring(kx, ky, 1.8, "solid")]),
    ...middles.map(([x, y]) => ring(x, y, dot, goesIn ? "solid" : "line")),
  ];
}

/* A round plug from the side, tip to the right: as many bands as contacts. */
function bands({ contacts }, goesIn) {
  const look = `rf-draw-${goesIn ? "solid" : "line"}`,
    count = contacts.length,
    wide = (SIZE - 4) / count;
  return contacts.map((_, i) => {
    const x = SIZE - 2 - (i + 1) * wide,
      end = x + wide - 1.6,
      nose = end - Math.min(4, wide / 2);
    return shape("path", {
      class: look,
      d: i ? `M${x} 11.5H${end}V20.5H${x}Z` : `M${x} 11.5H${nose}L${end} 14.5V17.5L${nose} 20.5H${x}Z`,
    });
  });
}
