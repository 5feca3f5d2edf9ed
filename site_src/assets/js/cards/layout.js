/* Laying content out on cards of A6: as many cards as it takes, so that nothing is ever cut off. */

import { el } from "../ui/dom.js";

const LEAST = 0.14; // mm for a unit of a drawing: its smallest type, 13 units, then stands 5 points high
const SLACK = 6; // px; type may run a little wider on paper than on the screen
const TALLEST = 78, // mm a drawing may ask for beside its tables
  ALONE = { units: 900, mm: 100 }; // a drawing taller than this has a card to itself, or nobody could read it

/* The drawings of a card as a block, high enough to be read; resolves when they are there or cannot be had. */
export async function figure(names, root) {
  if (!names.length) return el("div", {});
  const images = await Promise.all(
    names.map(async (name) =>
      el("img", {
        src: await Ringfence.page.onWhite(`${root}draw/${encodeURIComponent(name)}.svg`),
        alt: "",
      }),
    ),
  );
  const heights = await Promise.all(
    images.map((image) =>
      image.decode().then(
        () => image.naturalHeight,
        () => 0,
      ),
    ),
  );
  const tall = Math.max(...heights),
    alone = tall > ALONE.units;
  const look = names.length > 1 ? " rf-card__figure--pair" : alone ? " rf-card__figure--alone" : "";
  const figure = el(
    "div",
    { class: `rf-card__figure${look}` },
    images.map((image, place) =>
      heights[place] ? image : el("p", {}, "The drawing is not kept on this device."),
    ),
  );
  figure.style.setProperty("min-height", `${alone ? ALONE.mm : Math.min(TALLEST, tall * LEAST)}mm`);
  return figure;
}

/* The cards of one content, laid out and measured inside `host`, which must be on the page. `stamp` and `site` go into the foot. */
export function lay(content, figure, host, { stamp, site }) {
  const made = [],
    beside = content.drawings.length === 1; // a lead's drawing leaves room for the code at its side
  begin(!beside);
  if (beside && site) figure.append(code());
  for (const block of [figure, ...content.blocks]) {
    const { body } = made[made.length - 1];
    body.append(block);
    if (!over(body)) continue;
    if (body.childElementCount > 1) {
      block.remove();
      begin().body.append(block);
    }
    if (over(made[made.length - 1].body)) made[made.length - 1].card.classList.add("rf-card--tight");
  }
  if (made.length > 1)
    made.forEach(({ number }, place) => {
      number.textContent = `${place + 1} of ${made.length}`;
    });
  return made.map(({ card }) => card);

  /* The code of the record's page, where the site's address is known; without a network it may be missing. */
  function code() {
    if (!site) return null;
    return el("img", {
      class: "rf-card__code",
      src: `${host.dataset.root}qr/${content.path.replace(/\/$/, ".svg")}`,
      alt: "",
      onerror: (event) => event.target.remove(),
    });
  }

  function begin(coded = true) {
    const body = el("div", { class: "rf-card__body" }),
      number = el("span", { class: "rf-card__number" });
    const card = el(
      "article",
      { class: "rf-card", "aria-label": content.name },
      el(
        "header",
        { class: "rf-card__head" },
        el("p", { class: "rf-card__kind" }, content.kind, number),
        el("h3", {}, content.name),
      ),
      body,
      foot(coded),
    );
    host.append(card);
    made.push({ card, body, number });
    return made[made.length - 1];
  }

  function foot(coded) {
    const { grade, checked } = content.evidence;
    return el(
      "footer",
      { class: "rf-card__foot" },
      el(
        "div",
        {},
        el("p", {}, `How it is known: ${grade}. Checked: ${checked || "not yet"}.`),
        el("p", {}, `Ringfence, ${site}${content.path}`),
        el("p", {}, stamp),
      ),
      coded ? code() : null,
    );
  }
}

const over = (body) =>
  [...body.children].reduce((sum, child) => sum + outer(child), 0) > body.clientHeight - SLACK;

/* The least height of a block with its margins: a drawing takes more where there is room. */
function outer(child) {
  const style = getComputedStyle(child);
  const least = child.classList.contains("rf-card__figure")
    ? parseFloat(style.minHeight)
    : child.offsetHeight;
  return least + parseFloat(style.marginTop) + parseFloat(style.marginBottom);
}
