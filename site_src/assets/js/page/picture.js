"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.picture = Ringfence.picture || {};

/* PNG files made in the browser from our own drawings: black on white, large enough to print. */
(function (picture) {
  const SCALE = 4; // dots per unit of a drawing: 1280 across, 90 mm at 360 to the inch
  const GROUND = "#f6f4ef"; // the drawings' paper
  const PAPER = "#090b10"; // white less the drawings' paper: dodged with it, their paper becomes white and ink stays ink
  const LATER = 1000; // ms until the browser has surely begun to write

  /* A drawing of this site as an image, ready to draw; without the style sheet that makes it follow the dark: paper is light. */
  picture.loaded = async (address) => picture.drawn(await text(address));

  /* Where a drawing is to be had with white for its paper, for what will be printed; where it may not be read back, as it is. */
  picture.onWhite = async function (address) {
    try {
      return data((await text(address)).replaceAll(GROUND, "#ffffff"));
    } catch {
      return address;
    }
  };

  const text = async (address) => (await fetch(address)).text();
  const data = (drawing) => `data:image/svg+xml,${encodeURIComponent(drawing.replace(/<style[^]*?<\/style>/, ""))}`;

  /* The same of the text of a drawing. */
  picture.drawn = async function (drawing) {
    const image = new Image();
    image.src = data(drawing);
    await image.decode();
    return image;
  };

  /* A canvas of white, in units of a drawing; `paint(context)` draws on it. */
  picture.canvas = function (width, height, paint, scale = SCALE) {
    const canvas = document.createElement("canvas");
    canvas.width = Math.ceil(width * scale);
    canvas.height = Math.ceil(height * scale);
    const context = canvas.getContext("2d");
    context.fillStyle = "#ffffff";
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.scale(scale, scale);
    paint(context);
    return canvas;
  };

  /* An image at its own size, its paper made white. */
  picture.put = function (context, image, x = 0, y = 0) {
    context.drawImage(image, x, y, image.naturalWidth, image.naturalHeight);
    context.globalCompositeOperation = "color-dodge";
    context.fillStyle = PAPER;
    context.fillRect(x, y, image.naturalWidth, image.naturalHeight);
    context.globalCompositeOperation = "source-over";
  };

  /* Hands a canvas to the person as a file. A page opened from a disc may not read its own drawings back: then it throws. */
  picture.save = async function (canvas, name) {
    const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), LATER);
  };

  /* A button that saves what `make()` resolves to, {canvas, name}; where the browser refuses it says so. */
  picture.button = (words, label, make) => Ringfence.page.button(words, async (made) => {
    try {
      const { canvas, name } = await make();
      await picture.save(canvas, name);
    } catch (refused) {
      made.replaceWith("No PNG here: this browser does not let the page read its drawings.");
    }
  }, label);

  /* The whole of one drawing. */
  picture.drawing = async function (address, name) {
    const image = await picture.loaded(address);
    return { canvas: picture.canvas(image.naturalWidth, image.naturalHeight, (context) => picture.put(context, image)), name };
  };
})(Ringfence.picture);
