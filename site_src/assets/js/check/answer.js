/* The answer in three layers: the verdict, what it means here, one sentence and what to do, with the connection drawn small; then other ways and what to
   take care of; then numbers, settings and drawings, folded but for the finding that decides. */

import { el, mark as signOf, slug, takeCare } from "../ui/dom.js";
import { byPicture } from "../ui/side.js";
import { row as rowOf } from "../ui/table.js";
import { capital } from "../ui/words.js";
import { names } from "./asked.js";
import { careful } from "./cautions.js";
import { chain as chainOf, mark as markOf } from "./chain.js";
import { figures } from "./figures.js";
import { findings } from "./findings.js";
import { balance, hum } from "./hum.js";
import { better as betterThan, condition, deciding, marked as markedOf, sentence } from "./judged.js";
import { working } from "./later.js";
import { instead, numbers, ownHead, toNumbers } from "./numbers.js";
import { position, settings } from "./settings.js";
import { handed, share, shareNow } from "./share.js";
import { inSetting, outcome, switchboard, turned } from "./switches.js";
import { markThumb, thumb as thumbOf } from "./thumb.js";

/* {element, announce, turn, more, drawn}: `announce` is what a screen reader is told, `turn(set)` shows another setting of the switches and gives the words
   for that. At first only the verdict stands: `more()` puts the next part below it and tells whether one is left, for all at once would keep a phone
   busy. `root` leads to the top of the site, the third is what check.found resolved to; `onturn(set)` is told when a switch is turned. `drawn`
   is what an answer to the same connection has drawn. In `brief`, what a frame on another page has room for: the verdict, the setting asked for, what to switch, cautions and the chain. */
export function answer(
  question,
  root,
  { judged, failed, mixed, unguarded, alone },
  { set = [], onturn = () => null, onown = null, drawn = {}, brief = false } = {},
) {
  if (!judged) {
    const told = broken(failed, mixed ? null : question),
      [thumb, chain] = [thumbOf(question), chainOf(question, root)];
    return answered(
      [...standing(false), banner(told, question), thumb, chain, brief ? null : share(question, null, root)],
      `${told.head}. ${told.says}`,
    );
  }
  const said = [
    `Verdict: ${judged.verdict}${judged.own || ""}.`,
    condition(judged),
    sentence(judged),
    judged.offer,
    markedOf(judged),
  ]
    .filter(Boolean)
    .join(" ");
  const board = switchboard(judged, question, onturn),
    number = board ? position(judged, question, set) : null;
  const head = ownHead(judged, question, alone, onown) || verdict(judged, question, toNumbers(judged, onown)),
    chosen = set.length ? number : null;
  if (brief) {
    const asked =
      board && set.length
        ? el(
            "div",
            { class: "rf-switches" },
            el("div", { class: "rf-set" }, outcome(judged, question, number)),
          )
        : null;
    return answered(
      [
        ...standing(unguarded),
        el("p", { class: "rf-answer__asked" }, names(question)),
        head,
        marked(thumbOf(question)),
        asked,
        better(judged, question),
        caring(chosen),
        chainOf(question, root),
      ],
      said,
    );
  }
  if (board) board.show(number);
  const made = answered([...standing(unguarded), head, board && board.element], said),
    kept = drawn,
    now = () =>
      el(
        "div",
        { class: "rf-actions rf-now" },
        shareNow(question, `${capital(judged.verdict)}. ${sentence(judged)}`, root, set),
        handed(question, judged, root, set),
      );
  const take = [() => (kept.care = caring(chosen)), () => instead(judged, question, root)];
  const parts = [
    () => [
      hum(question, judged, root),
      better(judged, question),
      Ringfence.ways?.todo?.(judged, question, root),
    ],
    () => [(kept.thumb = marked(drawn.thumb || thumbOf(question))), now()],
    () => numbers(judged, question, onown),
    ...(judged.verdict === "dangerous" ? take : take.reverse()),
    () => (kept.why = why(number)),
    () => [
      folded("What you get, in numbers", figures(judged)),
      folded("Setting by setting", (kept.settings = settings(judged, question))),
    ],
    () => (kept.chain = drawn.chain || chainOf(question, root)),
    () => (kept.share = share(question, judged, root, set)),
  ];
  if (judged.own) made.element.classList.add("rf-answer--own");
  made.element.setAttribute("aria-busy", "true");
  return { ...made, turn, more, drawn: kept };

  function more() {
    const part = parts.shift();
    if (part) made.element.append(...[part()].flat(2).filter(Boolean));
    if (parts.length) return true;
    if (part) {
      mark(number);
      balance(made.element);
      made.element.removeAttribute("aria-busy");
    }
    return false;
  }

  function why(place) {
    return findings(judged, root, (finding) => working(question, finding), place) || el("div", {});
  }

  function marked(thumb) {
    markThumb(thumb, weakest(judged, number));
    return thumb;
  }

  /* What to take care of in the setting that was chosen; in all of them, where none was. */
  function caring(place) {
    return el("div", {}, takeCare(careful(question, judged, place === null ? null : judged.settings[place])));
  }

  function turn(asked) {
    while (more());
    const place = position(judged, question, asked);
    board.show(place);
    for (const [name, fresh] of Object.entries({
      why: why(place),
      care: caring(place),
      share: share(question, judged, root, asked),
    })) {
      fresh.querySelectorAll("details.rf-share__more").forEach((one) => {
        one.open = kept[name].querySelector("details").open;
      });
      kept[name].replaceWith(fresh);
      kept[name] = fresh;
    }
    mark(place);
    balance(made.element);
    return turned(judged, question, place);
  }

  function mark(place) {
    const decides = weakest(judged, place);
    markOf(kept.chain, decides);
    markThumb(kept.thumb, decides);
    if (board && kept.settings)
      kept.settings
        .querySelectorAll("tr")
        .forEach((row, i) =>
          i === place ? row.setAttribute("aria-current", "true") : row.removeAttribute("aria-current"),
        );
  }
}

