/* The head of an answer that rests on own numbers: the verdict with whose number it is, what the number does not settle, and the verdict without it. */

import { button, el, mark as markOf, slug, verdict } from "../ui/dom.js";
import { amount, capital } from "../ui/words.js";
import { GRADE } from "./apply.js";
import { isLocal, used as usedOf } from "./asked.js";
import { mark, pretty } from "./words.js";

/* `alone` is what own.compared found. */
export function head(judged, question, alone, onown) {
  const used = usedOf(question);
  if (!used.length) return null;
  const danger = judged.verdict === "dangerous",
    ours = !danger || caused(judged, alone);
  const line = (name, words) => (words ? el("p", { class: `rf-banner__${name}` }, words) : null);
  return el(
    "div",
    {
      class: `rf-banner rf-banner--${slug(judged.verdict)} rf-banner--own`,
      "data-verdict": judged.verdict,
      "data-own": String(ours),
    },
    danger ? markOf(judged.verdict) : mark(judged.verdict),
    el(
      "h2",
      { class: "rf-answer__head", tabindex: "-1" },
      capital(judged.verdict),
      ours
        ? [",", el("span", { class: "rf-own__by" }, judged.own.slice(1).replace(/(\d) /g, "$1\u00a0"))]
        : null,
    ),
    line("when", Ringfence.check.condition(judged)),
    line("says", Ringfence.check.sentence(judged)),
    ours ? null : line("own", remains(judged, used)),
    line("order", judged.offer),
    line("plugs", Ringfence.check.marked(judged)),
    ours ? null : Ringfence.check.toNumbers(judged, onown),
    without(question, alone),
  );
}

/* What the catalogue says of the same connection: for a port of somebody's own file with its class there; nothing where it has none. */
async function aloneOf({ from, through, into }) {
  const classes = [from, into].map((id) => (isLocal(id) ? Ringfence.manual.classes[id] : id));
  return classes.every(Boolean)
    ? Ringfence.check.judge({ from: classes[0], through, into: classes[1] }, { lane: "alone" })
    : {};
}

/* The same where only that tells whether our number makes it dangerous, else null. */
export const compared = async (judged, question) =>
  judged.verdict !== "dangerous" || byNumbers(judged) ? null : aloneOf(question);

/* Is it our number that makes it dangerous? */
export const caused = (judged, alone) =>
  byNumbers(judged) || (Boolean(alone && alone.judged) && alone.judged.verdict !== "dangerous");

function byNumbers(judged) {
  const deciding = Ringfence.check.deciding(judged);
  return deciding.length > 0 && deciding.every(({ evidence }) => evidence === GRADE);
}

/* What a danger rests on that the number does not settle. */
export function remains(judged, used) {
  const finding =
    Ringfence.check.deciding(judged).find(({ evidence }) => evidence !== GRADE) || judged.findings[0];
  const what =
    used.length > 1
      ? "Your numbers do not settle it"
      : `Your number, ${pretty(used[0].shown)}, does not settle it`;
  const limit =
    finding.limit === null || finding.limit === undefined
      ? "a rating that is not known"
      : `its limit of ${amount(finding.limit, finding.unit)}`;
  return `${what}: what decides is the ${finding.where}, with ${limit} (${finding.evidence}).`;
}

/* One tap shows the verdict without it. */
function without(question, alone) {
  const place = el("div", { class: "rf-own__alone", role: "status", hidden: true });
  const open = button(
    { class: "rf-own__without", "data-key": "without", "aria-expanded": "false", onclick: show },
    "Show it without your number",
  );
  return el("div", { class: "rf-own__foot" }, open, place);

  async function show() {
    place.hidden = !place.hidden;
    open.setAttribute("aria-expanded", String(!place.hidden));
    open.textContent = place.hidden ? "Show it without your number" : "Hide it";
    if (place.childElementCount) return;
    place.append(el("p", {}, "Working it out …"));
    const { judged, failed } = alone || (await aloneOf(question));
    place.replaceChildren(
      ...(judged
        ? [
            verdict(judged.verdict),
            el("p", {}, `By the catalogue alone: ${Ringfence.check.sentence(judged)}`),
          ]
        : [
            el(
              "p",
              {},
              failed || "This device stands in a file of its own; the catalogue has no other numbers for it.",
            ),
          ]),
    );
  }
}

export { aloneOf as alone };
