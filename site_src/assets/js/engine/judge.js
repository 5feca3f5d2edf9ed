"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* From readings to a verdict: hold every number against the rulebook and take the worst. The twin of judge.py; findings.js holds readings
   against rules, combine.js makes one answer of all ways of plugging, misfit.js says why halves do not go into each other. */
(function (engine) {
  const VERDICTS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]; // from best to worst
  const MOST_WAYS = engine.MOST_WAYS = 100; // splitters in a row multiply; no person plugs such a chain, and a phone would work on it for minutes
  const rank = engine.rank = (verdict) => Math.max(0, VERDICTS.indexOf(verdict)); // notes cost nothing

  /* Judge one connection. `data` is the published catalogue, `rulebook` the list of rules, `from` and `into` port ids, `through` lead ids.
     Gives the published form of a verdict. Throws RangeError for an unknown id. */
  Ringfence.judge = function (data, rulebook, question) {
    const answer = engine.answer(data, rulebook, question), { from, through, into, settings, verdict } = answer;
    return engine.hold({
      from, through, into, fits: verdict !== "does not fit", verdict, settings: settings.map(([setting, found]) => ({ supplies: Object.fromEntries(setting), verdict: found })),
      conditions: engine.conditions(settings, answer.names), plugging: answer.plugging, findings: answer.findings.map(engine.published),
      figures: answer.figures.map(engine.publishedFigure), ways: answer.ways.map(([{ ends, plugged }, found]) => ({ ends, plugged, verdict: found })), remedies: [],
    }, answer);
  };

  /* The same with everything that is known of each finding. */
  engine.answer = function (data, rulebook, { from, through = [], into }) {
    const { outlet, leads, inlet } = engine.asked(data, from, through, into);
    const possible = engine.ways(data, outlet, leads, inlet);
    const tooMany = `it can be plugged in ${possible.length} ways, and no more than ${MOST_WAYS} are worked out`;
    const answer = !possible.length ? outright(engine.misfit(data, outlet, leads, inlet))
      : possible.length > MOST_WAYS ? outright(engine.notSolved(tooMany), possible.slice(0, 1))
        : engine.combine(rulebook, leads, possible.map((way) => engine.judgeWay(data, rulebook, outlet, leads, inlet, way)));
    return { from, through: [...through], into, ...answer };
  };

  /* An answer that one finding gives without any circuit. */
  const outright = (finding, ways = []) => ({
    verdict: finding.severity, settings: [], group: [], names: new Map(), plugging: finding.severity, findings: [finding], figures: [],
    ways: ways.map((way) => [way, finding.severity]),
  });

  /* The records a question is about. */
  engine.asked = (data, from, through, into) => ({
    outlet: known(data.ports, from, "port"), inlet: known(data.ports, into, "port"), leads: through.map((id) => known(data.leads, id, "lead")),
  });

  function known(records, id, kind) {
    if (!Object.hasOwn(records, id)) throw new RangeError(`no ${kind} '${id}' in the catalogue`);
    return records[id];
  }

  /* Judge one way of plugging by what `read` finds. */
  engine.judgeWay = function (data, rulebook, outlet, leads, inlet, way, read = engine.read) {
    const places = engine.placed(data, outlet, leads, inlet, way), ports = engine.portsOf(places), switches = engine.settings(ports);
    const names = new Map(engine.supplySwitches(ports).map(({ key, name }) => [key, name]));
    const told = switches.map((setting) => engine.settingWords(setting, names));
    const every = solved(() => read(data, outlet, leads, inlet, way).flatMap((reading) => engine.findings(rulebook, reading, told)));
    const findings = every.filter(({ severity }) => severity !== "figure"), figures = every.filter(({ severity }) => severity === "figure");
    const settings = switches.map((setting, i) => [setting, severest(here(findings, i))]);
    const verdict = worstOf(settings.filter((_, i) => !onlyUnpowered(i, findings, switches.length)).map(([, found]) => found));
    const plugging = severest(findings.filter((finding) => finding.state === "plugging"));
    return { verdict, settings, names, plugging, findings: toldOnce(findings, switches.length), every: findings, figures: engine.worstFigures(rulebook, verdict, figures), ways: [[way, verdict]] };
  };

  /* All readings of one way. */
  engine.read = (data, outlet, leads, inlet, way) => engine.readingsOf(engine.assemble(data, outlet, leads, inlet, way));

  engine.readingsOf = function (assembly) {
    const signals = engine.solveSignals(assembly);
    const found = [...engine.directReadings(assembly, signals.peaks), ...engine.dischargeReadings(assembly), ...engine.signalReadings(assembly, signals)];
    const numbers = found.every((reading) => Number.isFinite(reading.value) && Number.isFinite(reading.limit || 0));
    if (!numbers) throw new engine.CircuitError("a reading or its limit is not a number");
    return found;
  };

  /* Findings, or the one that says there are none: what cannot be worked out is never called safe. */
  function solved(findings) {
    try {
      return findings();
    } catch (error) {
      if (error instanceof engine.CircuitError) return [engine.notSolved(error.message)];
      throw error;
    }
  }

  /* The worst of some verdicts, the first of equals. */
  const worstOf = engine.worstOf = (verdicts) => verdicts.reduce((worst, verdict) => (rank(verdict) > rank(worst) ? verdict : worst));

  /* The verdict that findings amount to. */
  const severest = (findings) => VERDICTS[Math.max(0, ...findings.map((finding) => rank(finding.severity)))];

  const here = (findings, number) => findings.filter((finding) => finding.setting === null || finding.setting === number);

  /* A setting that merely leaves a device without its supply, while another setting powers it, does not decide the headline. */
  function onlyUnpowered(number, findings, count) {
    const mine = here(findings, number), unpowered = (finding) => finding.id === "not-powered";
    if (!mine.some(unpowered) || rank(severest(mine.filter((finding) => !unpowered(finding)))) > rank("lossy")) return false;
    return new Set(findings.filter(unpowered).map((finding) => finding.setting)).size < count;
  }

  /* What several settings share is told once, where it is worst; a setting is only named when it matters. */
  function toldOnce(findings, count) {
    const kept = new Map(), seen = new Map();
    for (const finding of findings) {
      seen.set(same(finding), (seen.get(same(finding)) || new Set()).add(finding.setting));
      keepWorse(kept, finding);
    }
    return worstFirst([...kept].map(([key, finding]) => (seen.get(key).size === count ? { ...finding, when: engine.STATES[finding.state] } : finding)));
  }

  const same = engine.sameness = (finding) => JSON.stringify([finding.id, finding.subject, finding.state]);

  function keepWorse(kept, finding) {
    const key = same(finding), best = kept.get(key), beyond = (one) => Math.abs(one.value - (one.limit || 0));
    if (!best || beyond(finding) > beyond(best) * (1 + engine.SLACK) + engine.SLACK) kept.set(key, finding);
  }

  /* Each finding once, where it is worst; worst first. */
  engine.gathered = function (findings) {
    const kept = new Map();
    for (const finding of findings) keepWorse(kept, finding);
    return worstFirst([...kept.values()]);
  };

  /* Worst first, losses by what they weigh, notes last; a stable sort keeps the order of the rest. */
  const worstFirst = (findings) => [...findings].sort((a, b) => rank(b.severity) - rank(a.severity) || (a.severity === "note") - (b.severity === "note") || b.weighs - a.weighs);
})(Ringfence.engine);
