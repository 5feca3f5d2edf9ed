/* The answer to "I have this, it goes into that": the ways, best first, drawn small, each with its mark and what it loses. */

import { bagSwitch, carried } from "../check/bagged.js";
import { further } from "../check/further.js";
import { deciding } from "../check/judged.js";
import { shareNow } from "../check/share.js";
import { bagOnly } from "../ui/bag.js";
import { lead, port } from "../ui/catalogue.js";
import { el, slug } from "../ui/dom.js";
import { markBy, ownQuestion, verdictBy } from "../ui/own.js";
import { sides } from "../ui/side.js";
import { address, works } from "../ui/table.js";
import { capital, count, listed } from "../ui/words.js";
import { instead } from "./instead.js";
import { of, ranked, speak } from "./rank.js";
import { losses, matters, named } from "./said.js";

const SHOWN = 4;
const kinds = (channels) => listed([...new Set(channels.map(called))]);
/* "S/PDIF as light", "line". */
const called = ({ kind, form, forms = [form], output, between }) =>
  `${listed(forms.filter(Boolean), "or") || kind}${(output || between).includes("dark") ? " as light" : ""}`;

/* {element, announce} for a question {from, into}: of all leads, or only of those in one's kit. Where no single one works, chains are looked for
   at once. `onkit` shows the page anew after that was switched; `rows` are the ways, where they are not those of the table. The
   search knows devices of one's own, and no number that stands in an address alone. */
export function list(question, root, onkit, rows = of(question.from, question.into)) {
  const found = rows.filter(({ through }) => through.every(carried)),
    good = found.filter(works),
    bad = found.filter((way) => !works(way));
  const said = sentence(question, found),
    harm = bad.filter(({ verdict }) => verdict === "dangerous"),
    dead = bad.filter(({ verdict }) => verdict !== "dangerous");
  const head = el(
    "h2",
    { class: "rf-answer__head", tabindex: "-1" },
    good.length ? "Which lead?" : `No single lead ${ofKit()}works`,
  );
  const box = good.length ? null : instead(question, root), // what no lead can do is not looked for among leads
    longer =
      !box && !question.own && speak(question.from, question.into) ? chains(question, root, good) : null;
  const element = el(
    "section",
    { class: "rf-ways", "aria-label": "Ways" },
    el(
      "div",
      {
        class: `rf-banner${found.some((way) => way.own) ? " rf-banner--own" : ""} rf-banner--${slug(good.length ? good[0].offered || good[0].verdict : found.length ? found[0].verdict : "does not fit")}`,
      },
      markBy(
        good.length ? good[0].offered || good[0].verdict : found.length ? found[0].verdict : "does not fit",
        found[0]?.own,
      ),
      head,
      el("p", { class: "rf-banner__says" }, said),
    ),
    box,
    bagSwitch(onkit),
    good.length
      ? el(
          "ol",
          { class: "rf-ways__list" },
          good.slice(0, SHOWN).map((way, i) => item(way, question, root, i === 0)),
        )
      : null,
    good.length > SHOWN
      ? folded(`${good.length - SHOWN} more that work`, good.slice(SHOWN), question, root)
      : null,
    longer,
    harm.length
      ? folded(
          `${count(harm.length, "way that fits", "ways that fit")} and ${harm.length > 1 ? "harm" : "harms"} something`,
          harm,
          question,
          root,
        )
      : null,
    dead.length
      ? folded(
          `${count(dead.length, "way that fits and stays", "ways that fit and stay")} silent`,
          dead,
          question,
          root,
        )
      : null,
    el("div", { class: "rf-actions" }, shareNow({ ...ownQuestion(question), through: null }, said, root)),
  );
  return { element, announce: said };
}

/* The first sentence: does it work, what with, what is lost. */
export function sentence({ from, into }, found) {
  const [best] = found,
    silent = [from, into].every((id) => !port(id).sources.length);
  if (silent)
    return `${brief(from)} sends nothing, nor does the ${brief(into).slice(4)}: nothing is heard, and phantom or another supply of one may harm the other.`;
  if (!speak(from, into))
    return `${brief(from)} sends ${kinds(port(from).sources)}; the ${brief(into).slice(4)} takes ${kinds(port(into).listeners.length ? port(into).listeners : port(into).sources)}. No lead turns one into the other.`;
  if (!best) return `The plugs do not fit, and no single lead ${ofKit()}joins these two.`;
  const take = best.through.length
    ? `take the ${named(best.through)}`
    : "plug it straight in, no lead needed";
  if (best.offered) return `Works in the right order: ${take}. ${best.offer}`;
  if (best.verdict === "safe") return `Works: ${take}.`;
  if (best.verdict === "lossy") return `Works, but ${listed(losses(best.findings).slice(0, 3))}: ${take}.`;
  if (best.verdict === "no signal")
    return `Nothing is heard through any single lead${bagOnly() ? " of your kit" : ""}: ${listed(losses(best.findings).slice(0, 2))}.`;
  return `No single lead ${ofKit()}does this without harm: ${listed(losses(best.findings).slice(0, 2))}.`;
}

const ofKit = () => (bagOnly() ? "of your kit " : "");
const brief = (id) =>
  `The ${port(id)
    .name.split(",")[0]
    .replace(/^[A-Z](?=[a-z])/, (first) => first.toLowerCase())}`;

function item(way, question, root, best) {
  const [name, ...more] =
    way.through.length === 1
      ? lead(way.through[0]).name.split(", ")
      : [way.through.length ? named(way.through) : "No lead"];
  const words =
    way.verdict === "lossy" && !way.offered
      ? [listed(losses(way.findings).slice(0, 3)), matters(way.findings)]
      : [way.offer || listed(losses(way.findings).slice(0, 2)) || "nothing lost"];
  return el(
    "li",
    {},
    el(
      "a",
      {
        class: `rf-way${best ? " rf-way--best" : ""}`,
        "data-through": way.through.join(),
        href: `${address(root, question.from, way.through, question.into)}${question.own ? `&own=${encodeURIComponent(question.own)}` : ""}`,
      },
      el(
        "span",
        { class: "rf-way__drawn", "aria-hidden": "true" },
        way.through.length
          ? way.through.map((id) => sides(lead(id)))
          : el("span", { class: "rf-way__straight" }, "→"),
      ),
      el(
        "span",
        { class: "rf-way__name" },
        best ? el("span", { class: "rf-way__best" }, "Best: ") : null,
        name,
      ),
      el("span", { class: "rf-way__more" }, way.through.length ? more.join(", ") : "plugged straight in"),
      el(
        "span",
        { class: "rf-way__ends" },
        verdictBy(way.verdict, way.own),
        el("span", { class: "rf-way__loses" }, capital(words[0])),
        words[1] ? el("span", { class: "rf-way__matters" }, words[1]) : null,
      ),
    ),
  );
}

const folded = (words, list, question, root) =>
  el(
    "details",
    { class: "rf-more" },
    el("summary", {}, words),
    el(
      "ol",
      { class: "rf-ways__list" },
      list.map((way) => item(way, question, root, false)),
    ),
  );

/* Two and three leads in a row: at once where no single lead works, else on request. */
function chains(question, root, good) {
  return further(
    question,
    (found) => {
      const better = ranked(
        found
          .filter((way) => way.through.length > 1)
          .map((way) => ({ ...question, ...way, findings: deciding(way).map(({ id }) => id) })),
      );
      return better.length
        ? el(
            "ol",
            { class: "rf-ways__list" },
            better.map((way, i) => item(way, question, root, !good.length && i === 0)),
          )
        : null;
    },
    { atOnce: !good.length },
  );
}
