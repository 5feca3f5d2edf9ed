/* What of mine goes into what of mine: the lead to take for every pair, and first of all what would do harm. From the table of one lead or none; the
   rows are the ids the kit holds, so that what is not in the table says so. */

import { countOf } from "../ui/bag.js";
import { lead, port } from "../ui/catalogue.js";
import { el, verdict } from "../ui/dom.js";
import { verdictBy } from "../ui/own.js";
import { side } from "../ui/side.js";
import { address, works } from "../ui/table.js";
import { listed } from "../ui/words.js";
import { speak, of as waysOf } from "../ways/rank.js";
import { losses } from "../ways/said.js";

const DANGERS = 6; // told at once; the rest is folded

/* {outlets, inlets} of the ports in a kit. */
export const ends = (ports) => ({
  outlets: ports.filter((id) => port(id).sources.length),
  inlets: ports.filter((id) => port(id).listeners.length),
});

/* The ways of one pair with what is in the kit, best first. */
export const of = (from, into, leads) =>
  waysOf(from, into).filter(({ through }) => through.every((id) => leads.includes(id)));

/* [{from, into, best, dangers}] of all pairs that speak of the same thing or can harm: `best` is null where no lead of the kit goes between. */
function pairsOf({ ports, leads }) {
  const { outlets, inlets } = ends(ports);
  return outlets.flatMap((from) =>
    inlets
      .filter((into) => into !== from)
      .map((into) => {
        const found = of(from, into, leads);
        return {
          from,
          into,
          best: found[0] || null,
          dangers: found.filter(({ verdict, offered }) => verdict === "dangerous" && !offered),
          speak: speak(from, into),
        };
      }),
  );
}

const named = (through) => through.map((id) => lead(id).name).join(", then ") || "straight in";
const device = (id) => port(id).name;

export function overview(contents, root) {
  const { outlets, inlets } = ends(contents.ports);
  if (!outlets.length || !inlets.length)
    return el(
      "section",
      { "aria-label": "What goes into what" },
      el(
        "p",
        {},
        "Tick at least one device that gives a signal and one that takes one: then every pair of them stands here with the lead to take.",
      ),
    );
  const pairs = pairsOf(contents),
    of = (from, into) => pairs.find((pair) => pair.from === from && pair.into === into);
  return el(
    "section",
    { "aria-label": "What goes into what" },
    dangers(pairs, root),
    el("h2", {}, "What goes into what"),
    el(
      "p",
      { class: "rf-form__note" },
      "With one lead of your kit, or none. Tap a box for the whole answer.",
    ),
    el(
      "div",
      { class: "rf-kit__scroll", tabindex: "0", role: "region", "aria-label": "Table of my devices" },
      el(
        "table",
        { class: "rf-kit" },
        el(
          "thead",
          {},
          el(
            "tr",
            {},
            el("td", {}),
            inlets.map((id) => el("th", { scope: "col" }, head(id, contents))),
          ),
        ),
        el(
          "tbody",
          {},
          outlets.map((from) =>
            el(
              "tr",
              {},
              el("th", { scope: "row" }, head(from, contents)),
              inlets.map((into) => el("td", {}, cell(of(from, into), root))),
            ),
          ),
        ),
      ),
    ),
  );
}

const head = (id, contents) => [
  side(port(id), { scale: 0.18 }),
  el("span", {}, `${countOf(contents, id) > 1 ? `${countOf(contents, id)} × ` : ""}${device(id)}`),
];

function dangers(pairs, root) {
  const every = pairs.flatMap(({ from, into, dangers: found }) => found.map((way) => ({ from, into, way })));
  if (!every.length) return null;
  const item = ({ from, into, way }) =>
    el(
      "li",
      {},
      el(
        "a",
        { class: "rf-option", href: address(root, from, way.through, into) },
        el("span", { class: "rf-option__name" }, `${device(from)} → ${device(into)}`),
        el("span", { class: "rf-option__more" }, `${named(way.through)}: ${listed(losses(way.findings))}`),
        verdict("dangerous"),
      ),
    );
  return el(
    "section",
    { class: "rf-kit__dangers" },
    el("h2", {}, "Never like this"),
    el("ul", {}, every.slice(0, DANGERS).map(item)),
    every.length > DANGERS
      ? el(
          "details",
          { class: "rf-more" },
          el("summary", {}, `${every.length - DANGERS} more`),
          el("ul", {}, every.slice(DANGERS).map(item)),
        )
      : null,
  );
}

function cell(pair, root) {
  if (!pair) return "–";
  const { from, into, best, speak } = pair;
  if (best && (works(best) || best.verdict === "dangerous"))
    return el(
      "a",
      { href: address(root, from, best.through, into) },
      verdictBy(best.offered || best.verdict, best.own),
      el(
        "span",
        {},
        best.verdict === "dangerous" && !best.offered
          ? "no lead of mine is safe"
          : `${named(best.through)}${best.offered ? ", in the right order" : ""}`,
      ),
    );
  return speak
    ? el(
        "a",
        {
          class: "rf-kit__none",
          href: `${root}check/#from=${encodeURIComponent(from)}&into=${encodeURIComponent(into)}`,
        },
        "nothing in my kit: which lead?",
      )
    : el("span", { class: "rf-kit__none" }, "not for each other");
}

export { pairsOf as pairs };
