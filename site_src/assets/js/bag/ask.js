/* "What in my kit gets this into that?": two ports, every chain of the bag between them, and what to add when none is good. */

import { lead, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { verdictBy } from "../ui/own.js";
import { address, works } from "../ui/table.js";
import { count } from "../ui/words.js";
import { toAdd } from "./chains.js";

const SHOWN = 5;

/* `on`: pick(side), pack(lead), addJob(). `found` is {ways, failed}, or null while it is worked out; `progress` an element that says so. */
export function ask(contents, { from, into }, found, progress, root, on) {
  return el(
    "section",
    { "aria-label": "What gets there" },
    el("div", { class: "rf-pairing" }, opener("from", "From", from), opener("into", "Into", into)),
    from && into
      ? found
        ? outcome()
        : progress
      : el(
          "p",
          { class: "rf-form__note" },
          "Choose both ends. Only the leads in your kit are used, up to two in a row.",
        ),
  );

  function opener(side, label, id) {
    return button(
      { class: "rf-step__open", "data-key": `ask ${side}`, onclick: () => on.pick(side) },
      el("span", { class: "rf-step__label" }, label),
      el("span", { class: "rf-step__name" }, id ? port(id).name : "Choose"),
    );
  }

  function outcome() {
    const { ways, failed } = found;
    const add = toAdd(from, into, contents.leads, ways[0]);
    const packed = contents.jobs.some((job) => job[0] === from && job[1] === into);
    return el(
      "div",
      {},
      el("h2", { tabindex: "-1", class: "rf-bag__outcome" }, headline(ways)),
      failed
        ? el(
            "p",
            {},
            `${count(failed, "chain", "chains")} could not be worked out. Treat as dangerous what is not listed.`,
          )
        : null,
      waysOf(ways.slice(0, SHOWN), from, into, root),
      ways.length > SHOWN
        ? el(
            "details",
            { class: "rf-more" },
            el("summary", {}, `${ways.length - SHOWN} more`),
            waysOf(ways.slice(SHOWN), from, into, root),
          )
        : null,
      add
        ? el("section", {}, el("h3", {}, "Worth packing"), offer(add, contents, from, into, root, on))
        : null,
      !add && (!ways.length || !works(ways[0]))
        ? el(
            "p",
            {},
            "No single lead in this catalogue makes it work either. ",
            el("a", { href: `${address(root, from, [], into)}` }, "What the check says"),
          )
        : null,
      packed
        ? el("p", { class: "rf-form__note" }, "On the packing list.")
        : button(
            { class: "rf-button rf-button--quiet", "data-key": "add job", onclick: () => on.addJob() },
            "Put on the packing list",
          ),
    );
  }
}

export function headline(ways) {
  if (!ways.length) return "Nothing in the bag goes between these";
  const [{ verdict, offered }] = ways;
  if (offered)
    return offered === "safe"
      ? "Safe with what you carry, in the order told"
      : "It works in the order told, and loses something";
  if (verdict === "safe") return "Safe with what you carry";
  if (verdict === "lossy") return "It works, and loses something";
  return verdict === "dangerous"
    ? "Nothing in the bag is without danger"
    : "Nothing in the bag makes it work";
}

const throughOf = (through) =>
  through.map((id) => lead(id).name).join(", then ") || "No lead, plugged straight in";

/* Ways as rows that open the check. */
const waysOf = (ways, from, into, root) =>
  el(
    "ul",
    {},
    ways.map(({ through, verdict, says, own }) =>
      el(
        "li",
        {},
        el(
          "a",
          { class: "rf-option", href: address(root, from, through, into) },
          el("span", { class: "rf-option__name" }, throughOf(through)),
          el("span", { class: "rf-option__more" }, says),
          verdictBy(verdict, own),
        ),
      ),
    ),
  );

/* A way from outside the bag, and its leads one tap from being in it. */
export function offer(row, { leads }, from, into, root, on) {
  const wanted = row.through.filter((id) => !leads.includes(id));
  const way = { ...row, says: row.offer || row.findings.join(", ") };
  return el(
    "div",
    { class: "rf-offering" },
    waysOf([way], from, into, root),
    wanted.map((id) =>
      button(
        {
          class: "rf-button rf-button--quiet",
          "data-key": `pack ${from} ${into} ${id}`,
          "aria-label": `Put in the bag: ${lead(id).name}`,
          onclick: () => on.pack(id),
        },
        "Put it in the bag",
      ),
    ),
  );
}

export { throughOf as through, waysOf as ways };
