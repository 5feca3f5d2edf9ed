"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ways = Ringfence.ways || {};

/* The ways between two ports, best first: how it ends, what is lost, how many leads, how common they are. */
(function (ways, ui) {
  const DOMAIN = ["worth", "lost", "leads", "seldom", "effort"];

  function place({ through, findings = [], ...way }) {
    const lost = Ringfence.engine.loss(Ringfence.rulebook, findings.map((one) => (one.id || one).replaceAll(" ", "-")));
    return { worth: ui.worth(way), lost, leads: through.length, seldom: through.reduce((sum, id) => sum + ui.seldom(ui.lead(id)), 0), effort: ui.effort({ through }) };
  }

  /* A list of ways {through, verdict, offered, findings} in the order in which one would try them. */
  ways.ranked = (list) => list.map((way) => ({ way, at: place(way) }))
    .sort((a, b) => DOMAIN.reduce((found, key) => found || a.at[key] - b.at[key], 0)).map(({ way }) => way);

  /* Does one way end better than another, or as well and lose less? */
  ways.better = function (one, other) {
    const [a, b] = [place(one), place(other)];
    return a.worth < b.worth || (a.worth === b.worth && a.lost < b.lost);
  };

  /* What the table has for two ports, ranked. */
  ways.of = (from, into) => ways.ranked(ui.rows(from, into));

  /* Can anything that one sends be heard by the other? */
  ways.speak = (from, into) => ui.port(from).sources.some((source) => ui.port(into).listeners.some((listener) => Ringfence.engine.sameKind(source, listener)));
})(Ringfence.ways, Ringfence.ui);
