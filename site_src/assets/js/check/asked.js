"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What a question is about: its records in order, their names as a chain, and what to take care of with them. */
(function (check, ui) {
  check.asked = ({ from, through, into }) => [ui.port(from), ...through.map(ui.lead), ui.port(into)];
  check.names = (question) => check.asked(question).map(({ name }) => name).join(" → ");

  /* The conditions of cautions (WHEN of generator/catalogue/kinds.py): is it there between these two ports, in this setting {switch: state}? A supply of a
     few volts at an ear for microphones is plug-in power, whether it has a switch or not. */
  const FEW = 10; // volts
  const supplied = (port, id) => port.supplies.some((supply) => supply.id.endsWith(id)), drives = (port, kind) => port.sources.some((one) => one.kind === kind);
  const fed = ({ network: { parts }, listeners }) => listeners.some(({ kind }) => kind === "microphone") && parts.some(({ kind, value }) => kind === "emf" && value && value.nominal > 0 && value.nominal < FEW);
  check.CONDITIONS = {
    "phantom": ({ ports, off }) => ports.some((port) => supplied(port, "phantom")) && !off("phantom"),
    "t-power": ({ ports, off }) => ports.some((port) => supplied(port, "t-power")) && !off("t-power"),
    "plug-in-power": ({ ports, off }) => ports.some((port) => supplied(port, "plug-in-power") || fed(port)) && !off("plug-in-power"),
    "needs-power": ({ ports: [outlet] }) => outlet.needs.length > 0,
    "microphone": ({ ports: [outlet] }) => drives(outlet, "microphone"),
    "amplifier": ({ ports: [outlet] }) => drives(outlet, "loudspeaker"),
    "stereo": ({ ports: [outlet] }) => outlet.sources.length > 1,
    "another-use": () => false,
  };
  const SUPPLIES = ["phantom", "t-power", "plug-in-power"]; // where every setting is safe, and so is plugging, they do nothing

  /* What to take care of here, each once: only what has its condition met. `supplies` is the setting that was chosen, if one was; a switch is off where all
     of its kind are. Where nothing could be judged (null), all is told. */
  check.careful = function (question, judged, supplies = {}) {
    const ports = [ui.port(question.from), ui.port(question.into)], calm = judged && judged.verdict === "safe" && !judged.offer;
    const off = (id) => ((states) => states.length > 0 && states.every((state) => state === "off"))(Object.entries(supplies).filter(([key]) => key.endsWith(id)).map(([, state]) => state));
    const applies = ({ when }) => !when.length || when.some((name) => check.CONDITIONS[name]({ ports, off }) && !(calm && SUPPLIES.includes(name)));
    return [...new Set(check.asked(question).flatMap(({ cautions }) => cautions).filter((one) => !judged || applies(one)).map(({ says }) => says))];
  };
})(Ringfence.check, Ringfence.ui);
