/* The chain as pictures: port, lead, port, with the contacts that touch written between them, and a mark where the verdict is decided. */

import { lead as leadOf, port } from "../ui/catalogue.js";
import { el, mark as markOf } from "../ui/dom.js";
import { mated, reach } from "../ui/fits.js";
import { capital } from "../ui/words.js";

export function chain({ from, through, into }, root) {
  const [outlet, inlet] = [port(from), port(into)];
  const pieces = [picture("ports", outlet, root, "from")];
  let open = [outlet];
  for (const [index, id] of through.entries()) {
    const lead = leadOf(id);
    pieces.push(joint(open, Object.values(lead.ends)), picture("leads", lead, root, `lead${index + 1}`));
    open = reach(outlet, through.slice(0, index + 1));
  }
  pieces.push(joint(open, [inlet]), picture("ports", inlet, root, "into"));
  return el("section", { class: "rf-chain" }, el("h3", {}, "The connection"), el("ol", {}, pieces));
}

/* Marks in a chain where a finding is decided: its device or lead, or all that lies between two of them. null takes the marks away. */
export function mark(chain, finding) {
  const items = [...chain.querySelectorAll("ol > li")],
    stands = (name) => items.findIndex((item) => item.dataset.place === name.split("/")[0]);
  const [one, two] = finding ? finding.subject.split(">") : [],
    at = one ? [stands(one), two ? Math.max(stands(two), stands("into")) : stands(one)] : [-1];
  const [first, last] = [Math.min(...at), Math.max(...at)];
  chain.querySelectorAll(".rf-chain__here").forEach((told) => told.remove());
  items.forEach((item, i) => {
    const marked = first >= 0 && first <= i && i <= last;
    item.classList.toggle("rf-chain__marked", marked);
    if (marked) item.dataset.tone = finding.severity;
    else delete item.dataset.tone;
  });
  if (first >= 0)
    items[last].append(
      el(
        "p",
        { class: "rf-chain__here" },
        markOf(finding.severity),
        el("span", {}, `${first === last ? "Decided here" : "Decided on the way"}: ${finding.where}`),
      ),
    );
}

function picture(kind, entry, root, place) {
  const one = kind.slice(0, -1);
  if (entry.ends && entry.mine) {
    // a lead of one's own has no page and no drawing
    return el(
      "li",
      { class: "rf-chain__piece", "data-place": place },
      el(
        "a",
        { href: `${root}bench/${Ringfence.own.leadOf(entry.id).wiring}` },
        el("span", {}, `${entry.name}, as wired on the bench`),
      ),
    );
  }
  return el(
    "li",
    { class: "rf-chain__piece", "data-place": place },
    el(
      "a",
      { href: `${root}${kind}/${encodeURIComponent(entry.id)}/` },
      el("img", { src: `${root}draw/${one}-${encodeURIComponent(entry.id)}.svg`, alt: "", loading: "lazy" }),
      el("span", {}, entry.name),
    ),
  );
}

/* Which contact meets which, for the first pair of halves that fit. */
function joint(places, others) {
  const pairs = places.flatMap((place) =>
    others.map((other) => ({ place, other, ways: mated(place, other) })),
  );
  const pair = pairs.find(({ ways }) => ways);
  if (!pair)
    return el(
      "li",
      { class: "rf-chain__joint rf-chain__joint--no" },
      "These halves do not go into each other.",
    );
  const lines = pair.ways.map((way) => way.map(([a, b]) => `${a} → ${b}`).join(", "));
  return el(
    "li",
    { class: "rf-chain__joint" },
    el("span", { class: "rf-chain__halves" }, `${capital(pair.place.half)} into ${pair.other.half}`),
    lines.map((line, index) => el("span", {}, index ? `or, in some jacks: ${line}` : line)),
  );
}
