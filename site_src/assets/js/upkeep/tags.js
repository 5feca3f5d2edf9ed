/* Tags to print: the label, days, what else one wants on it, and a code that opens this lead in the log of the phone that reads it. */

import { drawing } from "../qr/code.js";
import { el, own as ownOf } from "../ui/dom.js";

/* What a code says: the address of this lead here; on a disc, where no phone can follow, the label alone. */
export const coded = (label, { protocol, href }) =>
  protocol.startsWith("http") ? `${href.split("#")[0]}#lead=${encodeURIComponent(label)}` : label;

/* `own` is a line of one's own for every tag: a name, a telephone number. */
export function tags(log, names, own, onown) {
  const line = el("input", {
    type: "text",
    maxlength: "60",
    value: own,
    autocomplete: "off",
    placeholder: "Whose it is, a telephone number",
    onchange: () => onown(line.value.trim()),
  });
  return el(
    "section",
    { class: "rf-tags", "aria-label": "Tags" },
    el(
      "div",
      { class: "rf-form rf-noprint rf-tags__own" },
      el("label", { class: "rf-field rf-field--wide" }, el("span", {}, "Your own line on every tag"), line),
    ),
    log.leads.map((lead) =>
      el(
        "div",
        { class: "rf-tag" },
        picture(coded(lead.label, location)) || picture(lead.label),
        el(
          "div",
          {},
          el("strong", {}, lead.label),
          own ? el("span", {}, own) : null,
          el("span", {}, ownOf(names, lead.lead) || ""),
          el("span", {}, lead.made ? `Made ${lead.made}` : ""),
          el("span", {}, lead.tested ? `Tested ${lead.tested}` : "Tested ____________"),
          el("span", {}, lead.due ? `Next ${lead.due}` : "Next ____________"),
        ),
      ),
    ),
  );
}

const picture = (text) =>
  drawing(text, "M", { class: "rf-tag__code", width: 80, height: 80, "aria-hidden": "true" });
