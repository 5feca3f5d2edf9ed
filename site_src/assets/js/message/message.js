"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.message = Ringfence.message || {};

/* A verdict as one upright picture for a message: word, sentence, what to do, the one number, the chain, and a code of the address where one is known. */
(function (message, check, ui) {
  const WIDTH = 540, HEIGHT = 675, GAP = 24, SCALE = 2, MARK = 64; // 1080 x 1350 dots
  const SIDE = 200, ROW = 74, CODE = 120, FOOT = CODE + 2 * GAP; // a piece of the chain: its drawing beside its name
  const BAND = { "safe": "#cfeae0", "lossy": "#f7e4bf", "no signal": "#d6ebf8", "dangerous": "#f5d3bd", "does not fit": "#f3e0ea" }; // tints of the verdict's colours
  const fits = (size, weight, text, width) => check.pictured.broken(size, weight, text, width);

  /* An address that somebody else can open: not that of a page on this disc. */
  message.known = (link) => /^https?:/.test(link);

  /* The link as a code for another phone's camera; null where it is too long or leads nowhere. */
  message.code = (link) => (message.known(link) ? Ringfence.qr.drawing(link, "L", { class: "rf-code", role: "img", "aria-label": "This answer as a code for a phone's camera" }) : null);

  /* The number that decides, with what it is held against. */
  message.number = function (judged) {
    const [first] = check.deciding(judged), { value, limit, unit } = first || {};
    if (value === undefined || value === null || !unit) return null;
    return limit === null || limit === undefined ? ui.amount(value, unit) : `${ui.amount(value, unit)}, limit ${ui.amount(limit, unit)}`;
  };

  /* {canvas, name}, drawn on the device. */
  message.picture = async function (question, judged, link) {
    const chain = await Promise.all([...check.thumb(question).children].map(async (piece) => ({ name: piece.querySelector(".rf-thumb__name").textContent,
      sides: await Promise.all([...piece.querySelectorAll("img")].map(async (image) => ({ image: await Ringfence.picture.loaded(image.src), turned: image.classList.contains("rf-side--turned") }))) })));
    const mark = await Ringfence.picture.drawn(check.pictured.symbol(judged)), grid = message.known(link) ? Ringfence.qr.modules(link, "L") : null, width = WIDTH - 2 * GAP;
    const head = [[30, "bold", `${ui.capital(judged.verdict)}${judged.own || ""}`], ...fits(17, "bold", check.means(judged), width - MARK - GAP)];
    const said = [check.condition(judged), check.sentence(judged), judged.offer].filter(Boolean).flatMap((text) => fits(17, "normal", text, width)), number = message.number(judged);
    const lines = [...said, ...(number ? [[24, "bold", number]] : [])], small = fits(12, "normal", `${check.names(question)}. ${link}`, width - (grid ? CODE + GAP : 0));
    const top = GAP + Math.max(MARK, check.pictured.high(head)) + GAP, chained = top + GAP + check.pictured.high(lines) + GAP;
    const height = Math.max(HEIGHT, chained + chain.length * ROW + FOOT);
    const canvas = Ringfence.picture.canvas(WIDTH, height, (context) => {
      context.fillStyle = BAND[judged.verdict];
      context.fillRect(0, 0, WIDTH, top);
      context.drawImage(mark, GAP, GAP, MARK, MARK);
      check.pictured.write(context, head, 2 * GAP + MARK, GAP);
      check.pictured.write(context, lines, GAP, top + GAP);
      chain.forEach((piece, place) => row(context, piece, chained + place * ROW, place));
      check.pictured.write(context, small, GAP, height - GAP - check.pictured.high(small));
      if (grid) code(context, grid, WIDTH - GAP - CODE, height - GAP - CODE);
    }, SCALE);
    return { canvas, name: `${ui.slug(judged.verdict)}-${question.from}-into-${question.into}.png` };
  };

  function row(context, { name, sides }, y, place) {
    if (place) check.pictured.write(context, [[18, "bold", "↓"]], GAP + SIDE / 2 - 6, y - 14);
    const room = SIDE / sides.length, low = y + 10;
    sides.forEach(({ image, turned }, at) => {
      const scale = Math.min((room - 6) / image.naturalWidth, (ROW - 24) / image.naturalHeight), [wide, high] = [image.naturalWidth * scale, image.naturalHeight * scale];
      context.save();
      context.translate(GAP + at * room + (turned ? wide : 0), low + (ROW - 24 - high) / 2);
      context.scale(turned ? -scale : scale, scale);
      context.drawImage(image, 0, 0, image.naturalWidth, image.naturalHeight);
      context.restore();
    });
    check.pictured.write(context, fits(16, "bold", name, WIDTH - SIDE - 3 * GAP).slice(0, 2), GAP + SIDE + GAP, low + 10);
  }

  function code(context, grid, x, y) {
    const size = CODE / grid.length;
    context.fillStyle = "#000000";
    grid.forEach((line, down) => line.forEach((dark, along) => { if (dark) context.fillRect(x + along * size, y + down * size, size + 0.05, size + 0.05); }));
  }

  /* Hands the picture to the device's own sheet where that takes pictures; else it is saved as a file. */
  message.send = async function (question, judged, link) {
    const { canvas, name } = await message.picture(question, judged, link), blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
    const file = new File([blob], name, { type: "image/png" });
    if (navigator.canShare && navigator.canShare({ files: [file] })) return navigator.share({ files: [file], title: check.names(question) }).catch((refused) => (refused.name === "AbortError" ? null : Ringfence.picture.save(canvas, name)));
    return Ringfence.picture.save(canvas, name);
  };
})(Ringfence.message, Ringfence.check, Ringfence.ui);
