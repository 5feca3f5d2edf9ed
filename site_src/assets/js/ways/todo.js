/* The short lines of an answer: what the verdict means here, whether this lead is the best there is, and what to do. They come with the list of
   ways, after the first load; without it an answer goes without them. */

import { carried } from "../check/bagged.js";
import { better, deciding } from "../check/judged.js";
import { el } from "../ui/dom.js";
import { address, works } from "../ui/table.js";
import { better as betterThan, of } from "./rank.js";
import { means, named as namedOf } from "./said.js";

const named = (findings) => findings.map(({ id }) => id);
const decided = (judged) => ({ ...judged, findings: named(deciding(judged)) });

/* "Works, but: one side only (audible)". */
export const meant = (judged) => (judged.verdict !== "does not fit" ? `${means(decided(judged))}.` : "");

/* The best of the table, where it beats the way that was asked about. */
function beats(judged, question) {
  const [best] = of(question.from, question.into).filter((way) => works(way) && way.through.every(carried));
  return best && betterThan(best, { ...decided(judged), ...question }) ? best : null;
}

/* That no single lead does better is what a person came to hear. */
export const best = (judged, question) =>
  Ringfence.table && works(judged) && judged.verdict !== "safe" && !beats(judged, question)
    ? `${question.through.length ? "This is the best lead there is" : "There is no better way"} between these two.`
    : "";

/* One line on what to do; null where nothing is to be done, or the verdict has said it. Of the best by somebody's own numbers the table
   knows nothing. */
export function todo(judged, question, root) {
  if (judged.verdict === "safe" || judged.offer || better(judged, question).startsWith("Before")) return null;
  const best = judged.own ? null : beats(judged, question),
    [first] = deciding(judged),
    heading = el("strong", {}, "Do this: ");
  if (best)
    return el(
      "p",
      { class: "rf-do" },
      heading,
      "take ",
      el(
        "a",
        { href: address(root, question.from, best.through, question.into) },
        best.through.length ? namedOf(best.through) : "no lead: plug it straight in",
      ),
      " instead.",
    );
  return first && first.remedy ? el("p", { class: "rf-do" }, heading, first.remedy) : null;
}
