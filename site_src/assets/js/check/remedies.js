/* What to use instead: every way of the table that loses less, one tap away; and where nothing there is safe, a search through two and three leads
   in a row, and the lead that would do it. */

import { bagOnly } from "../ui/bag.js";
import { lead } from "../ui/catalogue.js";
import { el, verdict as verdictMark } from "../ui/dom.js";
import { effort } from "../ui/effort.js";
import { address, rank, rows, works, worth } from "../ui/table.js";
import { bagSwitch, carried } from "./bagged.js";
import { further } from "./further.js";
import { deciding } from "./judged.js";

const SHOWN = 4;

export function remedies(judged, question, root) {
  if (judged.verdict === "safe") return null;
  const ways = better(judged, question).filter(({ through }) => through.every(carried));
  const box = ways.length || works(judged) ? null : Ringfence.ways?.instead?.(question, root);
  const section = el(
    "section",
    { class: "rf-remedies" },
    el("h3", {}, ways.length ? "Use instead" : "Instead"),
    bagSwitch(switched),
    ways.length
      ? list(ways)
      : el(
          "p",
          {},
          `No single lead in ${bagOnly() ? "your kit" : "this catalogue"} does better between these two${judged.offer ? " than this one in the order told" : ""}.`,
        ),
    box,
    box || well(ways[0] || judged) ? null : further(question, offered),
  );
  return section;

  function list(all) {
    const [first, later] = [all.slice(0, SHOWN), all.slice(SHOWN)];
    return [
      el("ul", {}, first.map(item)),
      later.length
        ? el(
            "details",
            { class: "rf-more" },
            el("summary", {}, `${later.length} more`),
            el("ul", {}, later.map(item)),
          )
        : null,
    ];
  }

  /* What the search found beyond what stands there already. */
  function offered(found) {
    const known = new Set(ways.map(({ through }) => through.join())),
      worth = found.filter((way) => less(way, judged) && !known.has(way.through.join()));
    return worth.length
      ? el(
          "ul",
          {},
          worth.map((way) => item({ ...way, findings: deciding(way).map(({ id }) => id) })),
        )
      : null;
  }

  function switched() {
    const anew = remedies(judged, question, root);
    section.replaceWith(anew);
    anew.querySelector("[role=switch]").focus();
  }

  function item({ through, verdict, findings, offer }) {
    const names = through.map((id) => lead(id).name).join(", then ") || "No lead, plugged straight in";
    return el(
      "li",
      {},
      el(
        "a",
        { class: "rf-option", href: address(root, question.from, through, question.into) },
        el("span", { class: "rf-option__name" }, names),
        findings.length
          ? el(
              "span",
              { class: "rf-option__more" },
              [...new Set(findings)].map((id) => id.replaceAll("-", " ")).join(", "),
            )
          : null,
        offer ? el("span", { class: "rf-option__more rf-option__order" }, offer) : null,
        verdictMark(verdict),
      ),
    );
  }
}

/* Ways of the table that work and end better, or lose less; best and simplest first. */
function better(judged, { from, into }) {
  return rows(from, into)
    .map((row) => ({ ...row, findings: row.findings || [] }))
    .filter((way) => works(way) && less(way, judged))
    .sort((a, b) => worth(a) - worth(b) || loss(a) - loss(b) || effort(a) - effort(b));
}

/* Safe, if need be in an order: then nothing further is looked for. */
const well = (way) => worth(way) < rank("lossy");

const less = (way, judged) =>
  worth(way) < worth(judged) || (worth(way) === worth(judged) && loss(way) < loss(judged));

/* What is lost on a way: findings, or no more than their names. */
const loss = ({ findings }) =>
  Ringfence.engine.loss(
    Ringfence.rulebook,
    findings.map((finding) => (finding.id || finding).replaceAll(" ", "-")),
  );
