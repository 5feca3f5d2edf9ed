/* After an update: is a verdict between two things of mine worse than it was when I last looked? What was seen is kept on the device, with the date of
   its data; where that is refused, nothing is announced. */

import { keepKitSeen, kitSeen } from "../ui/bag.js";
import { lead, port } from "../ui/catalogue.js";
import { button, el, verdict } from "../ui/dom.js";
import { address, rank } from "../ui/table.js";
import { of, pairs } from "./overview.js";

const state = () => {
  const meta = document.querySelector("meta[name=edition]");
  return meta ? { edition: meta.content, date: meta.dataset.date } : { edition: "", date: "" };
};

/* "from|lead|into" -> verdict, of every way with one lead of the kit or none. */
export const verdicts = ({ ports, leads }) =>
  Object.fromEntries(
    pairs({ ports, leads }).flatMap(({ from, into }) =>
      of(from, into, leads).map(({ through, verdict }) => [[from, through.join(), into].join("|"), verdict]),
    ),
  );

/* Those that got worse: [{from, through, into, before, now}], the worst first. */
export const worse = (before, now) =>
  Object.entries(now)
    .filter(
      ([key, verdict]) =>
        Object.hasOwn(before, key) && rank(before[key]) >= 0 && rank(verdict) > rank(before[key]),
    )
    .map(([key, verdict]) => {
      const [from, through, into] = key.split("|");
      return { from, through: through ? [through] : [], into, before: before[key], now: verdict };
    })
    .sort((a, b) => rank(b.now) - rank(a.now));

/* What to announce, or null; `done` is called when it was read. What is new to the kit is taken as seen. */
export function news(contents, root, done = () => null) {
  if (!Ringfence.table || !contents.ports.length) return null;
  const now = verdicts(contents),
    seen = kitSeen(),
    { edition, date } = state(),
    found = seen && seen.edition !== edition ? worse(seen.verdicts, now) : [];
  if (!found.length) return void keepKitSeen({ edition, date, verdicts: now }) || null;
  const read = () => {
    keepKitSeen({ edition, date, verdicts: now });
    done();
  };
  return el(
    "section",
    { class: "rf-kit__news", role: "alert", "aria-label": "Changed for the worse" },
    el("h2", {}, "Changed for the worse in your kit"),
    el("p", {}, `The data are of ${date} now; you last looked at those of ${seen.date}.`),
    el(
      "ul",
      {},
      found.map((one) =>
        el(
          "li",
          {},
          el(
            "a",
            { class: "rf-option", href: address(root, one.from, one.through, one.into) },
            el("span", { class: "rf-option__name" }, `${port(one.from).name} → ${port(one.into).name}`),
            el(
              "span",
              { class: "rf-option__more" },
              `${one.through.map((id) => lead(id).name).join() || "straight in"}: was ${one.before}`,
            ),
            verdict(one.now),
          ),
        ),
      ),
    ),
    button({ class: "rf-button", "data-key": "news read", onclick: read }, "I have read this"),
  );
}
