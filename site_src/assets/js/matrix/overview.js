/* The whole matrix on one screen: a spot for every pair, in the shape and colour of its best verdict. A finger or the arrow keys pick a
   spot, words beside the picture say which it is, and open it. */

import { button, el, slug, verdict } from "../ui/dom.js";
import { said } from "./views.js";

const SVG = "http://www.w3.org/2000/svg";
const SPOT = 10; // units a spot is wide; the picture is then made to fit
const NEAR = 3; // spots a finger may miss by
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const SHAPES = {
  // around the middle of a spot, none like another
  safe: (x, y) => `M${x - 3} ${y}a3 3 0 1 0 6 0a3 3 0 1 0 -6 0z`,
  lossy: (x, y) => `M${x - 4} ${y - 3}h8l-4 7z`,
  "no signal": (x, y) => `M${x - 4} ${y - 1.2}h8v2.4h-8z`,
  dangerous: (x, y) => `M${x - 4.6} ${y - 4.6}h9.2v9.2h-9.2z`,
};

function shape(tag, attributes, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

export function overview({ outlets, inlets, cell }, onopen, say) {
  const at = (column, row) =>
    outlets[row] && inlets[column] ? cell(outlets[row].id, inlets[column].id) : null;
  const [wide, high] = [inlets.length * SPOT, outlets.length * SPOT];
  const cross = shape("path", { class: "rf-whole__cross", d: "" });
  const picture = shape(
    "svg",
    { class: "rf-whole__picture", viewBox: `0 0 ${wide} ${high}`, "aria-hidden": "true" },
    ...bands(),
    ...marks(),
    cross,
  );
  const place = el(
    "div",
    {
      class: "rf-whole__place",
      tabindex: "0",
      role: "group",
      "aria-label": "The whole picture. Arrow keys go from spot to spot, Enter opens one.",
      onkeydown: keyed,
    },
    picture,
  );
  const told = el(
    "div",
    { class: "rf-whole__told" },
    el("p", {}, "Rows are outlets, columns are inlets. Pick a spot, or use the arrow keys."),
  );
  let picked = null;
  picture.addEventListener("pointerdown", (event) => pick(near(event)));
  picture.addEventListener("pointermove", (event) => {
    if (event.pointerType === "mouse" || event.buttons) pick(near(event));
  });
  picture.addEventListener("click", (event) => {
    if (event.pointerType === "mouse" && picked) open();
  });
  return el("div", { class: "rf-whole" }, el("div", { class: "rf-whole__side" }, told, legend()), place);

  /* A band behind every second device, so that an eye can follow a row. */
  function bands() {
    const across = (ports, rect) => {
      const found = [];
      let start = 0,
        shaded = false;
      ports.forEach((port, i) => {
        if (i && port.device !== ports[i - 1].device) {
          if (shaded) found.push(rect(start, i));
          start = i;
          shaded = !shaded;
        }
      });
      return shaded ? [...found, rect(start, ports.length)] : found;
    };
    return [
      ...across(outlets, (from, to) =>
        shape("rect", {
          class: "rf-whole__band",
          x: 0,
          y: from * SPOT,
          width: wide,
          height: (to - from) * SPOT,
        }),
      ),
      ...across(inlets, (from, to) =>
        shape("rect", {
          class: "rf-whole__band",
          x: from * SPOT,
          y: 0,
          width: (to - from) * SPOT,
          height: high,
        }),
      ),
    ];
  }

  function marks() {
    const paths = Object.fromEntries(Object.keys(SHAPES).map((verdict) => [verdict, ""]));
    outlets.forEach((_, row) =>
      inlets.forEach((__, column) => {
        const found = at(column, row);
        if (found) paths[found.best] += SHAPES[found.best]((column + 0.5) * SPOT, (row + 0.5) * SPOT);
      }),
    );
    return Object.entries(paths).map(([verdict, d]) =>
      shape("path", { class: `rf-whole__mark rf-whole__mark--${slug(verdict)}`, d }),
    );
  }

  function legend() {
    return el(
      "ul",
      { class: "rf-whole__legend" },
      Object.keys(SHAPES).map((verdict) =>
        el(
          "li",
          {},
          shape(
            "svg",
            { viewBox: "0 0 10 10", "aria-hidden": "true" },
            shape("path", {
              class: `rf-whole__mark rf-whole__mark--${slug(verdict)}`,
              d: SHAPES[verdict](5, 5),
            }),
          ),
          verdict,
        ),
      ),
    );
  }

  /* The filled spot nearest to the pointer, if one is near. */
  function near(event) {
    const here = new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM().inverse());
    const [x, y] = [here.x / SPOT - 0.5, here.y / SPOT - 0.5];
    let best = null;
    for (let row = Math.ceil(y - NEAR); row <= y + NEAR; row++)
      for (let column = Math.ceil(x - NEAR); column <= x + NEAR; column++) {
        const away = Math.hypot(column - x, row - y);
        if (at(column, row) && (!best || away < best.away)) best = { column, row, away };
      }
    return best;
  }

  function pick(spot) {
    if (!spot || (picked && picked.column === spot.column && picked.row === spot.row)) return;
    picked = spot;
    const { column, row } = spot,
      found = at(column, row),
      words = said(found);
    const [x, y] = [(column + 0.5) * SPOT, (row + 0.5) * SPOT];
    cross.setAttribute(
      "d",
      `M0 ${y}H${x - 5}M${x + 5} ${y}H${wide}M${x} 0V${y - 5}M${x} ${y + 5}V${high}M${x - 5} ${y - 5}h10v10h-10z`,
    );
    told.replaceChildren(
      button(
        { class: "rf-row rf-whole__open", onclick: open },
        verdict(found.best),
        el(
          "span",
          { class: "rf-row__name" },
          outlets[row].name,
          el("span", {}, " into "),
          inlets[column].name,
        ),
        el("span", { class: "rf-row__why" }, words.slice(found.best.length + 2)),
      ),
    );
    say(`${outlets[row].name} into ${inlets[column].name}: ${words}`);
  }

  function open() {
    onopen(outlets[picked.row], inlets[picked.column], at(picked.column, picked.row));
  }

  function keyed(event) {
    if (event.key === "Enter" && picked) {
      event.preventDefault();
      open();
      return;
    }
    if (!Object.hasOwn(ARROWS, event.key)) return;
    event.preventDefault();
    const [right, down] = ARROWS[event.key];
    if (!picked) {
      pick(first());
      return;
    }
    for (
      let column = picked.column + right, row = picked.row + down;
      column >= 0 && row >= 0 && column < inlets.length && row < outlets.length;
      column += right, row += down
    ) {
      if (at(column, row)) {
        pick({ column, row });
        return;
      }
    }
  }

  function first() {
    for (let row = 0; row < outlets.length; row++)
      for (let column = 0; column < inlets.length; column++) if (at(column, row)) return { column, row };
    return null;
  }
}
