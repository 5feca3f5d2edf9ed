/* The numbers of what works: what is left of a supply, how much room there is, what a run keeps out. */

import { port } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { capital, sentence } from "../ui/words.js";
import { powers } from "./judged.js";

const OF_SOUND = ["treble-kept", "bass-kept", "channels-apart", "hum-held-back", "hum-left"];
const IN_WIRES = [...OF_SOUND, "load-seen"]; // of light only whether it arrives is worked out

export function figures(judged) {
  const { settings } = judged,
    lit = port(judged.from)?.sources.some(({ output }) => output.includes("dark")),
    untold = lit ? IN_WIRES : powers(judged) ? OF_SOUND : [],
    figures = (judged.figures || []).filter(({ id }) => !untold.includes(id));
  if (!figures.length) return null;
  const note =
    settings.length > 1 ? "With every supply on, at the worst tolerances." : "At the worst tolerances.";
  const kinds = new Map();
  for (const { id, says } of figures) kinds.set(id, [...(kinds.get(id) || []), sentence(says)]);
  return el(
    "section",
    { class: "rf-got" },
    el("h3", {}, "What you get"),
    el(
      "dl",
      { class: "rf-got__list" },
      [...kinds].map(([id, [first, ...others]]) =>
        el(
          "div",
          { "data-figure": id },
          el("dt", {}, capital(id.replaceAll("-", " "))),
          el("dd", {}, first, otherwise(others)),
        ),
      ),
    ),
    el("p", { class: "rf-form__note" }, note),
  );
}

/* The same number in other cases: hum is judged by the worst way the two devices may be powered, and told for every other. */
const otherwise = (others) =>
  others.length
    ? el(
        "details",
        { class: "rf-more" },
        el("summary", {}, "Powered in other ways"),
        el(
          "ul",
          { class: "rf-got__others" },
          others.map((says) => el("li", {}, says)),
        ),
      )
    : null;
