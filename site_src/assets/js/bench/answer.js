/* What comes of the wiring: its name, the verdicts, the link, the file. The verdicts are only worked out again when the lead changes. */

import { el, takeCare } from "../ui/dom.js";
import { inOrder } from "../ui/words.js";
import { write } from "./address.js";
import { field } from "./inside.js";
import { keeping } from "./keep.js";
import { lead as leadOf, missing as missingOf } from "./lead.js";
import { making as makingOf } from "./make.js";
import { match, offer, share } from "./match.js";
import { mending as mendingOf } from "./mend.js";
import { pairs as pairsOf, verdicts } from "./verdicts.js";

/* A function that shows the answer to a wiring; `announce` gets what a screen reader is told. */
export function answer(root, announce) {
  let working = null,
    kept = "";
  const only = { from: "", into: "" };
  const place = el("div", {}),
    mending = mendingOf(root),
    making = makingOf(root);

  return function (wiring, partial, told, fold) {
    const missing = partial ? ["The link was not understood as a whole."] : missingOf(wiring);
    if (missing.length) {
      stop();
      return el(
        "section",
        { class: "rf-bench__answer", "aria-label": "Answer" },
        el(
          "div",
          { class: "rf-match" },
          el("h2", {}, "Not a lead yet"),
          el(
            "ul",
            {},
            missing.map((words) => el("li", {}, words)),
          ),
        ),
        partial ? null : share(write(wiring)),
      );
    }
    const lead = leadOf(wiring);
    judge(lead);
    return el(
      "section",
      { class: "rf-bench__answer", "aria-label": "Answer" },
      match(lead, wiring, root),
      el(
        "section",
        { class: "rf-does" },
        el("h2", {}, "What it does"),
        Ringfence.page && Ringfence.page.standing ? Ringfence.page.standing() : null,
        cautions(wiring),
        filters(lead),
        place,
      ),
      el("section", { class: "rf-mend" }, el("h2", {}, "Is it whole?"), mending(lead)),
      el("section", { class: "rf-make__part" }, el("h2", {}, "Make it"), making(lead, wiring)),
      keeping(wiring, told, root, announce),
      el(
        "section",
        {},
        el("h2", {}, "Hand it on"),
        share(write(wiring)),
        fold("offer", "Add this lead to the catalogue", offer(wiring, told)),
      ),
    );
  };

  function stop() {
    if (working) working.stop();
    working = null;
    kept = "";
  }

  function judge(lead) {
    const asked = JSON.stringify([lead, only]);
    if (asked === kept) return;
    stop();
    kept = asked;
    working = verdicts(lead, only, root, announce);
    place.replaceChildren(working.element);
  }

  function filters(lead) {
    const pairs = pairsOf(lead, { from: "", into: "" });
    const sides = [
      ["from", "From", "Any outlet", pairs.map(([outlet]) => outlet)],
      ["into", "Into", "Any inlet", pairs.map(([, inlet]) => inlet)],
    ];
    if (pairs.length < 2) return null;
    return el(
      "div",
      { class: "rf-form rf-does__only" },
      sides.map(([name, label, any, ports]) => {
        const unique = [...new Set(ports)].sort((a, b) => inOrder(a.name, b.name));
        if (only[name] && !unique.some(({ id }) => id === only[name])) {
          only[name] = "";
          judge(lead);
        }
        return field(
          label,
          el(
            "select",
            {
              "data-key": `only ${name}`,
              onchange: (event) => {
                only[name] = event.target.value;
                judge(lead);
              },
            },
            el("option", { value: "" }, any),
            unique.map(({ id, name: words }) =>
              el("option", { value: id, selected: id === only[name] }, words),
            ),
          ),
        );
      }),
    );
  }
}

/* What these verdicts cannot know. */
function cautions(wiring) {
  const said = [
    "True for the wiring as entered. Measure with nothing plugged in, and wiggle each plug while it beeps.",
  ];
  if (!wiring.cable)
    said.push(
      "No cable is chosen, so its resistance and capacitance are left out: a long lead may be duller than this.",
    );
  if (wiring.joins.length && !wiring.parts.length)
    said.push(
      "A part inside does not beep. Check with ohms as well: kilohms, or a reading that climbs, is a resistor or a capacitor.",
    );
  if (wiring.parts.some(({ kind, rating }) => kind !== "transformer" && !rating))
    said.push("What a part stands is not known, so it counts as dangerous wherever a supply reaches it.");
  return takeCare(said);
}
