/* The connection as a small picture from left to right, for the top of an answer: device, plugs of the lead, device; the weak spot is marked. */

import { lead, port } from "../ui/catalogue.js";
import { el, mark } from "../ui/dom.js";
import { mated, reach } from "../ui/fits.js";
import { side } from "../ui/side.js";

export function thumb({ from, through, into }) {
  const [outlet, inlet] = [port(from), port(into)],
    leads = through.map(lead);
  let open = [outlet];
  const pieces = leads.map((lead, index) => {
    const next = index + 1 < leads.length ? Object.values(leads[index + 1].ends) : [inlet];
    const [near, far] = used(lead, open, next);
    open = reach(outlet, through.slice(0, index + 1));
    return el(
      "li",
      { class: "rf-thumb__piece rf-thumb__lead", "data-place": `lead${index + 1}` },
      el(
        "span",
        { class: "rf-thumb__drawn" },
        side(near),
        el("span", { class: "rf-thumb__wire" }),
        side(far, { turned: true }),
      ),
      el("span", { class: "rf-thumb__name" }, brief(lead)),
    );
  });
  return el(
    "ol",
    { class: "rf-thumb", "aria-label": "The connection at a glance" },
    device(outlet, "from", true),
    pieces,
    device(inlet, "into", false),
  );
}

const brief = ({ name }) => name.split(",")[0];

function device(port, place, turned) {
  return el(
    "li",
    { class: `rf-thumb__piece rf-thumb__device rf-thumb__device--${place}`, "data-place": place },
    el("span", { class: "rf-thumb__drawn" }, side(port, { turned })),
    el("span", { class: "rf-thumb__name" }, brief(port)),
  );
}

/* Which end of a lead is plugged on this side, and which on the other; the first and the last where none fits. */
function used(lead, places, next) {
  const ends = Object.values(lead.ends),
    meets = (end, others) => others.some((other) => mated(other, end) || mated(end, other));
  const near = ends.find((end) => meets(end, places)) || ends[0],
    rest = ends.filter((end) => end !== near);
  return [near, rest.find((end) => meets(end, next)) || rest[rest.length - 1] || near];
}

/* The mark where a finding is decided: at one piece, or at all between two; null takes it away. */
export function markThumb(thumb, finding) {
  const items = [...thumb.children],
    stands = (name) => items.findIndex((item) => item.dataset.place === name.split("/")[0]);
  const [one, two] = finding ? finding.subject.split(">") : [],
    at = one ? [stands(one), two ? Math.max(stands(two), stands("into")) : stands(one)] : [-1];
  thumb.querySelectorAll(".rf-thumb__weak").forEach((told) => told.remove());
  items.forEach((item, i) => {
    const marked = Math.min(...at) >= 0 && Math.min(...at) <= i && i <= Math.max(...at);
    item.classList.toggle("rf-thumb__marked", marked);
    if (!marked) return delete item.dataset.tone;
    item.dataset.tone = finding.severity;
    return i === Math.max(...at)
      ? item.append(
          el("span", { class: "rf-thumb__weak" }, mark(finding.severity), el("span", {}, "The weak spot")),
        )
      : null;
  });
}
