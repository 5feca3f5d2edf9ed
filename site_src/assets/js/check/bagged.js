/* The check with only the leads somebody carries: a switch, off until it is asked for, and only where there is a bag. */

import { bag, bagOnly, kitSeen, setBagOnly } from "../ui/bag.js";
import { button, el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { sides } from "../ui/side.js";

export const carried = (id) => !bagOnly() || bag().leads.includes(id);

/* Choices of the Through step, with the leads left at home among those that are hidden. */
export function bagged({ fit, not }) {
  if (!bagOnly()) return { fit, not };
  const home = fit.filter(({ id }) => !carried(id)).map((entry) => ({ entry, why: "Not in your kit." }));
  return { fit: fit.filter(({ id }) => carried(id)), not: [...home, ...not] };
}

/* The devices of somebody's kit, before all others; null where the kit has none that fit. */
export function kitFirst({ fit }, choose) {
  const mine = new Set(bag().ports),
    found = fit.filter(({ id }) => mine.has(id));
  return found.length
    ? [
        el(
          "section",
          { class: "rf-picker__group rf-picker__group--first", "data-kit": "" },
          el("h3", {}, "My kit"),
          el(
            "ul",
            {},
            found.map((port) =>
              el(
                "li",
                {},
                button(
                  { class: "rf-option", "data-key": `kit ${port.id}`, onclick: () => choose(port.id) },
                  sides(port),
                  el("span", { class: "rf-option__name" }, port.name),
                ),
              ),
            ),
          ),
        ),
      ]
    : null;
}

/* On the first page: what an update made worse between things of somebody's kit, above the question until it is read. Asked for only where this
   edition's data were not looked at yet, so that everybody else loads nothing more. */
export async function news(root) {
  const edition = document.querySelector("meta[name=edition]"),
    seen = kitSeen();
  if (!bag().ports.length || !seen || !edition || seen.edition === edition.content) return;
  for (const name of ["circuits", "engine", "table", "ways", "kit"]) if (!(await later(name))) return;
  const news = Ringfence.kit.news(bag(), root.dataset.root, () => news.remove());
  if (news) root.before(news);
}

/* The switch, or null when the bag has no leads; `onchange` shows the page anew. */
export function bagSwitch(onchange) {
  if (!bag().leads.length) return null;
  const on = bagOnly();
  return button(
    {
      class: "rf-toggle",
      role: "switch",
      "aria-checked": String(on),
      "data-key": "bag only",
      onclick: () => {
        setBagOnly(!on);
        onchange();
      },
    },
    el("span", { class: "rf-toggle__knob", "aria-hidden": "true" }),
    "Only what is in my kit",
  );
}
