"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* From chosen elements to closed loops: the twin of _closed to _way in relevant.py. */
(function (engine) {
  const MISSING = 0.7; // share of a net's current that may not be left out; a supply that feeds two legs alike may be shown with one
  const FAINT = 1e-9; // A; below this it is rounding
  const size = (pair) => engine.size(pair);
  const meets = (net, e) => net === e.a || net === e.b;

  /* The chosen elements with the shortest way on from every net that would end in the air; what has no way on really ends there. */
  engine.closedLoops = function (elements, chosen, opens) {
    const kept = [...chosen], givenUp = new Set();
    supplied(elements, kept);
    const strongest = Math.max(0, ...elements.filter((e) => e.kind !== "contact").map((e) => size(e.amps)));
    for (;;) {
      const counts = new Map();
      for (const e of kept) for (const net of new Set([e.a, e.b])) counts.set(net, (counts.get(net) || 0) + 1);
      const loose = [...counts].find(([net, count]) => count === 1 && !givenUp.has(net));
      if (!loose) return kept;
      const goals = new Set([...counts.keys()].filter((net) => net !== loose[0])), way = shortest(elements, new Set(kept.map((e) => e.id)), loose[0], goals, opens, strongest);
      if (way.length) kept.push(...way);
      else givenUp.add(loose[0]);
    }
  };

  /* Add, at nets where most of the current would come from nowhere, the part that brings it. */
  function supplied(elements, kept) {
    while (kept.length < 2 * engine.MOST_SHOWN) {
      const net = [...new Set(kept.flatMap((e) => [e.a, e.b]))].find((one) => starved(elements, kept, one));
      if (net === undefined) return;
      kept.push(missing(elements, kept, net).reduce((best, e) => (size(e.amps) > size(best.amps) ? e : best)));
    }
  }

  const missing = (elements, kept, net) => elements.filter((e) => meets(net, e) && e.a !== e.b && !kept.includes(e));

  function starved(elements, kept, net) {
    const shown = elements.filter((e) => meets(net, e) && e.a !== e.b && kept.includes(e)), largest = Math.max(0, ...shown.map((e) => size(e.amps)));
    const sum = shown.reduce(([re, im], e) => (e.a === net ? [re + e.amps[0], im + e.amps[1]] : [re - e.amps[0], im - e.amps[1]]), [0, 0]);
    return largest > FAINT && size(sum) > MISSING * largest && missing(elements, kept, net).length > 0;
  }

  /* The shortest way through elements not taken yet, along those that carry current if there are any. */
  function shortest(elements, taken, start, goals, opens, strongest) {
    const queue = [{ far: 0, pushed: 0, net: start, way: [] }], seen = new Set();
    for (let pushed = 0; queue.length;) {
      const next = queue.reduce((best, one, i) => (one.far < queue[best].far || (one.far === queue[best].far && one.pushed < queue[best].pushed) ? i : best), 0);
      const [{ far, net, way }] = queue.splice(next, 1);
      if (goals.has(net)) return way;
      if (seen.has(net)) continue;
      seen.add(net);
      for (const e of elements) {
        if (!meets(net, e) || e.a === e.b || taken.has(e.id) || opens.includes(e.kind) || e.kind === "meter") continue;
        const step = strongest && size(e.amps) >= engine.LEAST_SHARE * strongest ? 1 : 4;
        queue.push({ far: far + step, pushed: ++pushed, net: net === e.a ? e.b : e.a, way: [...way, e] });
      }
    }
    return [];
  }
})(Ringfence.engine);
