"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Readings held against the rulebook: the twin of met, _findings and _finding in judge.py. */
(function (engine) {
  const WORD_UNITS = { energy: "J", charge: "V" };
  const PUBLISHED = ["id", "severity", "where", "value", "unit", "limit", "when", "says", "remedy", "evidence", "cite"];
  const FIGURE = ["id", "where", "value", "unit", "says"];
  engine.STATES = { settled: "settled", plugging: "while plugging", signal: "with signal" };
  engine.SLACK = 1e-9; // two numbers closer than this are the same to every solver

  /* Is the value beyond the limit, by more than rounding? */
  engine.met = function (rule, value, limit) {
    const slack = Math.max(engine.SLACK * Math.max(Math.abs(limit), Math.abs(value), 1e-6), rule.margin * Math.abs(limit));
    return rule.compare === "above" ? value > limit + slack : value < limit - slack;
  };

  /* The findings a reading makes, in the order of the rulebook; figures only with every supply on, which is the first setting. */
  engine.findings = function (rulebook, reading, switches) {
    const asked = (rule) => !(rule.severity === "figure" && reading.setting) && Object.entries(rule.only).every(([key, want]) => reading.flags[key] === want);
    return rulebook.filter((rule) => rule.quantity === reading.quantity && asked(rule)).map((rule) => [rule, rule.limit === "own" ? reading.limit : rule.limit])
      .filter(([rule, limit]) => engine.met(rule, reading.value, limit)).map(([rule, limit]) => made(rule, reading, limit, switches));
  };

  function made(rule, reading, limit, switches) {
    const shown = {};
    for (const [name, word] of Object.entries(reading.words)) shown[name] = typeof word === "number" ? engine.quantity(word, WORD_UNITS[name]) : word;
    const told = { value: reading.value, limit, loss: -reading.value };
    for (const [name, number] of Object.entries(told)) shown[name] = engine.quantity(number, reading.unit);
    const own = rule.limit === "own" && reading.evidence;
    const setting = reading.setting === null ? "" : switches[reading.setting];
    return {
      id: rule.id, severity: rule.severity, subject: reading.subject, where: reading.where, value: reading.value, unit: reading.unit,
      limit: rule.id === "rating-not-known" ? null : limit, when: [setting, engine.STATES[reading.state]].filter(Boolean).join(", "),
      says: begun(filled(rule.says, shown)), remedy: filled(rule.remedy, shown), evidence: own ? own.grade : rule.evidence, cite: [...(own ? own : rule).cite],
      state: reading.state, setting: reading.setting, mend: filled(rule.mend, shown), weighs: rule.weighs,
    };
  }

  engine.notSolved = (why) => ({
    id: "not-solved", severity: "dangerous", subject: "connection", where: "connection", value: 0, unit: "", limit: null, when: "always",
    says: `This connection could not be worked out: ${why}.`, remedy: "Do not connect it on the strength of this page; report it.",
    evidence: "derived", cite: [], state: "settled", setting: null, mend: "", weighs: 0,
  });

  /* A sentence with its {names} filled in. */
  function filled(sentence, shown) {
    return sentence.replace(/\{(\w+)\}/g, (_, name) => {
      if (!Object.hasOwn(shown, name)) throw new RangeError(`the rulebook asks for {${name}}, and the reading has none`);
      return shown[name];
    });
  }

  /* With a capital, whatever it begins with: `left of Camera ...`. */
  const begun = (sentence) => sentence[0].toUpperCase() + sentence.slice(1);

  /* The finding, and the figure, as section of the published answer. */
  engine.published = (finding) => Object.fromEntries(PUBLISHED.map((name) => [name, finding[name]]));
  engine.publishedFigure = (figure) => Object.fromEntries(FIGURE.map((name) => [name, figure[name]]));
})(Ringfence.engine);
