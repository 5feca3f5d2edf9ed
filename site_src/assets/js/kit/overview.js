"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.kit = Ringfence.kit || {};

/* What of mine goes into what of mine: the lead to take for every pair, and first of all what would do harm. From the table of one lead or none; the
   rows are the ids the kit holds, so that what is not in the table says so. */
(function (kit, ui, ways) {
  const { el } = ui;
  const DANGERS = 6; // told at once; the rest is folded

  /* {outlets, inlets} of the ports in a kit. */
  kit.ends = (ports) => ({ outlets: ports.filter((id) => ui.port(id).sources.length), inlets: ports.filter((id) => ui.port(id).listeners.length) });

  /* The ways of one pair with what is in the kit, best first. */
  kit.of = (from, into, leads) => ways.of(from, into).filter(({ through }) => through.every((id) => leads.includes(id)));

  /* [{from, into, best, dangers}] of all pairs that speak of the same thing or can harm: `best` is null where no lead of the kit goes between. */
  kit.pairs = function ({ ports, leads }) {
    const { outlets, inlets } = kit.ends(ports);
    return outlets.flatMap((from) => inlets.filter((into) => into !== from).map((into) => {
      const found = kit.of(from, into, leads);
      return { from, into, best: found[0] || null, dangers: found.filter(({ verdict, offered }) => verdict === "dangerous" && !offered), speak: ways.speak(from, into) };
    }));
  };

  const named = (through) => through.map((id) => ui.lead(id).name).join(", then ") || "straight in";
  const device = (id) => ui.port(id).name;

  kit.overview = function (contents, root) {
    const { outlets, inlets } = kit.ends(contents.ports);
    if (!outlets.length || !inlets.length) return el("section", { "aria-label": "What goes into what" },
      el("p", {}, "Tick at least one device that gives a signal and one that takes one: then every pair of them stands here with the lead to take."));
    const pairs = kit.pairs(contents), of = (from, into) => pairs.find((pair) => pair.from === from && pair.into === into);
    return el("section", { "aria-label": "What goes into what" }, dangers(pairs, root),
      el("h2", {}, "What goes into what"), el("p", { class: "rf-form__note" }, "With one lead of your kit, or none. Tap a box for the whole answer."),
      el("div", { class: "rf-kit__scroll", tabindex: "0", role: "region", "aria-label": "Table of my devices" }, el("table", { class: "rf-kit" },
        el("thead", {}, el("tr", {}, el("td", {}), inlets.map((id) => el("th", { scope: "col" }, head(id, contents))))),
        el("tbody", {}, outlets.map((from) => el("tr", {}, el("th", { scope: "row" }, head(from, contents)), inlets.map((into) => el("td", {}, cell(of(from, into), root)))))))));
  };

  const head = (id, contents) => [ui.side(ui.port(id), { scale: 0.18 }), el("span", {}, `${ui.countOf(contents, id) > 1 ? `${ui.countOf(contents, id)} × ` : ""}${device(id)}`)];

  function dangers(pairs, root) {
    const every = pairs.flatMap(({ from, into, dangers: found }) => found.map((way) => ({ from, into, way })));
    if (!every.length) return null;
    const item = ({ from, into, way }) => el("li", {}, el("a", { class: "rf-option", href: ui.address(root, from, way.through, into) },
      el("span", { class: "rf-option__name" }, `${device(from)} → ${device(into)}`), el("span", { class: "rf-option__more" }, `${named(way.through)}: ${ui.listed(ways.losses(way.findings))}`), ui.verdict("dangerous")));
    return el("section", { class: "rf-kit__dangers" }, el("h2", {}, "Never like this"), el("ul", {}, every.slice(0, DANGERS).map(item)),
      every.length > DANGERS ? el("details", { class: "rf-more" }, el("summary", {}, `${every.length - DANGERS} more`), el("ul", {}, every.slice(DANGERS).map(item))) : null);
  }

  function cell(pair, root) {
    if (!pair) return "–";
    const { from, into, best, speak } = pair;
    if (best && (ui.works(best) || best.verdict === "dangerous")) return el("a", { href: ui.address(root, from, best.through, into) }, ui.verdict(best.offered || best.verdict), el("span", {}, best.verdict === "dangerous" && !best.offered ? "no lead of mine is safe" : `${named(best.through)}${best.offered ? ", in the right order" : ""}`));
    return speak ? el("a", { class: "rf-kit__none", href: `${root}check/#from=${encodeURIComponent(from)}&into=${encodeURIComponent(into)}` }, "nothing in my kit: which lead?") : el("span", { class: "rf-kit__none" }, "not for each other");
  }
})(Ringfence.kit, Ringfence.ui, Ringfence.ways);
