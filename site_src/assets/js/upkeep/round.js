/* Leads that come back, one after the other: what has to beep, and three large buttons. */

import { lead as leadOf } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { inOrder, listed } from "../ui/words.js";
import { find, state } from "./log.js";

/* What has to beep on a lead of the catalogue: {joined: ["a.1 to b.1", ...], numbers} where parts inside ask for numbers; null if it is unknown. */
function beepsOf(lead) {
  if (!lead) return null;
  const pairs = lead.joins
    .map(({ nodes }) => nodes.filter((node) => node.includes(".")))
    .filter((nodes) => nodes.length > 1);
  return {
    joined: pairs.map(([first, ...rest]) => `${first} to ${listed(rest)}`),
    numbers: lead.parts.length > 0,
  };
}

/* In the order of the bench: never tested and due first, then by label. */
export function queue(log, today) {
  const rank = { "never tested": 0, due: 0, "out of use": 1, fine: 2 };
  return [...log.leads]
    .sort((a, b) => rank[state(a, today)] - rank[state(b, today)] || inOrder(a.label, b.label))
    .map(({ label }) => label);
}

/* `going` is {labels, at, answers: {label: passed, failed or missing}}; `on`: answer(word), back(), end(). */
export function round(log, going, root, on) {
  if (going.at >= going.labels.length) return summary(going, on);
  const lead = find(log, going.labels[going.at]),
    known = leadOf(lead.lead),
    beeps = beepsOf(known);
  return el(
    "section",
    { class: "rf-ask" },
    el("p", { class: "rf-upkeep__place" }, `${going.at + 1} of ${going.labels.length}`),
    el("h2", { class: "rf-ask__title rf-upkeep__label", tabindex: "-1" }, lead.label),
    el(
      "p",
      { class: "rf-ask__help" },
      known ? known.name : "No kind is entered for it. Ring it out contact by contact.",
    ),
    beeps
      ? el(
          "p",
          {},
          el("strong", {}, "Must beep: "),
          beeps.joined.length ? `${beeps.joined.join("; ")}.` : "nothing straight through.",
          " Nothing else may. Flex it at both plugs.",
        )
      : null,
    beeps && beeps.numbers
      ? el(
          "p",
          {},
          "It has parts inside: a beep is not enough. ",
          el("a", { href: `${root}workshop/${known.id}/#test-sheet` }, "Its test sheet has the numbers"),
          ".",
        )
      : null,
    lead.note ? el("p", { class: "rf-form__note" }, lead.note) : null,
    el(
      "div",
      { class: "rf-replies rf-upkeep__answers" },
      [
        ["passed", "Passed"],
        ["failed", "Failed"],
        ["missing", "Not here"],
      ].map(([word, words]) =>
        button({ class: "rf-reply", "data-answer": word, onclick: () => on.answer(word) }, words),
      ),
    ),
    el(
      "div",
      { class: "rf-actions" },
      going.at ? button({ class: "rf-button rf-button--quiet", onclick: on.back }, "One back") : null,
      button({ class: "rf-button rf-button--quiet", onclick: on.end }, "Stop here"),
    ),
  );
}

function summary({ answers }, on) {
  const having = (word) =>
    Object.entries(answers)
      .filter(([, said]) => said === word)
      .map(([label]) => label);
  const line = (word, head) =>
    having(word).length ? el("p", {}, el("strong", {}, `${head}: `), listed(having(word)), ".") : null;
  return el(
    "section",
    { class: "rf-ask" },
    el(
      "h2",
      { class: "rf-ask__title", tabindex: "-1" },
      `Through: ${having("passed").length} passed, ${having("failed").length} failed, ${having("missing").length} not here`,
    ),
    line("failed", "Tape on these, they are out of use"),
    line("missing", "Ask for these"),
    button({ class: "rf-button", onclick: on.end }, "Back to the list"),
  );
}

export { beepsOf as beeps };
