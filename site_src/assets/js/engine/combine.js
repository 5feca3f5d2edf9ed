"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* One answer from all ways of plugging, and one figure from all channels: the twin of combine to _worst_figures in judge.py. */
(function (engine) {
  const ALIKE = 1e-6; // two figures closer than this are told alike; decibels of small losses carry a rounding of some 1e-8

  /* One answer from all ways of plugging. */
  engine.combine = function (rulebook, leads, judged) {
    const group = engine.decisive(leads, judged), fullest = group.reduce((best, one) => (one.settings.length > best.settings.length ? one : best));
    const settings = fullest.settings.map(([setting]) => [setting, engine.worstOf(group.flatMap((one) => one.settings)
      .filter(([part]) => engine.within(part, setting)).map(([, verdict]) => verdict))]);
    const verdict = engine.worstOf(group.map((one) => one.verdict));
    return {
      verdict, settings, group, names: fullest.names, plugging: engine.worstOf(group.map((one) => one.plugging)),
      findings: engine.gathered(group.flatMap((one) => one.findings)), figures: engine.worstFigures(rulebook, verdict, group.flatMap((one) => one.figures)),
      ways: judged.flatMap((one) => one.ways),
    };
  };

  /* The ways of plugging that count. Ends with different labels are chosen on purpose, so the best such choice counts, unless another
     is dangerous; what a person cannot choose (which of two like ends, whether spare ends are used) counts at its worst. */
  engine.decisive = function (leads, judged) {
    const choices = new Map();
    for (const one of judged) {
      const [[way]] = one.ways, labels = engine.labels(leads, way);
      choices.set(labels, [...(choices.get(labels) || []), one]);
    }
    const worst = [...choices.values()].map((group) => engine.rank(engine.worstOf(group.map((one) => one.verdict))));
    const counts = Math.max(...worst) === engine.rank("dangerous") ? Math.max(...worst) : Math.min(...worst);
    const equals = [...choices.values()].filter((_, i) => worst[i] === counts), most = (group) => Math.max(...group.map(faults));
    return equals.reduce((best, group) => (most(group) < most(best) ? group : best));
  };

  /* What a person reads on the ends of this way. */
  engine.labels = (leads, way) => JSON.stringify(leads.map((lead, i) => way.ends[i].map((end) => lead.ends[end].label)));

  const faults = (one) => one.findings.filter((finding) => finding.severity !== "note").length;

  /* Of each figure the worst of all channels and ways; none where nothing works. */
  engine.worstFigures = function (rulebook, verdict, figures) {
    const kept = new Map(), lowerIsWorse = (id) => rulebook.find((rule) => rule.id === id).compare === "below";
    for (const figure of engine.rank(verdict) <= engine.rank("lossy") ? figures : []) {
      const best = kept.get(figure.id), worse = best && (lowerIsWorse(figure.id) ? best.value - figure.value : figure.value - best.value);
      if (!best || worse > ALIKE * Math.max(1, Math.abs(best.value))) kept.set(figure.id, figure);
    }
    return [...kept.values()];
  };
})(Ringfence.engine);
