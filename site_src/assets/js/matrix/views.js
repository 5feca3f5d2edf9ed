/* Two ways to show the same grid, a table where there is room and a list on a phone; and the leads of one pair. */

import { lead } from "../ui/catalogue.js";
import { button, el, mark as markOf } from "../ui/dom.js";
import { markBy, verdictBy } from "../ui/own.js";
import { shownHalves, side, sides } from "../ui/side.js";
import { grow } from "../ui/slices.js";
import { address, rank, verdicts } from "../ui/table.js";

/* Words for one cell: "safe, best of 3 leads; another is dangerous". */
export function said({ rows, best, danger, own = "" }) {
  const many = rows.length > 1 ? `${best}${own}, best of ${rows.length} ways` : `${best}${own}, one way`;
  if (rows[0].offered)
    return `${many}; ${rows[0].verdict === best ? "it" : "another"} ${rows[0].offered === "safe" ? "is safe" : "works"} if plugged with a switch off`;
  return danger && best !== "dangerous" ? `${many}; another is dangerous` : many;
}

/* How many cells have each best verdict, best first. */
function tally(bests) {
  return el(
    "span",
    { class: "rf-tally" },
    verdicts()
      .filter((verdict) => bests.includes(verdict))
      .map((verdict) =>
        el(
          "span",
          { class: "rf-tally__one" },
          markOf(verdict),
          `${bests.filter((best) => best === verdict).length} ${verdict}`,
        ),
      ),
  );
}

const flagged = (cell) => cell.danger && cell.best !== "dangerous";

export function table({ outlets, inlets, cell }, onopen) {
  const head = el(
    "tr",
    {},
    el("td", { class: "rf-grid__corner" }, el("span", {}, "into →"), el("span", {}, "from ↓")),
    inlets.map((inlet) => el("th", { scope: "col" }, el("span", {}, inlet.name))),
  );
  const rows = outlets.map((outlet) =>
    el(
      "tr",
      {},
      el("th", { scope: "row" }, outlet.name),
      inlets.map((inlet) => el("td", {}, opener(outlet, inlet, cell(outlet.id, inlet.id)))),
    ),
  );
  return el(
    "div",
    { class: "rf-grid", tabindex: "0", role: "region", "aria-label": "Matrix, scrolls both ways" },
    el("table", {}, el("thead", {}, head), el("tbody", {}, rows)),
  );

  function opener(outlet, inlet, found) {
    if (!found) return null;
    return button(
      {
        class: "rf-grid__cell",
        "data-flag": String(flagged(found)),
        title: `${outlet.name} into ${inlet.name}: ${said(found)}`,
        "aria-label": `${outlet.name} into ${inlet.name}: ${said(found)}`,
        onclick: () => onopen(outlet, inlet, found),
      },
      markBy(found.best, found.own),
    );
  }
}

export function list({ outlets, inlets, cell }, onopen) {
  const list = el("div", { class: "rf-outlets" });
  grow(list, function* (body) {
    for (const outlet of outlets) yield body.append(group(outlet));
  });
  return list;

  function group(outlet) {
    const cells = inlets.map((inlet) => [inlet, cell(outlet.id, inlet.id)]).filter(([, found]) => found);
    const body = el("ul", { class: "rf-rows" });
    return el(
      "details",
      { class: "rf-group", ontoggle: fill },
      el(
        "summary",
        {},
        sides(outlet),
        el("span", { class: "rf-group__name" }, outlet.name),
        tally(cells.map(([, found]) => found.best)),
      ),
      body,
    );

    function fill() {
      if (body.childElementCount) return;
      cells.sort(([, a], [, b]) => rank(a.best) - rank(b.best));
      body.append(
        ...cells.map(([inlet, found]) =>
          el(
            "li",
            {},
            button(
              { class: "rf-row", onclick: () => onopen(outlet, inlet, found) },
              verdictBy(found.best, found.own),
              el("span", { class: "rf-row__name" }, inlet.name),
              el("span", { class: "rf-row__why" }, said(found).slice(found.best.length + 2)),
            ),
          ),
        ),
      );
    }
  }
}

/* Every way between two ports; each opens the check. */
export function pair(outlet, inlet, { rows }, root, onclose) {
  const items = rows.map((row) =>
    el(
      "li",
      {},
      el(
        "a",
        { class: "rf-row", href: address(root, outlet.id, row.through, inlet.id) },
        verdictBy(row.verdict, row.own),
        row.through.length
          ? el(
              "span",
              { class: "rf-list__side" },
              row.through.flatMap((id) => shownHalves(lead(id))).map((place) => side(place)),
            )
          : null,
        el(
          "span",
          { class: "rf-row__name" },
          row.through.map((id) => lead(id).name).join(", then ") || "No lead, plugged straight in",
        ),
        el("span", { class: "rf-row__why" }, row.findings.join(", ")),
        row.offer ? el("span", { class: "rf-row__order" }, row.offer) : null,
      ),
    ),
  );
  return el(
    "dialog",
    { class: "rf-pair", "aria-label": "Ways between these two", onclose },
    el(
      "div",
      { class: "rf-pair__head" },
      el("h2", {}, outlet.name, el("span", {}, " into "), inlet.name),
      el("form", { method: "dialog" }, el("button", { class: "rf-button rf-button--quiet" }, "Close")),
    ),
    el("ul", { class: "rf-rows" }, items),
  );
}
