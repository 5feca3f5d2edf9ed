"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* A first look at a connection: fully plugged and settled, every part at its nominal value, one way of those a person cannot tell apart.
   It costs a fraction of a verdict and is never worse than one. The twin of glance.py. */
(function (engine) {
  const { MOST_WAYS } = Ringfence.constants;

  /* The least that a verdict on this chain can come to, as [rank, what is lost]. `plain` is what `plainly` makes of the catalogue. */
  engine.glance = function (plain, rulebook, from, through, into) {
    const { outlet, leads, inlet } = engine.asked(plain, from, through, into);
    const possible = engine.ways(plain, outlet, leads, inlet);
    if (!possible.length) return [engine.rank("does not fit"), 0];
    if (possible.length > MOST_WAYS) return [engine.rank("dangerous"), 0];
    // Which end a person takes is their choice, so the best counts; of ends they cannot tell apart the worst, so any will do here.
    const choices = new Map();
    for (const way of possible) {
      const labels = JSON.stringify(engine.labels(leads, way));
      if (!choices.has(labels)) choices.set(labels, way);
    }
    return [...choices.values()].map((way) => {
      const seen = engine.judgeWay(plain, rulebook, outlet, leads, inlet, way, read);
      return [engine.rank(seen.verdict), engine.lost(rulebook, seen.findings)];
    }).reduce((best, one) => (engine.before(one, best) ? one : best));
  };

  const read = (plain, outlet, leads, inlet, way) => {
    const assembly = engine.assemble(plain, outlet, leads, inlet, way, false), signals = engine.solveSignals(assembly);
    return [...engine.directReadings(assembly, signals), ...engine.signalReadings(assembly, signals)];
  };

  /* The catalogue as if every part had its nominal value. */
  engine.plainly = (data) => ({ connectors: data.connectors, ports: plain(data.ports), leads: plain(data.leads) });

  const plain = (records) => Object.fromEntries(Object.entries(records).map(([id, record]) =>
    [id, { ...record, network: { ...record.network, parts: record.network.parts.map(nominal) } }]));

  const exact = ({ nominal: value, ...rest }) => ({ ...rest, nominal: value, low: value, high: value });
  const nominal = (part) => ({ ...part, value: part.value && exact(part.value), match: 0 });

  /* Does one list come before another, item by item, a shorter one before what it begins? */
  engine.before = function (one, other) {
    for (let i = 0; i < one.length && i < other.length; i++) if (one[i] !== other[i]) return one[i] < other[i];
    return one.length < other.length;
  };
})(Ringfence.engine);
