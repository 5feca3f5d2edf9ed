/* PNG files made in the browser from our own drawings: black on white, large enough to print. */

import { button } from "./button.js";

const SCALE = 4; // dots per unit of a drawing: 1280 across, 90 mm at 360 to the inch
const GROUND = "#f6f4ef"; // the drawings' paper
const PAPER = "#090b10"; // white less the drawings' paper: dodged with it, their paper becomes white and ink stays ink
const LATER = 1000; // ms until the browser has surely begun to write

/* A drawing of this site as an image, ready to draw; without the style sheet that makes it follow the dark: paper is light. */
export const loaded = async (address) => drawn(await text(address));

/* Where a drawing is to be had with white for its paper, for what will be printed; where it may not be read back, as it is. */
export async function onWhite(address) {
  try {
    return data((await text(address)).replaceAll(GROUND, "#ffffff"));
  } catch {
    return address;
  }
}

const text = async (address) => (await fetch(address)).text();
const data = (drawing) =>
  `data:image/svg+xml,${encodeURIComponent(drawing.replace(/<style[\s\S]*?<\/style>/, ""))}`;

/* The same of the text of a drawing. */
export async function drawn(drawing) {
  const image = new Image();
  image.src = data(drawing);
  await image.decode();
  return image;
}

/* A canvas of white, in units of a drawing; `paint(context)` draws on it. */
export function canvas(width, height, paint, scale = SCALE) {
  const canvas = document.createElement("canvas");
  canvas.width = Math.ceil(width * scale);
  canvas.height = Math.ceil(height * scale);
  const context = canvas.getContext("2d");
  context.fillStyle = "#ffffff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.scale(scale, scale);
  paint(context);
  return canvas;
}

/* An image at its own size, its paper made white. */
export function put(context, image, x = 0, y = 0) {
  context.drawImage(image, x, y, image.naturalWidth, image.naturalHeight);
  context.globalCompositeOperation = "color-dodge";
  context.fillStyle = PAPER;
  context.fillRect(x, y, image.naturalWidth, image.naturalHeight);
  context.globalCompositeOperation = "source-over";
}

/* Hands a canvas to the person as a file. A page opened from a disc may not read its own drawings back: then it throws. */
export async function save(canvas, name) {
  const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), LATER);
}

/* A button that saves what `make()` resolves to, {canvas, name}; where the browser refuses it says so. */
export const saver = (words, label, make) =>
  button(
    words,
    async (made) => {
      try {
        const { canvas, name } = await make();
        await save(canvas, name);
      } catch {
        made.replaceWith("No PNG here: this browser does not let the page read its drawings.");
      }
    },
    label,
  );

/* The whole of one drawing. */
export async function drawing(address, name) {
  const image = await loaded(address);
  return { canvas: canvas(image.naturalWidth, image.naturalHeight, (context) => put(context, image)), name };
}
