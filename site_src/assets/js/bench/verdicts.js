/* The lead on the bench between every outlet and every inlet it fits, judged live; worst first, each with its working. */

import { careful } from "../check/cautions.js";
import { findings } from "../check/findings.js";
import { better as betterThan, condition as conditionOf, judgeAll, sentence } from "../check/judged.js";
import { settings } from "../check/settings.js";
import { inlets as inletsOf, lead, outlets, port } from "../ui/catalogue.js";
import { el, takeCare, verdict as verdictMark } from "../ui/dom.js";
import { mated } from "../ui/fits.js";
import { address, rank, rows, verdicts as verdictsOf, worth } from "../ui/table.js";
import { capital, count as counted, inOrder } from "../ui/words.js";
import { ID, withLead } from "./lead.js";

const FAILED = "not worked out";

/* [[outlet, inlet]] of all ports the lead joins, outlet by outlet. */
function pairsOf(lead, { from, into }) {
  const ends = Object.values(lead.ends);
  const fits = (port) => ends.filter((end) => mated(port, end));
  const byName = (a, b) => inOrder(a.device, b.device) || inOrder(a.name, b.name);
  const places = (ports, only) =>
    ports
      .filter((port) => !only || port.id === only)
      .sort(byName)
      .map((port) => [port, fits(port)])
      .filter(([, found]) => found.length);
  const inlets = places(inletsOf(), into);
  return places(outlets(), from).flatMap(([outlet, starts]) =>
    inlets
      .filter(
        ([inlet, stops]) => inlet !== outlet && starts.some((near) => stops.some((far) => far !== near)),
      )
      .map(([inlet]) => [outlet, inlet]),
  );
}

/* {element, stop}: the list fills as the work goes on; `announce` gets the outcome once. */
export function verdicts(lead, only, root, announce) {
  const data = withLead(lead),
    pairs = pairsOf(lead, only),
    groups = new Map();
  const progress = el("p", { class: "rf-progress" });
  const list = el("div", { class: "rf-verdicts" });
  for (const verdict of [FAILED, ...[...verdictsOf()].reverse()]) {
    const group = made(verdict);
    groups.set(verdict, group);
    list.append(group.element);
  }
  if (!pairs.length) {
    const words = "No outlet and inlet in the catalogue fit the two sides of this lead.";
    announce(words);
    return { element: el("p", {}, words), stop() {} };
  }
  const stop = judgeAll(
    pairs.map(([outlet, inlet]) => ({ from: outlet.id, through: [ID], into: inlet.id })),
    told,
    () => {
      const tally = [...groups]
        .filter(([, group]) => group.count)
        .map(([verdict, { count }]) => `${count} ${verdict}`);
      progress.textContent = `${counted(pairs.length, "connection", "connections")}, all worked out here and now.`;
      announce(`${counted(pairs.length, "connection", "connections")}: ${tally.join(", ")}.`);
    },
    { data },
  );
  return { element: el("div", {}, progress, list), stop };

  function told({ judged, failed }, question, number) {
    groups
      .get(judged ? judged.verdict : FAILED)
      .add(row(port(question.from), port(question.into), judged, failed, question));
    progress.textContent = `Working: ${number} of ${pairs.length}`;
  }

  function row(outlet, inlet, judged, failed, question) {
    const body = el("div", { class: "rf-work" });
    return el(
      "li",
      {},
      el(
        "details",
        { class: "rf-group rf-group--one", ontoggle: fill },
        el(
          "summary",
          {},
          el("span", { class: "rf-group__name" }, outlet.name, el("span", {}, " into "), inlet.name),
          el(
            "span",
            { class: "rf-group__why" },
            judged ? sentence(judged) : `${failed} Treat it as dangerous until you know better.`,
          ),
        ),
        body,
      ),
    );

    function fill() {
      if (body.childElementCount || !judged) return;
      const condition = conditionOf(judged),
        better = betterThan(judged, question);
      const parts = [
        condition ? el("p", { class: "rf-banner__when" }, condition) : null,
        judged.offer ? el("p", { class: "rf-switch" }, judged.offer) : null,
        better ? el("p", { class: "rf-switch" }, better) : null,
        findings(judged, root),
        settings(judged, question),
        takeCare(careful({ from: outlet.id, through: [], into: inlet.id }, judged)),
        instead(judged, outlet, inlet, root),
      ];
      body.append(...parts.filter(Boolean));
    }
  }
}

/* A group of one verdict: hidden while empty; its rows are added when it is opened, and while it is open. */
function made(verdict) {
  const count = el("span", { class: "rf-tally" }),
    rows = el("ul", { class: "rf-works" });
  const head = rank(verdict) < 0 ? el("strong", {}, capital(verdict)) : verdictMark(verdict);
  const waiting = [];
  const element = el(
    "details",
    { class: "rf-group", hidden: true, "data-verdict": verdict, ontoggle: flush },
    el("summary", {}, head, count),
    rows,
  );
  const group = { element, count: 0, add };
  return group;

  function add(item) {
    group.count += 1;
    count.textContent = counted(group.count, "connection", "connections");
    element.hidden = false;
    waiting.push(item);
    if (element.open) flush();
  }

  function flush() {
    if (element.open) rows.append(...waiting.splice(0));
  }
}

/* The best lead of the catalogue between these two, where it does better. */
function instead(judged, outlet, inlet, root) {
  const [best] = rows(outlet.id, inlet.id);
  if (!best || worth(best) >= worth(judged)) return null;
  return el(
    "p",
    { class: "rf-instead" },
    "Better: ",
    el(
      "a",
      { href: address(root, outlet.id, best.through, inlet.id) },
      best.through.map((id) => lead(id).name).join(", then ") || "no lead, straight in",
    ),
    ", ",
    verdictMark(best.verdict),
    best.offer ? ` ${best.offer}` : null,
  );
}

export { pairsOf as pairs };
