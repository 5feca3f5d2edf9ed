"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* From readings to a verdict: the worst finding of a setting, the worst setting of a way, the ways that count. The twin of
   judge.py. */
(function (engine) {
  const { ALIKE, MOST_WAYS, SLACK } = Ringfence.constants;
  const UNPOWERED = ["not-powered", "switched-off"];
  const rank = (verdict) => engine.rank(verdict), worstOf = (verdicts) => engine.worstOf(verdicts);
  const severest = (findings) => engine.severest(findings);

  /* Judge one connection. `data` is the published catalogue, `rulebook` the list of rules, `from` and `into` port ids,
     `through` lead ids. Gives the published form of a verdict. Throws RangeError for an unknown id. */
  Ringfence.judge = function (data, rulebook, question) {
    const answer = engine.answer(data, rulebook, question);
    return engine.hold(engine.publishedVerdict(question, answer), answer);
  };

  /* The same with everything that is known of each finding. */
  engine.answer = function (data, rulebook, { from, through = [], into }) {
    const { outlet, leads, inlet } = engine.asked(data, from, through, into);
    const possible = engine.ways(data, outlet, leads, inlet), count = possible.length;
    const answer = function () {
      if (!count) return outright(engine.misfit(data, outlet, leads, inlet));
      const tooMany = `it can be plugged in ${count} ways, and no more than ${MOST_WAYS} are worked out`;
      if (count > MOST_WAYS) return outright(engine.notSolved(tooMany), possible.slice(0, 1));
      const judged = possible.map((way) => engine.judgeWay(data, rulebook, outlet, leads, inlet, way));
      return engine.combine(rulebook, leads, judged, data.ports);
    };
    return { from, through: [...through], into, ...answer() };
  };

  /* An answer that one finding gives without any circuit. */
  const outright = (finding, ways = []) => ({
    verdict: finding.severity, settings: [], moments: [], group: [], beside: [], names: new Map(), plugging: finding.severity, plugs: [],
    findings: [finding], figures: [], ways: ways.map((way) => [way, finding.severity]),
  });

  /* The records a question is about. */
  engine.asked = (data, from, through, into) => ({
    outlet: known(data.ports, from, "port"), inlet: known(data.ports, into, "port"),
    leads: through.map((id) => known(data.leads, id, "lead")),
  });

  function known(records, id, kind) {
    if (!Object.hasOwn(records, id)) throw new RangeError(`no ${kind} '${id}' in the catalogue`);
    return records[id];
  }

  /* All readings of one way. */
  engine.read = (data, outlet, leads, inlet, way) => engine.readingsOf(engine.assemble(data, outlet, leads, inlet, way));

  /* Everything there is to read from an assembly. Throws CircuitError for what is no number. */
  engine.readingsOf = function (assembly) {
    const signals = engine.solveSignals(assembly);
    const found = [...engine.directReadings(assembly, signals), ...engine.dischargeReadings(assembly),
      ...engine.signalReadings(assembly, signals)];
    const numbers = found.every(({ value, limit }) => Number.isFinite(value) && Number.isFinite(limit || 0));
    if (!numbers) throw new engine.CircuitError("a reading or its limit is not a number");
    return found;
  };

  /* Judge one way of plugging by what `read` finds. */
  engine.judgeWay = function (data, rulebook, outlet, leads, inlet, way, read = engine.read) {
    const places = engine.placed(data, outlet, leads, inlet, way), ports = engine.portsOf(places);
    const switches = engine.settings(ports), count = switches.length;
    const names = new Map(engine.supplySwitches(ports).map(({ key, name }) => [key, name]));
    const told = switches.map((setting) => engine.settingWords(setting, names));
    const every = solved(() => read(data, outlet, leads, inlet, way)
      .flatMap((reading) => engine.findingsOf(rulebook, reading, told, places)));
    const findings = every.filter(({ severity }) => severity !== "figure");
    const figures = every.filter(({ severity }) => severity === "figure");
    const here = switches.map((_, i) => findings.filter(({ setting }) => setting === null || setting === i));
    const settings = switches.map((setting, i) => [setting, severest(here[i])]);
    const moving = ({ state }) => state === "plugging", still = ({ state }) => state !== "plugging";
    const moments = here.map((found) => [severest(found.filter(still)), severest(found.filter(moving))]);
    const decide = settings.filter((_, i) => !onlyUnpowered(here[i], findings, count));
    const verdict = worstOf(decide.map(([, found]) => found));
    return {
      verdict, settings, moments, names, plugging: severest(findings.filter(moving)), plugs: [],
      findings: toldOnce(findings, count), every: findings, figures: worstFigures(rulebook, verdict, figures),
      ways: [[way, verdict]],
    };
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

  const wayOf = ({ ways: [[way]] }) => way;

  /* One answer from all ways of plugging. `ports` are those of the catalogue, by id. */
  engine.combine = function (rulebook, leads, judged, ports) {
    const meant = judged.filter((one) => wayOf(one).meant), others = judged.filter((one) => !wayOf(one).meant);
    const { group, plugs } = engine.decisive(leads, meant), kept = new Map();
    const fullest = group.reduce((best, one) => (one.settings.length > best.settings.length ? one : best));
    const parts = fullest.settings.map(([setting]) => group.flatMap((one) =>
      one.settings.flatMap(([part, found], i) => (engine.within(part, setting) ? [[found, ...one.moments[i]]] : []))));
    const worst = (of, which) => worstOf(of.map((one) => one[which]));
    const answer = {
      verdict: worstOf(group.map((one) => one.verdict)), group, plugs, names: fullest.names,
      settings: fullest.settings.map(([setting], i) => [setting, worst(parts[i], 0)]),
      moments: parts.map((of) => [worst(of, 1), worst(of, 2)]), plugging: worstOf(group.map((one) => one.plugging)),
    };
    for (const finding of group.flatMap((one) => one.findings)) keepWorse(kept, finding);
    const beside = []; // what another use of the lead brings, as told, the setting it hangs on, and that use
    for (const other of others) {
      const { plugged } = wayOf(other), dangers = other.findings.filter(({ severity }) => severity === "dangerous");
      const partners = plugged.map(({ port }) => (Object.hasOwn(ports, port) ? engine.short(ports[port]) : port));
      for (const danger of dangers) {
        keepWorse(kept, plugged.length ? atSpareEnd(danger, partners) : danger);
        const setting = danger.setting === null ? new Map() : other.settings[danger.setting][0];
        // With the other tail in nothing, every setting counts as dangerous.
        beside.push(plugged.length ? { finding: atSpareEnd(danger, partners), setting, other }
          : { finding: { ...danger, when: engine.STATES[danger.state] }, setting: new Map(), other });
      }
      if (!dangers.length || plugged.length) continue;
      answer.verdict = "dangerous"; // nobody has to plug the other tail in
      answer.settings = answer.settings.map(([setting]) => [setting, "dangerous"]);
      answer.moments = answer.moments.map(([, plugging]) => ["dangerous", plugging]);
    }
    const figures = worstFigures(rulebook, answer.verdict, group.flatMap((one) => one.figures));
    const findings = worstFirst([...kept.values()]), ways = judged.flatMap((one) => one.ways);
    return { ...answer, beside, findings, figures, ways };
  };

  /* A danger that hangs on what somebody else plugs into the spare end: told with its name, and no part of the verdict. */
  function atSpareEnd(finding, partners) {
    const { subject, says } = finding, begun = says[0].toLowerCase() + says.slice(1);
    const told = `With ${partners.join(" and ")} in the spare end: ${begun}`;
    return { ...finding, severity: "note", subject: `spare:${subject}`, says: told, at: null };
  }

  /* The ways of plugging that count, and the labels to look for where the choice of an end matters: {group, plugs}. Ends
     with different labels are chosen on purpose, so the best such choice counts (of equals the one with the least to say
     against it), unless another is dangerous; what a person cannot choose (which of two like ends, whether spare ends are
     used) counts at its worst. */
  engine.decisive = function (leads, judged) {
    const choices = new Map();
    for (const one of judged) {
      const labels = engine.labels(leads, wayOf(one)), key = JSON.stringify(labels);
      if (!choices.has(key)) choices.set(key, { labels, group: [] });
      choices.get(key).group.push(one);
    }
    const all = [...choices.values()], worst = (choice) => rank(worstOf(choice.group.map((one) => one.verdict)));
    const ranks = all.map(worst), dangerous = Math.max(...ranks) === rank("dangerous");
    const counts = dangerous ? rank("dangerous") : Math.min(...ranks);
    const most = (choice) => Math.max(...choice.group.map(faults));
    const best = all.filter((_, i) => ranks[i] === counts).reduce((one, other) => (most(other) < most(one) ? other : one));
    const worse = all.filter((_, i) => ranks[i] > counts);
    const plugs = best.labels.filter((label, k) => worse.some(({ labels }) => labels[k] !== label));
    return { group: best.group, plugs };
  };

  /* What a person reads on the ends of this way. */
  engine.labels = (leads, way) => leads.flatMap((lead, i) => way.ends[i].map((end) => lead.ends[end].label));

  const faults = ({ findings }) => findings.filter(({ severity }) => severity !== "note").length;

  /* A setting that merely leaves a device without its supply, while another setting powers it, does not decide the
     headline. `here` are the findings of that setting. */
  function onlyUnpowered(here, findings, count) {
    const unpowered = ({ id }) => UNPOWERED.includes(id);
    const rest = severest(here.filter((finding) => !unpowered(finding)));
    if (!here.some(unpowered) || rank(rest) > rank("lossy")) return false;
    return new Set(findings.filter(unpowered).map(({ setting }) => setting)).size < count;
  }

  /* What several settings share is told once, where it is worst; a setting is only named when it matters. */
  function toldOnce(findings, count) {
    const kept = new Map(), seen = new Map();
    for (const finding of findings) {
      seen.set(same(finding), (seen.get(same(finding)) || new Set()).add(finding.setting));
      keepWorse(kept, finding);
    }
    const everywhere = (finding) => ({ ...finding, when: engine.STATES[finding.state] });
    return worstFirst([...kept].map(([key, finding]) => (seen.get(key).size === count ? everywhere(finding) : finding)));
  }

  const same = engine.sameness = ({ id, subject, state }) => JSON.stringify([id, subject, state]);

  function keepWorse(kept, finding) {
    const key = same(finding), best = kept.get(key), beyond = ({ value, limit }) => Math.abs(value - (limit || 0));
    if (!best || beyond(finding) > beyond(best) * (1 + SLACK) + SLACK) kept.set(key, finding);
  }

  /* Each finding once, where it is worst; worst first. */
  engine.gathered = function (findings) {
    const kept = new Map();
    for (const finding of findings) keepWorse(kept, finding);
    return worstFirst([...kept.values()]);
  };

  /* Of each figure, in each case it is told for, the worst of all channels and ways; none where nothing works. */
  function worstFigures(rulebook, verdict, figures) {
    const kept = new Map();
    for (const figure of rank(verdict) <= rank("lossy") ? figures : []) {
      const key = JSON.stringify([figure.id, figure.case]), best = kept.get(key);
      const sign = engine.lowerIsWorse(rulebook, figure.id) ? -1 : 1;
      const worse = () => sign * (figure.value - best.value) > ALIKE * Math.max(1, Math.abs(best.value));
      if (!best || worse()) kept.set(key, figure);
    }
    return [...kept.values()];
  }

  /* By severity, losses by what they weigh, notes last; a stable sort keeps the order of the rest. */
  const worstFirst = (findings) => [...findings].sort((a, b) => rank(b.severity) - rank(a.severity)
    || (a.severity === "note") - (b.severity === "note") || (a.severity === "note" ? 0 : b.weighs - a.weighs));
})(Ringfence.engine);
