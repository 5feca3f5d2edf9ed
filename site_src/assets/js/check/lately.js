/* The question asked last, as it is remembered. */

import { lead, port } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { remembered } from "../ui/memory.js";
import { read } from "./address.js";

/* What was chosen last time at a step, where one thing was. */
export function lately(step) {
  const chosen = [read(remembered())[step]].flat();
  return chosen.length === 1 ? chosen[0] : null;
}

/* The last question, one tap away, while nothing is chosen yet. */
export function again() {
  const last = remembered();
  if (location.hash || !last) return null;
  const { from, through, into, unknown } = read(last);
  if (!from || !into || unknown.length) return null;
  const names = [port(from).name, ...(through || []).map((id) => lead(id).name), port(into).name];
  return el(
    "p",
    { class: "rf-again" },
    el("a", { href: last }, el("span", {}, "Last time"), names.join(" → ")),
  );
}