/* What decides in a setting (null: the first), with its place; null where nothing was judged. */
const weakest = (judged, number) =>
  judged.settings.length ? deciding(inSetting(judged, number || 0))[0] : null;

/* How old and how sound this copy is; in a frame, where no page script is, only what is missing. */
const standing = (unguarded) => [
  Ringfence.page && Ringfence.page.standing ? Ringfence.page.standing() : null,
  unguarded
    ? el(
        "p",
        { class: "rf-standing__news" },
        "Worked out here only: the table this answer is held against did not load. Load this page again before you rely on it.",
      )
    : null,
];

const answered = (parts, announce) => ({
  element: el("section", { class: "rf-answer", "aria-label": "Answer" }, parts.flat()),
  announce,
}); // what is missing is left out by el

/* The first lines: the verdict, when it holds, what decides it, what to do, and the plug to take. */
const verdict = (judged, question, numbers = null) =>
  el(
    "div",
    { class: `rf-banner rf-banner--${slug(judged.verdict)}`, "data-verdict": judged.verdict },
    signOf(judged.verdict),
    el("h2", { class: "rf-answer__head", tabindex: "-1" }, capital(judged.verdict)),
    line("means", Ringfence.ways?.meant?.(judged)),
    line("when", condition(judged)),
    line("says", sentence(judged)),
    line("order", judged.offer),
    line("plugs", markedOf(judged)),
    line("best", Ringfence.ways?.best?.(judged, question)),
    judged.verdict === "does not fit" ? byPicture("Is it the plug you think? Compare the pictures") : null,
    numbers,
  );

/* The third layer: a part under its heading, closed. Its own heading says the same and is left to those who open it. */
const folded = (words, part) =>
  part ? el("details", { class: "rf-more rf-folded" }, el("summary", {}, words), part) : null;

const line = (name, words) => (words ? el("p", { class: `rf-banner__${name}` }, words) : null);

function better(judged, question) {
  const words = betterThan(judged, question);
  return words ? el("p", { class: "rf-switch" }, words) : null;
}

/* No live answer: say so, and give the generator's verdict where there is one, with its name on it. */
function broken(failed, question) {
  const row = question && rowOf(question.from, question.through, question.into);
  if (!row)
    return {
      head: "Not worked out",
      says: `${failed} Treat this connection as dangerous until you know better.`,
    };
  const why = row.findings.length ? ` (${row.findings.join(", ")})` : "";
  return {
    row,
    head: `${capital(row.verdict)}, from the table`,
    says: `${failed} The table made with this page says: ${row.verdict}${why}.`,
  };
}

function banner({ row, head, says }, question) {
  return [
    el(
      "div",
      { class: "rf-banner rf-banner--broken" },
      row ? signOf(row.verdict) : null,
      el("h2", { class: "rf-answer__head", tabindex: "-1" }, head),
      el("p", { class: "rf-banner__says" }, says),
    ),
    takeCare(careful(question, null)),
  ];
}

export const notFound = (texts) =>
  el(
    "div",
    { class: "rf-unknown", role: "alert" },
    texts.map((text) => el("p", {}, "Not found: ", el("code", {}, text))),
    el("p", {}, "Nothing here goes by that id, so there is no answer for this address. Choose again below."),
  );
