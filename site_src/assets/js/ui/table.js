"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* The table of judged single-lead connections, as the generator worked it out. Until it is here, or where it could not be loaded, it has no rows. */
(function (ui) {
  const VERDICTS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]; // best first
  const DANGEROUS = VERDICTS.indexOf("dangerous"), NONE = { ids: [], findings: [], verdicts: [], rows: [] };
  let groups = null, places = null;
  const made = new Map();

  /* The rows as they were published, by outlet and inlet: tens of thousands, so a row becomes an object when it is first asked for. */
  function grouped() {
    if (groups || !Ringfence.table) return groups || new Map();
    const { ids, rows } = Ringfence.table, size = ids.length;
    groups = new Map();
    places = new Map(ids.map((id, place) => [id, place]));
    for (const row of rows) {
      const key = row[0] * size + row[2], group = groups.get(key);
      if (group) group.push(row);
      else groups.set(key, [row]);
    }
    return groups;
  }

  /* Rows {from, through, into, verdict, rank, findings} of two ports, best first. */
  ui.rows = function (from, into) {
    const all = grouped(), { ids, verdicts, findings } = Ringfence.table || NONE;
    const key = places ? places.get(from) * ids.length + places.get(into) : NaN;
    if (!all.has(key)) return [];
    if (!made.has(key)) {
      made.set(key, all.get(key).map(([, through, , verdict, found]) => ({
        from, through: through.map((lead) => ids[lead]), into, verdict: verdicts[verdict], rank: verdict, findings: found.map((name) => findings[name].replaceAll("-", " ")),
      })));
    }
    return made.get(key);
  };

  /* Every two ports that something joins: [{from, into, best, danger, rows}], `best` the best verdict, `danger` whether any way is dangerous. */
  ui.pairs = () => [...grouped().values()].map((group) => {
    const { ids, verdicts } = Ringfence.table, [[from, , into, verdict]] = group;
    return { from: ids[from], into: ids[into], best: verdicts[verdict], danger: group.some((row) => row[3] === DANGEROUS), get rows() { return ui.rows(ids[from], ids[into]); } };
  });

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
