/* What to use instead, ranked again by own numbers: every way the table has between the two classes is judged anew, one after the other. */

import { loss } from "../engine/rulebook.js";
import { lead } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { effort } from "../ui/effort.js";
import { rows as rowsOf, works, worth } from "../ui/table.js";
import { count } from "../ui/words.js";
import { address } from "./which.js";
import { verdict as verdictMark } from "./words.js";

const SHOWN = 4;

export function ways(judged, question, root) {
  if (judged.verdict === "safe") return null;
  const place = el("span", { "aria-hidden": "true" }),
    rows = rowsOf(question.from, question.into).filter(({ through }) =>
      through.every(Ringfence.check.carried),
    );
  const told = el(
      "p",
      { class: "rf-form__note", role: "status" },
      "Ranking the ways again by your numbers …",
      place,
    ),
    list = el("div", {});
  const found = [],
    section = el(
      "section",
      { class: "rf-remedies" },
      el("h3", {}, "Use instead, by your numbers"),
      told,
      list,
    );
  Ringfence.check.judgeAll(
    rows.map(({ through }) => ({ ...question, through })),
    ({ judged: way }, { through }, number) => {
      place.textContent = ` ${number} of ${rows.length}`;
      if (
        (way && works(way) && worth(way) < worth(judged)) ||
        (way && works(way) && worth(way) === worth(judged) && losses(way) < losses(judged))
      )
        found.push({ ...way, through });
    },
    done,
  );
  return section;

  function done() {
    found.sort((a, b) => worth(a) - worth(b) || losses(a) - losses(b) || effort(a) - effort(b));
    told.textContent = found.length
      ? `${count(found.length, "way does", "ways do")} better.`
      : "No single lead in this catalogue does better between these two.";
    list.append(
      el("ul", {}, found.slice(0, SHOWN).map(item)),
      found.length > SHOWN
        ? el(
            "details",
            { class: "rf-more" },
            el("summary", {}, `${found.length - SHOWN} more`),
            el("ul", {}, found.slice(SHOWN).map(item)),
          )
        : "",
    );
  }

  function item({ through, verdict, findings, offer }) {
    const href = address(question, through, root),
      lost = [
        ...new Set(Ringfence.check.deciding({ verdict, findings }).map(({ id }) => id.replaceAll("-", " "))),
      ];
    return el(
      "li",
      {},
      el(
        "a",
        { class: "rf-option", href },
        el(
          "span",
          { class: "rf-option__name" },
          through.map((id) => lead(id).name).join(", then ") || "No lead, plugged straight in",
        ),
        lost.length ? el("span", { class: "rf-option__more" }, lost.join(", ")) : null,
        offer ? el("span", { class: "rf-option__more rf-option__order" }, offer) : null,
        verdictMark(verdict),
      ),
    );
  }
}

const losses = ({ findings }) =>
  loss(
    Ringfence.rulebook,
    findings.map(({ id }) => id),
  );
