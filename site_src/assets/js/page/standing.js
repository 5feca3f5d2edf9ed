/* What stands beside a verdict: how old its data are, and whatever is wrong with this copy of them. Loud: withdrawn, mixed, long out of touch.
   What was last heard is remembered, so that it also stands without a network. Storage may be refused: then less is known, and nothing breaks. */

import { button } from "./button.js";

const DAY = 864e5,
  LONG = 183 * DAY,
  KEY = "ringfence.contact",
  ANEW = "ringfence.anew";
const meta = document.querySelector("meta[name=edition]"),
  EDITION = meta ? meta.content : "",
  DATE = meta ? meta.dataset.date : "";
let heard = recalled(),
  news = null; // news: {words, button} of a version that came, or could not

function recalled() {
  try {
    const { at, withdrawn } = JSON.parse(localStorage.getItem(KEY)) || {};
    return { at: Number(at) || 0, withdrawn: withdrawn && typeof withdrawn === "object" ? withdrawn : {} };
  } catch {
    return { at: 0, withdrawn: {} };
  }
}

export const withdrawn = () =>
  Object.hasOwn(heard.withdrawn, EDITION) ? String(heard.withdrawn[EDITION]) : "";

/* The site was reached and says which editions are withdrawn. */
function heardOf(withdrawn) {
  heard = { at: Date.now(), withdrawn };
  try {
    localStorage.setItem(KEY, JSON.stringify(heard));
  } catch {
    /* known for this page only */
  }
  refresh();
}

function newsOf(words, button = null) {
  news = words ? { words, button } : null;
  refresh();
}

function loud() {
  const told = [];
  if (
    document.readyState === "complete" &&
    !Ringfence.data &&
    document.querySelector("script[src$='assets/js/data.js']")
  ) {
    told.push(["A part of this page did not load, so nothing on it is worked out. ", again()]);
  }
  if (mixed())
    told.push([
      "This page was put together from two versions of the site, so nothing on it is worked out. ",
      again(),
    ]);
  const why = withdrawn();
  if (why)
    told.push([
      `Do not rely on this version: it was withdrawn. ${why} `,
      news && news.button ? null : "Open this page with a network to get the newer one.",
    ]);
  const since = heard.at || Date.parse(DATE),
    age = Date.now() - since;
  if (age > LONG) {
    told.push([
      heard.at
        ? `This copy has not reached its site since ${day(since)}. `
        : `These data are of ${DATE}, and this copy may be as old. `,
      "A fault put right since then is not put right here: open this page with a network.",
    ]);
  }
  return told;
}

const mixed = () => Boolean(Ringfence.ui && Ringfence.ui.mixed && Ringfence.ui.mixed());

const day = (at) => new Date(at).toISOString().slice(0, 10);

/* Past every copy on the way: one of them is what came from another version. */
async function load() {
  await Promise.all(
    [...document.scripts]
      .filter(({ src }) => src)
      .map(({ src }) => fetch(src, { cache: "reload" }).catch(() => null)),
  );
  location.reload();
}

const again = () => button("Load it again", load);

/* A newer version can take over between a page and its scripts: such a page loads itself anew, once. */
function heal() {
  try {
    if (!mixed()) sessionStorage.removeItem(ANEW);
    else if (!sessionStorage.getItem(ANEW)) {
      sessionStorage.setItem(ANEW, EDITION);
      load();
    }
  } catch {
    /* it says what is so, and has a button */
  }
}

/* An element that says so and keeps saying what is so; quiet words only where `quiet`. */
export function standing(quiet = true) {
  const made = document.createElement("div");
  made.className = "rf-standing";
  made.dataset.quiet = quiet ? "yes" : "no";
  fill(made);
  return made;
}

function fill(place) {
  const line = (kind, parts) => {
    const made = document.createElement("p");
    made.className = `rf-standing__${kind}`;
    made.append(...parts.filter(Boolean));
    return made;
  };
  const lines = loud().map((parts) => line("loud", parts));
  if (news) lines.push(line("news", [`${news.words} `, news.button && news.button()]));
  if (place.dataset.quiet === "yes" && DATE)
    lines.push(
      line("quiet", [`Data of ${DATE}${heard.at ? `, last compared with the site ${day(heard.at)}` : ""}.`]),
    );
  place.replaceChildren(...lines);
  place.hidden = !lines.length;
}

function refresh() {
  document.querySelectorAll(".rf-standing").forEach(fill);
}

document.addEventListener("DOMContentLoaded", () => {
  const main = document.querySelector(".md-content__inner");
  if (main) main.prepend(standing(false));
});
window.addEventListener("load", () => {
  refresh();
  heal();
});

export { heardOf as heard, newsOf as news };
