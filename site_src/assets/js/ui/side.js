/* Side views beside names: all at one scale, their room kept before they are loaded, so that nothing jumps. The words beside them say what they are. */

import { el, own } from "./dom.js";

const SCALE = 0.3; // of the drawing's own size: an XLR is then some 70 px long
const root = () => {
  const found = document.querySelector("[data-root]");
  return found ? found.dataset.root : "";
};

// Left to itself a browser fetches the pictures of a list two screens ahead and more, a quarter of a first load.
const AHEAD = "200px";
const near =
  globalThis.IntersectionObserver &&
  new IntersectionObserver(
    (seen) => {
      for (const { isIntersecting, target } of seen) if (isIntersecting) fetched(target);
    },
    { rootMargin: AHEAD },
  );

function fetched(picture) {
  near.unobserve(picture);
  picture.src = picture.dataset.src;
}

/* A drawing that is fetched when it is nearly in sight; its width and height keep its room until then. */
function drawn(file, look) {
  const src = `${root()}draw/${file}`;
  if (!near) return el("img", { ...look, src, alt: "", loading: "lazy" });
  const picture = el("img", { ...look, alt: "", "data-src": src });
  near.observe(picture);
  return picture;
}

/* The picture of a half {connector, half}, its mating end to the left, or to the right where it is `turned`; null where there is none. */
export function side({ connector, half }, { scale = SCALE, turned = false } = {}) {
  const size = own(Ringfence.sides, `${connector}/${half}`);
  if (!size) return null;
  const [width, height] = size.map((one) => Math.round(one * scale));
  return drawn(`side-${encodeURIComponent(connector)}-${half}.svg`, {
    class: turned ? "rf-side rf-side--turned" : "rf-side",
    width,
    height,
  });
}

/* The halves a list shows of an entry: a port's own, a lead's first and last end, both halves of a connector. */
export function shownHalves(entry) {
  const ends = Object.values(entry.ends || {});
  if (ends.length) return [ends[0], ends[ends.length - 1]];
  return entry.connector
    ? [entry]
    : (Array.isArray(entry.halves) ? entry.halves : Object.keys(entry.halves || {})).map((half) => ({
        connector: entry.id,
        half,
      }));
}

/* The small face of a half, with its numbers. */
export const smallFace = ({ connector, half }) =>
  drawn(`face-${encodeURIComponent(connector)}-${half}.svg`, { class: "rf-face", width: 78, height: 78 });

/* The way out of every list for who does not know what the thing is called. */
export const byPicture = (words = "Not sure what it is called? Find it by its picture") =>
  el("p", { class: "rf-by-picture" }, el("a", { href: `${root()}recognise/` }, words));

export const sides = (entry, how) =>
  el(
    "span",
    { class: "rf-list__side", "aria-hidden": "true" },
    shownHalves(entry).map((place) => side(place, how)),
  );
