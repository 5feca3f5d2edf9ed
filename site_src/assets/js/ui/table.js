"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* The table of judged single-lead connections, as the generator worked it out. Until it is here, or where it could not be loaded, it has no rows. */
(function (ui) {
  const VERDICTS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]; // best first
  let pairs = null;

  /* Rows {from, through, into, verdict, findings}, by "from into", best first. */
  function byPair() {
    if (pairs) return pairs;
    if (!Ringfence.table) return new Map();
    const { ids, verdicts, rows } = Ringfence.table, findings = Ringfence.table.findings.map((name) => name.replaceAll("-", " "));
    pairs = new Map();
    for (const [from, through, into, verdict, found] of rows) {
      const key = `${ids[from]} ${ids[into]}`;
      if (!pairs.has(key)) pairs.set(key, []);
      pairs.get(key).push({
        from: ids[from], through: through.map((lead) => ids[lead]), into: ids[into],
        verdict: verdicts[verdict], rank: verdict, findings: found.map((name) => findings[name]),
      });
    }
    return pairs;
  }

  ui.rows = (from, into) => byPair().get(`${from} ${into}`) || [];
  ui.pairs = () => byPair();
  ui.verdicts = () => VERDICTS;
  ui.rank = (verdict) => VERDICTS.indexOf(verdict);

  /* The row of one connection of no or one lead, if the generator judged it. */
  ui.row = (from, through, into) =>
    ui.rows(from, into).find((row) => row.through.join() === through.join());

  /* The address that opens the check on a connection; `root` leads to the top of the site. */
  ui.address = function (root, from, through, into) {
    const [start, leads, end] = [[from], through, [into]].map((ids) => ids.map(encodeURIComponent).join(","));
    return `${root}check/#from=${start}&through=${leads}&into=${end}`;
  };
})(Ringfence.ui);
