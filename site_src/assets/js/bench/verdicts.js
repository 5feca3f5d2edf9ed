"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.bench = Ringfence.bench || {};

/* The lead on the bench between every outlet and every inlet it fits, judged live; worst first, each with its working. */
(function (bench, ui) {
  const { el } = ui;
  const FAILED = "not worked out";
  const check = Ringfence.check;

  /* [[outlet, inlet]] of all ports the lead joins, outlet by outlet. */
  bench.pairs = function (lead, { from, into }) {
    const ends = Object.values(lead.ends);
    const fits = (port) => ends.filter((end) => ui.mated(port, end));
    const byName = (a, b) => ui.inOrder(a.device, b.device) || ui.inOrder(a.name, b.name);
    const places = (ports, only) => ports.filter((port) => !only || port.id === only).sort(byName).map((port) => [port, fits(port)]).filter(([, found]) => found.length);
    const inlets = places(ui.inlets(), into);
    return places(ui.outlets(), from).flatMap(([outlet, starts]) => inlets
      .filter(([inlet, stops]) => inlet !== outlet && starts.some((near) => stops.some((far) => far !== near)))
      .map(([inlet]) => [outlet, inlet]));
  };

  /* {element, stop}: the list fills as the work goes on; `announce` gets the outcome once. */
  bench.verdicts = function (lead, only, root, announce) {
    const data = bench.withLead(lead), pairs = bench.pairs(lead, only), groups = new Map();
    const progress = el("p", { class: "rf-progress" });
    const list = el("div", { class: "rf-verdicts" });
    for (const verdict of [FAILED, ...[...ui.verdicts()].reverse()]) {
      const group = made(verdict);
      groups.set(verdict, group);
      list.append(group.element);
    }
    if (!pairs.length) {
      const words = "No outlet and inlet in the catalogue fit the two sides of this lead.";
      announce(words);
      return { element: el("p", {}, words), stop() {} };
    }
    const stop = check.judgeAll(pairs.map(([outlet, inlet]) => ({ from: outlet.id, through: [bench.ID], into: inlet.id })), told, () => {
      const tally = [...groups].filter(([, group]) => group.count).map(([verdict, { count }]) => `${count} ${verdict}`);
      progress.textContent = `${ui.count(pairs.length, "connection", "connections")}, all worked out here and now.`;
      announce(`${ui.count(pairs.length, "connection", "connections")}: ${tally.join(", ")}.`);
    }, { data });
    return { element: el("div", {}, progress, list), stop };

    function told({ judged, failed }, question, number) {
      groups.get(judged ? judged.verdict : FAILED).add(row(ui.port(question.from), ui.port(question.into), judged, failed, question));
      progress.textContent = `Working: ${number} of ${pairs.length}`;
    }

    function row(outlet, inlet, judged, failed, question) {
      const body = el("div", { class: "rf-work" });
      return el("li", {}, el("details", { class: "rf-group rf-group--one", ontoggle: fill },
        el("summary", {}, el("span", { class: "rf-group__name" }, outlet.name, el("span", {}, " into "), inlet.name),
          el("span", { class: "rf-group__why" }, judged ? check.sentence(judged) : `${failed} Treat it as dangerous until you know better.`)), body));

      function fill() {
        if (body.childElementCount || !judged) return;
        const condition = check.condition(judged), better = check.better(judged, question);
        const parts = [condition ? el("p", { class: "rf-banner__when" }, condition) : null, judged.offer ? el("p", { class: "rf-switch" }, judged.offer) : null, better ? el("p", { class: "rf-switch" }, better) : null,
          check.findings(judged, root), check.settings(judged, question), ui.takeCare(check.careful({ from: outlet.id, through: [], into: inlet.id }, judged)), instead(judged, outlet, inlet, root)];
        body.append(...parts.filter(Boolean));
      }
    }
  };

  /* A group of one verdict: hidden while empty; its rows are added when it is opened, and while it is open. */
  function made(verdict) {
    const count = el("span", { class: "rf-tally" }), rows = el("ul", { class: "rf-works" });
    const head = ui.rank(verdict) < 0 ? el("strong", {}, ui.capital(verdict)) : ui.verdict(verdict);
    const waiting = [];
    const element = el("details", { class: "rf-group", hidden: true, "data-verdict": verdict, ontoggle: flush }, el("summary", {}, head, count), rows);
    const group = { element, count: 0, add };
    return group;

    function add(item) {
      group.count += 1;
      count.textContent = ui.count(group.count, "connection", "connections");
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
    const [best] = ui.rows(outlet.id, inlet.id);
    if (!best || ui.worth(best) >= ui.worth(judged)) return null;
    return el("p", { class: "rf-instead" }, "Better: ", el("a", { href: ui.address(root, outlet.id, best.through, inlet.id) },
      best.through.map((id) => ui.lead(id).name).join(", then ") || "no lead, straight in"), ", ", ui.verdict(best.verdict), best.offer ? ` ${best.offer}` : null);
  }
})(Ringfence.bench, Ringfence.ui);
