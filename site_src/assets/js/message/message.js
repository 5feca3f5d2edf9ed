/* A verdict as one upright picture for a message: word, sentence, what to do, the one number, the chain, and a code of the address where one is known. */

import { names } from "../check/asked.js";
import { condition, deciding, sentence } from "../check/judged.js";
import { pictured } from "../check/picture.js";
import { thumb } from "../check/thumb.js";
import { drawing, modules } from "../qr/code.js";
import { slug } from "../ui/dom.js";
import { amount, capital } from "../ui/words.js";

const WIDTH = 540,
  HEIGHT = 675,
  GAP = 24,
  SCALE = 2,
  MARK = 64; // 1080 x 1350 dots
const SIDE = 200,
  ROW = 74,
  CODE = 120,
  FOOT = CODE + 2 * GAP; // a piece of the chain: its drawing beside its name
const BAND = {
  safe: "#cfeae0",
  lossy: "#f7e4bf",
  "no signal": "#d6ebf8",
  dangerous: "#f5d3bd",
  "does not fit": "#f3e0ea",
}; // tints of the verdict's colours
const fits = (size, weight, text, width) => pictured.broken(size, weight, text, width);

/* An address that somebody else can open: not that of a page on this disc. */
export const known = (link) => /^https?:/.test(link);

/* The link as a code for another phone's camera; null where it is too long or leads nowhere. */
const codeOf = (link) =>
  known(link)
    ? drawing(link, "L", {
        class: "rf-code",
        role: "img",
        "aria-label": "This answer as a code for a phone's camera",
      })
    : null;

/* The number that decides, with what it is held against. */
function numberOf(judged) {
  const [first] = deciding(judged),
    { value, limit, unit } = first || {};
  if (value === undefined || value === null || !unit) return null;
  return limit === null || limit === undefined
    ? amount(value, unit)
    : `${amount(value, unit)}, limit ${amount(limit, unit)}`;
}

/* {canvas, name}, drawn on the device. */
export async function picture(question, judged, link) {
  const chain = await Promise.all(
    [...thumb(question).children].map(async (piece) => ({
      name: piece.querySelector(".rf-thumb__name").textContent,
      sides: await Promise.all(
        [...piece.querySelectorAll("img")].map(async (image) => ({
          image: await Ringfence.page.loaded(image.src || image.dataset.src),
          turned: image.classList.contains("rf-side--turned"),
        })),
      ),
    })),
  );
  const mark = await Ringfence.page.drawn(pictured.symbol(judged)),
    grid = known(link) ? modules(link, "L") : null,
    width = WIDTH - 2 * GAP;
  const head = [
    [30, "bold", `${capital(judged.verdict)}${judged.own || ""}`],
    ...fits(17, "bold", Ringfence.ways.meant(judged), width - MARK - GAP),
  ];
  const said = [condition(judged), sentence(judged), judged.offer]
      .filter(Boolean)
      .flatMap((text) => fits(17, "normal", text, width)),
    number = numberOf(judged);
  const lines = [...said, ...(number ? [[24, "bold", number]] : [])],
    small = fits(12, "normal", `${names(question)}. ${link}`, width - (grid ? CODE + GAP : 0));
  const top = GAP + Math.max(MARK, pictured.high(head)) + GAP,
    chained = top + GAP + pictured.high(lines) + GAP;
  const height = Math.max(HEIGHT, chained + chain.length * ROW + FOOT);
  const canvas = Ringfence.page.canvas(
    WIDTH,
    height,
    (context) => {
      context.fillStyle = BAND[judged.verdict];
      context.fillRect(0, 0, WIDTH, top);
      context.drawImage(mark, GAP, GAP, MARK, MARK);
      pictured.write(context, head, 2 * GAP + MARK, GAP);
      pictured.write(context, lines, GAP, top + GAP);
      chain.forEach((piece, place) => row(context, piece, chained + place * ROW, place));
      pictured.write(context, small, GAP, height - GAP - pictured.high(small));
      if (grid) code(context, grid, WIDTH - GAP - CODE, height - GAP - CODE);
    },
    SCALE,
  );
  return { canvas, name: `${slug(judged.verdict)}-${question.from}-into-${question.into}.png` };
}

function row(context, { name, sides }, y, place) {
  if (place) pictured.write(context, [[18, "bold", "↓"]], GAP + SIDE / 2 - 6, y - 14);
  const room = SIDE / sides.length,
    low = y + 10;
  sides.forEach(({ image, turned }, at) => {
    const scale = Math.min((room - 6) / image.naturalWidth, (ROW - 24) / image.naturalHeight),
      [wide, high] = [image.naturalWidth * scale, image.naturalHeight * scale];
    context.save();
    context.translate(GAP + at * room + (turned ? wide : 0), low + (ROW - 24 - high) / 2);
    context.scale(turned ? -scale : scale, scale);
    context.drawImage(image, 0, 0, image.naturalWidth, image.naturalHeight);
    context.restore();
  });
  pictured.write(
    context,
    fits(16, "bold", name, WIDTH - SIDE - 3 * GAP).slice(0, 2),
    GAP + SIDE + GAP,
    low + 10,
  );
}

function code(context, grid, x, y) {
  const size = CODE / grid.length;
  context.fillStyle = "#000000";
  grid.forEach((line, down) =>
    line.forEach((dark, along) => {
      if (dark) context.fillRect(x + along * size, y + down * size, size + 0.05, size + 0.05);
    }),
  );
}

/* Hands the picture to the device's own sheet where that takes pictures; else it is saved as a file. */
export async function send(question, judged, link) {
  const { canvas, name } = await picture(question, judged, link),
    blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
  const file = new File([blob], name, { type: "image/png" });
  if (navigator.canShare && navigator.canShare({ files: [file] }))
    return navigator
      .share({ files: [file], title: names(question) })
      .catch((refused) => (refused.name === "AbortError" ? null : Ringfence.page.save(canvas, name)));
  return Ringfence.page.save(canvas, name);
}

export { codeOf as code, numberOf as number };
