"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.bag = Ringfence.bag || {};

/* What the leads of a bag can do between two ports: every chain of none, one or two that fits, judged live, best first. */
(function (bag, ui) {
  const mates = (places, port) => places.some((place) => ui.mated(place, port));

  /* [[lead id, ...]]; no lead is used twice, for a bag is ticked once for each. */
  bag.chains = function (from, into, leads) {
    const outlet = ui.port(from), inlet = ui.port(into);
    const arrives = (through) => mates(ui.reach(outlet, through), inlet);
    const starts = leads.filter((id) => ui.reach(outlet, [id]).length);
    const two = starts.flatMap((one) => leads.filter((other) => other !== one).map((other) => [one, other]));
    return [[], ...starts.map((id) => [id]), ...two].filter(arrives);
  };

  /* Best verdict first, then fewest leads, then least against it, then what most bags hold. */
  bag.byWorth = (a, b) => ui.worth(a) - ui.worth(b) || a.through.length - b.through.length
    || a.findings.length - b.findings.length || ui.effort(a) - ui.effort(b) || ui.inOrder(a.through.join(), b.through.join());

  /* Judge every chain; `ondone` gets {ways: [{through, verdict, offered, says, findings}], failed: number}. Returns a function that stops it. */
  bag.search = function (from, into, leads, { onstep = () => {}, ondone }) {
    const chains = bag.chains(from, into, leads), ways = [];
    let failed = 0;
    return Ringfence.check.judgeAll(chains.map((through) => ({ from, through, into })), ({ judged }, { through }, number) => {
      if (!judged) failed += 1;
      else if (judged.verdict !== "does not fit") ways.push({ through, verdict: judged.verdict, offered: judged.offered, says: judged.offer || Ringfence.check.sentence(judged),
        findings: Ringfence.check.deciding(judged).map(({ id }) => id) });
      onstep(number, chains.length);
    }, () => ondone({ ways: ways.sort(bag.byWorth), failed }));
  };

  /* The safest way of the table that does better than the best of the bag and needs a lead from outside it; null when there is none.
     With `equal` one that is no worse will do. */
  bag.toAdd = function (from, into, leads, best, equal = false) {
    const does = (row) => !best || (equal ? ui.worth(row) <= ui.worth(best) : ui.worth(row) < ui.worth(best));
    const better = ui.rows(from, into).filter((row) => ui.works(row) && does(row) && row.through.some((id) => !leads.includes(id)));
    return better.sort((a, b) => ui.worth(a) - ui.worth(b) || ui.effort(a) - ui.effort(b))[0] || null;
  };
})(Ringfence.bag, Ringfence.ui);
