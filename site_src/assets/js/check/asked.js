"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What a question is about: its records in order, their names as a chain, and what to take care of with them. */
(function (check, ui) {
  check.asked = ({ from, through, into }) => [ui.port(from), ...through.map(ui.lead), ui.port(into)];
  check.names = (question) => check.asked(question).map(({ name }) => name).join(" → ");

  /* Words of a caution, and whether what they warn of is there: {ports, judged}. A caution that names nothing of this list always applies. */
  const POWER = /phantom|48 V|P48/i, supplied = (ports, like) => ports.some(({ supplies }) => supplies.some(({ id, name }) => like.test(`${id} ${name}`)));
  const kinds = (ports) => new Set(ports.flatMap(({ sources, listeners }) => [...sources, ...listeners].map(({ kind }) => kind)));
  const CONDITIONS = [
    [/T-power|T12/, ({ ports }) => supplied(ports, /t-power/i)],
    [/plug-in power|\bbias\b/i, ({ ports }) => supplied(ports, /plug|bias/i)],
    [POWER, ({ ports }) => supplied(ports, /phantom/i)],
    [/amplifier's? (?:output|loudspeaker)|loudspeaker output|Switch the amplifier off/i, ({ ports }) => kinds(ports).has("loudspeaker")],
    [/network socket|network switch/i, ({ ports }) => ports.some(({ connector }) => connector === "rj45")],
    [/Line level only|For line outputs/, ({ ports: [outlet] }) => outlet.sources.some(({ kind }) => kind === "microphone")],
    [/microphone that needs (?:48 V|phantom)|condenser/i, ({ ports: [outlet] }) => outlet.needs.length > 0],
  ];

  /* What to take care of here, each once: only what its condition is met for. Where every setting is safe, and so is plugging, nothing a supply could do is told;
     where nothing could be judged (null), everything is. */
  check.careful = function (question, judged) {
    const ports = [ui.port(question.from), ui.port(question.into)], calm = judged && judged.verdict === "safe" && !judged.offer;
    const applies = (text) => {
      const said = CONDITIONS.filter(([words]) => words.test(text));
      return !said.length || said.some(([words, met], at) => met({ ports }) && !(calm && at < 3));
    };
    return [...new Set(check.asked(question).flatMap(({ cautions }) => cautions))].filter((text) => !judged || applies(text));
  };
})(Ringfence.check, Ringfence.ui);
