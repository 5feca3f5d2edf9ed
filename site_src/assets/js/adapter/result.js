/* The wirings sold in a form: what each would do here, what to ask the seller, what to measure when it has come. */

import { half as halfOf } from "../ui/catalogue.js";
import { el, verdict } from "../ui/dom.js";
import { address, row as rowOf, works } from "../ui/table.js";
import { capital, count } from "../ui/words.js";
import { means } from "../ways/said.js";
import { siblings, told } from "./siblings.js";

export function result({ ends, from, into }, root) {
  const leads = siblings(ends);
  if (!leads.length)
    return el(
      "p",
      { class: "rf-adapter__none" },
      "Nothing in the catalogue has just these ends. Add the third end if it has one, or lay out how it is wired on the ",
      el("a", { href: `${root}bench/` }, "bench"),
      ".",
    );
  const judged =
    from && into
      ? leads.map((lead) => ({ lead, way: way(from, lead.id, into) }))
      : leads.map((lead) => ({ lead, way: null }));
  const { tests, alike } = told(leads, ends);
  return el(
    "section",
    { class: "rf-adapter__result", "aria-label": "How it may be wired" },
    el(
      "h2",
      { class: "rf-answer__head", tabindex: "-1" },
      `${count(leads.length, "wiring is", "wirings are")} sold in this form`,
    ),
    summary(judged),
    el(
      "ul",
      { class: "rf-ways__list" },
      judged.map((one) => el("li", {}, wiring(one, from, into, root))),
    ),
    leads.length > 1 ? asking(tests, leads) : null,
    leads.length > 1 ? measuring(tests, alike, ends) : null,
  );
}

function way(from, lead, into) {
  const row = rowOf(from, [lead], into);
  return row
    ? { verdict: row.verdict, offered: row.offered, offer: row.offer, findings: row.findings }
    : { verdict: "does not fit", findings: ["does-not-mate"] };
}

/* Whether it matters here which one it is. */
function summary(judged) {
  if (!judged[0].way)
    return el(
      "p",
      { class: "rf-lede" },
      "Say what you have and what it goes into, and each wiring is judged between them.",
    );
  const kinds = [...new Set(judged.map(({ way: { verdict } }) => verdict))],
    harm = judged.filter(({ way: { verdict } }) => verdict === "dangerous").length;
  const good = judged.filter(({ way: one }) => works(one)).length;
  const words =
    harm === judged.length
      ? "Do not buy it for this: every wiring of this form harms something here."
      : harm
        ? `Ask before you buy: ${harm} of ${judged.length} wirings harm something here.`
        : !good
          ? "It will not do: no wiring of this form works here."
          : kinds.length === 1
            ? `It does not matter which one it is: all of them end ${kinds[0]} here.`
            : `Ask which one it is: ${good} of ${judged.length} wirings work here.`;
  return el("p", { class: "rf-adapter__summary" }, words);
}

function wiring({ lead, way: ends }, from, into, root) {
  const [first, ...more] = lead.name.split(", "),
    body = [
      el("span", { class: "rf-way__name" }, first),
      el("span", { class: "rf-way__more" }, more.join(", ")),
      ends
        ? el(
            "span",
            { class: "rf-way__ends" },
            verdict(ends.verdict),
            el("span", { class: "rf-way__loses" }, ends.offer || means(ends)),
          )
        : null,
    ];
  return el(
    "a",
    {
      class: "rf-way rf-way--plain",
      "data-lead": lead.id,
      href:
        ends && ends.verdict !== "does not fit"
          ? address(root, from, [lead.id], into)
          : `${root}leads/${encodeURIComponent(lead.id)}/`,
    },
    body,
  );
}

const place = (ends, [at, contact]) =>
  `${contact} of ${ends.length > 1 && new Set(ends).size < ends.length ? `end ${at + 1}, the ` : "the "}${half(ends[at])}`;
const half = (end) => {
  const [connector, which] = end.split("/");
  return halfOf({ connector, half: which });
};
const short = ({ name }) => name.split(", ").slice(1).join(", ") || name;

function asking(tests, leads) {
  const inside = leads.filter(({ parts }) => parts.length),
    asked = [];
  if (inside.length && inside.length < leads.length)
    asked.push("Is anything inside: resistors, a capacitor, a transformer, a battery? Or is it plain wire?");
  if (tests.length)
    asked.push(
      "Which contact is joined to which? Ask for the wiring in writing; “for cameras” or “balanced” on the packet is no answer.",
    );
  asked.push("May I bring it back if it measures otherwise?");
  return el(
    "section",
    {},
    el("h3", {}, "Ask the seller"),
    el(
      "ul",
      { class: "rf-plain" },
      asked.map((words) => el("li", {}, words)),
    ),
  );
}

function measuring(tests, alike, ends) {
  const rows = tests.map(({ pair: [one, two], yes, no }) =>
    el(
      "li",
      { class: "rf-adapter__test" },
      el("strong", {}, `${capital(place(ends, one))} to ${place(ends, two)}`),
      el("span", {}, `Beeps: ${yes.map(short).join("; ")}`),
      el("span", {}, `Silent: ${no.map(short).join("; ")}`),
    ),
  );
  const same = alike.length
    ? el(
        "p",
        {},
        `A beep does not tell apart: ${alike.map((group) => group.map(short).join(" / ")).join("; ")}. A resistor, capacitor or transformer inside does not beep; measure ohms, and read the pages of these leads.`,
      )
    : null;
  return el(
    "section",
    {},
    el("h3", {}, "Measure when it arrives"),
    rows.length ? el("p", {}, "Meter on beep, nothing plugged in at either end.") : null,
    el("ol", { class: "rf-plain" }, rows),
    same,
  );
}
