"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.matrix = Ringfence.matrix || {};

/* Devices and leads of one's own in the matrix of the kit. The table knows only classes, so what has to do with them is judged here, one after the other. */
(function (matrix, ui) {
  const SCRIPTS = ["engine", "check"], mine = (id) => id.startsWith("my.");

  /* Does a wish for the kit reach devices or leads of one's own? */
  matrix.hasOwn = (bag) => Boolean(bag && bag.ports && [...bag.ports, ...ui.bag().leads].some(mine));

  /* The grid with what is one's own in the kit, {outlets, inlets, cell}; `tell(words)` says how far it is. Null where the scripts did not load. */
  matrix.withOwn = async function (grid, { ports }, tell) {
    for (const name of SCRIPTS) if (!await ui.later(name)) return null;
    const kept = new Map(), leads = ui.bag().leads.filter(mine), here = (id) => ui.port(id) && id;
    const asked = ports.filter(here).flatMap((from) => ports.filter(here).flatMap((into) => through(from, into, leads).map((chain) => ({ from, through: chain, into }))));
    await new Promise((done) => Ringfence.check.judgeAll(asked.map(ui.ownQuestion), (found, _, number) => {
      tell(`Working out your own devices: ${number} of ${asked.length}`);
      const question = asked[number - 1], row = told(question, found), key = `${question.from} ${question.into}`;
      if (row) kept.set(key, [...(kept.get(key) || []), row]);
    }, done));
    const cells = new Map([...kept].map(([key, rows]) => {
      const [from, into] = key.split(" "), known = [from, into].some(mine) ? [] : ui.rows(from, into);
      return [key, matrix.cellOf([...known, ...rows].sort((a, b) => ui.worth(a) - ui.worth(b) || ui.effort(a) - ui.effort(b)))];
    }));
    const own = (some) => some().filter(({ id }) => mine(id) && ports.includes(id));
    return { outlets: [...own(ui.outlets), ...grid.outlets], inlets: [...own(ui.inlets), ...grid.inlets], cell: (from, into) => cells.get(`${from} ${into}`) || grid.cell(from, into) };
  };

  /* The chains to judge: those of the table between the classes where a device is one's own, and the leads that are one's own. */
  function through(from, into, leads) {
    const { own } = Ringfence, table = [from, into].some(mine) ? ui.rows(own.baseOf(from), own.baseOf(into)).map((row) => row.through) : [];
    const fits = (id) => ui.reach(ui.port(from), [id]).some((place) => ui.mated(place, ui.port(into)));
    return ui.port(from).sources.length && ui.port(into).listeners.length ? [...table, ...leads.filter((id) => ui.lead(id) && fits(id)).map((id) => [id])] : [];
  }

  /* A row as those of the table, `own` as its verdict says it; null where it was not worked out. */
  function told(question, { judged: found }) {
    const { check } = Ringfence;
    if (!found || found.verdict === "does not fit") return null;
    return { ...question, verdict: found.verdict, rank: ui.rank(found.verdict), offered: found.offered, offer: found.offer, own: found.own || "",
      findings: [...new Set(check.deciding(found).map(({ id }) => id.replaceAll("-", " ")))] };
  }

  /* A verdict in a cell or a list: by own numbers it has the mark of these. */
  matrix.verdict = (verdict, own) => (own ? Ringfence.own.verdict(verdict) : ui.verdict(verdict));
  matrix.mark = (verdict, own) => (own && verdict !== "dangerous" ? Ringfence.own.mark(verdict) : ui.mark(verdict));
})(Ringfence.matrix, Ringfence.ui);
