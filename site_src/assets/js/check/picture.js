/* An answer as one picture: mark, verdict, sentence, the three drawings, and where it comes from. */

import { slug } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { names } from "./asked.js";
import { careful } from "./cautions.js";
import { condition, marked, sentence } from "./judged.js";

const COLUMNS = 3,
  PIECE = 320,
  GAP = 16,
  SCALE = 2; // units of the drawings; dots a unit
const FONT = "Helvetica, Arial, 'Liberation Sans', sans-serif";
const NAMESPACE = "http://www.w3.org/2000/svg";

/* {canvas, name} of a judged question. `told` is the small print. */
export async function picture(question, judged, root, told) {
  const { from, through, into } = question;
  const pieces = [`port-${from}`, ...through.map((id) => `lead-${id}`), `port-${into}`];
  const images = await Promise.all(
    pieces.map((name) => Ringfence.page.loaded(`${root}draw/${encodeURIComponent(name)}.svg`)),
  );
  const mark = await Ringfence.page.drawn(symbol(judged));
  const width = Math.min(COLUMNS, images.length) * (PIECE + GAP) + GAP;
  const lines = [
    [22, "bold", names(question)],
    [17, "bold", condition(judged)],
    [17, "normal", sentence(judged)],
    [17, "bold", judged.offer],
    [17, "normal", marked(judged)],
    ...careful(question, judged).map((text) => [15, "normal", `Take care: ${text}`]),
  ]
    .filter(([, , text]) => text)
    .flatMap(([size, weight, text]) => broken(size, weight, text, width - 2 * GAP));
  const small = broken(12, "normal", told, width - 2 * GAP);
  const rows = Array.from({ length: Math.ceil(images.length / COLUMNS) }, (_, row) =>
    images.slice(row * COLUMNS, (row + 1) * COLUMNS),
  );
  const head = 60 + 3 * GAP + high(lines),
    tall = rows.map((row) => Math.max(...row.map((image) => image.naturalHeight)) + GAP);
  const height = head + tall.reduce((sum, one) => sum + one, 0) + high(small) + GAP;
  const canvas = Ringfence.page.canvas(
    width,
    height,
    (context) => {
      context.drawImage(mark, GAP, GAP, 60, 60);
      write(context, [[34, "bold", `${capital(judged.verdict)}${judged.own || ""}`]], GAP + 72, GAP + 10);
      write(context, lines, GAP, 60 + 2 * GAP);
      rows.reduce((y, row, number) => {
        row.forEach((image, place) => Ringfence.page.put(context, image, GAP + place * (PIECE + GAP), y));
        return y + tall[number];
      }, head);
      write(context, small, GAP, height - high(small) - GAP / 2);
    },
    SCALE,
  );
  return { canvas, name: `${slug(judged.verdict)}-${from}-into-${into}.png` };
}

const high = (lines) => lines.reduce((sum, [size]) => sum + size * 1.35, 0);

function write(context, lines, x, y) {
  context.fillStyle = "#1d1d1f";
  context.textBaseline = "top";
  for (const [size, weight, text] of lines) {
    context.font = `${weight} ${size}px ${FONT}`;
    context.fillText(text, x, y);
    y += size * 1.35;
  }
}

/* A text as lines no wider than `width`. */
function broken(size, weight, text, width) {
  const context = document.createElement("canvas").getContext("2d"),
    lines = [""];
  context.font = `${weight} ${size}px ${FONT}`;
  for (const word of text.split(/(?<=[\s/&,])/)) {
    if (
      lines[lines.length - 1] &&
      context.measureText(lines[lines.length - 1] + word.trimEnd()).width > width
    )
      lines.push("");
    lines[lines.length - 1] += word;
  }
  return lines.map((line) => [size, weight, line.trimEnd()]);
}

export const pictured = { high, write, broken, symbol };

/* The mark of a verdict from the page's sheet, or the one of own numbers, as an image of its own. */
function symbol({ verdict, own }) {
  const sheet =
    own && verdict !== "dangerous"
      ? Ringfence.own.mark(verdict)
      : document.getElementById(`mark-${slug(verdict)}`);
  const svg = document.createElementNS(NAMESPACE, "svg");
  for (const [name, value] of Object.entries({
    viewBox: sheet.getAttribute("viewBox"),
    width: 120,
    height: 120,
    color: "#1d1d1f",
  }))
    svg.setAttribute(name, value);
  svg.append(...[...sheet.children].map((child) => child.cloneNode(true)));
  return new XMLSerializer().serializeToString(svg);
}
