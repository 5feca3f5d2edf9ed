"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.bench = Ringfence.bench || {};

/* What comes of the wiring: its name, the verdicts, the link, the file. The verdicts are only worked out again when the lead changes. */
(function (bench, ui) {
  const { el } = ui;

  /* A function that shows the answer to a wiring; `announce` gets what a screen reader is told. */
  bench.answer = function (root, announce) {
    let working = null, kept = "";
    const only = { from: "", into: "" };
    const place = el("div", {}), mending = bench.mending(root), making = bench.making(root);

    return function (wiring, partial, told, fold) {
      const missing = partial ? ["The link was not understood as a whole."] : bench.missing(wiring);
      if (missing.length) {
        stop();
        return el("section", { class: "rf-bench__answer", "aria-label": "Answer" }, el("div", { class: "rf-match" }, el("h2", {}, "Not a lead yet"),
          el("ul", {}, missing.map((words) => el("li", {}, words)))), partial ? null : bench.share(bench.write(wiring)));
      }
      const lead = bench.lead(wiring);
      judge(lead);
      return el("section", { class: "rf-bench__answer", "aria-label": "Answer" }, bench.match(lead, wiring, root),
        el("section", { class: "rf-does" }, el("h2", {}, "What it does"), Ringfence.page && Ringfence.page.standing ? Ringfence.page.standing() : null, cautions(wiring), filters(lead), place),
        el("section", { class: "rf-mend" }, el("h2", {}, "Is it whole?"), mending(lead)),
        el("section", { class: "rf-make__part" }, el("h2", {}, "Make it"), making(lead, wiring)),
        bench.keeping(wiring, told, root, announce),
        el("section", {}, el("h2", {}, "Hand it on"), bench.share(bench.write(wiring)), fold("offer", "Add this lead to the catalogue", bench.offer(wiring, told))));
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
      working = bench.verdicts(lead, only, root, announce);
      place.replaceChildren(working.element);
    }

    function filters(lead) {
      const pairs = bench.pairs(lead, { from: "", into: "" });
      const sides = [["from", "From", "Any outlet", pairs.map(([outlet]) => outlet)], ["into", "Into", "Any inlet", pairs.map(([, inlet]) => inlet)]];
      if (pairs.length < 2) return null;
      return el("div", { class: "rf-form rf-does__only" }, sides.map(([name, label, any, ports]) => {
        const unique = [...new Set(ports)].sort((a, b) => ui.inOrder(a.name, b.name));
        if (only[name] && !unique.some(({ id }) => id === only[name])) { only[name] = ""; judge(lead); }
        return bench.field(label, el("select", { "data-key": `only ${name}`, onchange: (event) => { only[name] = event.target.value; judge(lead); } },
          el("option", { value: "" }, any), unique.map(({ id, name: words }) => el("option", { value: id, selected: id === only[name] }, words))));
      }));
    }
  };

  /* What these verdicts cannot know. */
  function cautions(wiring) {
    const said = ["True for the wiring as entered. Measure with nothing plugged in, and wiggle each plug while it beeps."];
    if (!wiring.cable) said.push("No cable is chosen, so its resistance and capacitance are left out: a long lead may be duller than this.");
    if (wiring.joins.length && !wiring.parts.length) said.push("A part inside does not beep. Check with ohms as well: kilohms, or a reading that climbs, is a resistor or a capacitor.");
    if (wiring.parts.some(({ kind, rating }) => kind !== "transformer" && !rating)) said.push("What a part stands is not known, so it counts as dangerous wherever a supply reaches it.");
    return ui.takeCare(said);
  }
})(Ringfence.bench, Ringfence.ui);
