/* The halves most leads of the catalogue end in, before all others: a thumb finds XLR without going through the whole list. */

import { half as halfOf, leads } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { sides } from "../ui/side.js";

const SHOWN = 6;

export function often(halves, onchoose) {
  const counts = new Map();
  for (const lead of leads())
    for (const end of Object.values(lead.ends))
      counts.set(`${end.connector}/${end.half}`, (counts.get(`${end.connector}/${end.half}`) || 0) + 1);
  const most = halves
    .filter(({ id }) => counts.has(id))
    .sort((a, b) => counts.get(b.id) - counts.get(a.id))
    .slice(0, SHOWN);
  return el(
    "section",
    { class: "rf-picker__group rf-picker__group--first" },
    el("h3", {}, "On most leads"),
    el(
      "ul",
      {},
      most.map((half) =>
        el(
          "li",
          {},
          button(
            { class: "rf-option rf-option--drawn", onclick: () => onchoose(half.id) },
            sides(half),
            el("span", { class: "rf-option__name" }, half.name),
            el("span", { class: "rf-option__more" }, halfOf(half)),
          ),
        ),
      ),
    ),
  );
}
