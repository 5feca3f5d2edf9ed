/* Kits for common jobs, to begin with and to change: what is in them stands in site_src/guides/kits.yaml. */

import { port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { side } from "../ui/side.js";
import { count } from "../ui/words.js";

const given = () => {
  const place = document.getElementById("rf-kits");
  return place ? JSON.parse(place.textContent) : [];
};

/* `use(kit)` takes one into what is carried. */
export function starters(use, open) {
  const all = given();
  if (!all.length) return null;
  return el(
    "details",
    { class: "rf-fold rf-kit__starters", open },
    el("summary", { "data-key": "starters" }, "Start with a kit for a job"),
    el(
      "ul",
      {},
      all.map((one) =>
        el(
          "li",
          {},
          el("h3", {}, one.name),
          el("p", { class: "rf-form__note" }, one.for),
          el(
            "p",
            { class: "rf-kit__drawn", "aria-hidden": "true" },
            one.ports.map((id) => side(port(id), { scale: 0.18 })),
          ),
          el(
            "p",
            {},
            count(one.ports.length, "device", "devices"),
            ", ",
            count(one.leads.length, "lead", "leads"),
          ),
          button(
            {
              class: "rf-button rf-button--quiet",
              "data-key": `starter ${one.id}`,
              "aria-label": `Add to my kit: ${one.name}`,
              onclick: () => use(one),
            },
            "Add to my kit",
          ),
        ),
      ),
    ),
  );
}
