"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.upkeep = Ringfence.upkeep || {};

/* Tags to print: the label, days, what else one wants on it, and a code that opens this lead in the log of the phone that reads it. */
(function (upkeep, ui) {
  const { el } = ui, QUIET = 4, SVG = "http://www.w3.org/2000/svg";

  /* What a code says: the address of this lead here; on a disc, where no phone can follow, the label alone. */
  upkeep.coded = (label, { protocol, href }) => (protocol.startsWith("http") ? `${href.split("#")[0]}#lead=${encodeURIComponent(label)}` : label);

  /* `own` is a line of one's own for every tag: a name, a telephone number. */
  upkeep.tags = function (log, names, own, onown) {
    const line = el("input", { type: "text", maxlength: "60", value: own, autocomplete: "off", placeholder: "Whose it is, a telephone number", onchange: () => onown(line.value.trim()) });
    return el("section", { class: "rf-tags", "aria-label": "Tags" },
      el("div", { class: "rf-form rf-noprint rf-tags__own" }, el("label", { class: "rf-field rf-field--wide" }, el("span", {}, "Your own line on every tag"), line)),
      log.leads.map((lead) => el("div", { class: "rf-tag" }, picture(upkeep.qr(upkeep.coded(lead.label, location)) || upkeep.qr(lead.label)),
        el("div", {}, el("strong", {}, lead.label), own ? el("span", {}, own) : null, el("span", {}, ui.own(names, lead.lead) || ""), el("span", {}, lead.made ? `Made ${lead.made}` : ""),
          el("span", {}, lead.tested ? `Tested ${lead.tested}` : "Tested ____________"), el("span", {}, lead.due ? `Next ${lead.due}` : "Next ____________")))));
  };

  /* Black on white whatever stands around it, with its quiet zone; nothing where a label is too long for a code. */
  function picture(grid) {
    if (!grid) return null;
    const size = grid.length + 2 * QUIET, svg = document.createElementNS(SVG, "svg"), part = (tag, attributes) => {
      const made = document.createElementNS(SVG, tag);
      for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
      svg.append(made);
    };
    for (const [name, value] of Object.entries({ class: "rf-tag__code", viewBox: `0 0 ${size} ${size}`, width: 80, height: 80, "aria-hidden": "true", "shape-rendering": "crispEdges" })) svg.setAttribute(name, value);
    part("rect", { width: size, height: size, fill: "#fff" });
    part("path", { fill: "#000", d: grid.flatMap((row, r) => row.map((dark, c) => (dark ? `M${c + QUIET} ${r + QUIET}h1v1h-1z` : ""))).join("") });
    return svg;
  }
})(Ringfence.upkeep, Ringfence.ui);
