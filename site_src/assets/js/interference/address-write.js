"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* The address of a run, as address.py writes it; what stands as it would anyway is left out. */
(function (runs) {
  runs.writeAddress = function (run) {
    const parts = [],
      word = (value) =>
        encodeURIComponent(typeof value === "string" ? value.replaceAll(" ", "-") : String(value));
    const put = (key, values, usual = []) => {
      const texts = values.map(word),
        left = usual.map(word);
      while (left.length && texts[texts.length - 1] === left[left.length - 1]) {
        texts.pop();
        left.pop();
      }
      parts.push(`${key}=${texts.join(",")}`);
    };
    if (run.name) parts.push(`name=${encodeURIComponent(run.name)}`);
    for (const [key, one] of [
      ["from", run.source],
      ["into", run.input],
    ])
      put(key, [one.device, one.powered, ...(one.contact_one ? ["wanders"] : [])]);
    for (const one of run.leads)
      put("lead", [one.cable, one.length, one.screen, one.cold], ["whole", "through"]);
    if (run.volts !== 230 || run.hertz !== 50) put("mains", [run.volts, run.hertz]);
    if (run.sockets !== "unknown") put("sockets", [run.sockets]);
    for (const key of ["dimmers", "held", "transformer"]) if (run[key]) put(key, ["yes"]);
    for (const [key, value] of [
      ["volts", run.measured_volts],
      ["amps", run.measured_amps],
      ["bond", run.bond],
      ["ferrite", run.ferrite],
    ]) {
      if (value) put(key, [value]);
    }
    for (const one of run.beside)
      put("beside", [one.cable, one.load, one.amps, one.distance, one.along, one.lies], ["alongside"]);
    if (run.spare) put("spare", [run.spare.lies, run.spare.turns, run.spare.across, run.spare.distance]);
    for (const one of run.things) put("thing", [one.thing, one.distance]);
    for (const one of run.transmitters) put("radio", [one.transmitter, one.distance, one.watts]);
    for (const [key, value] of Object.entries(run.assume)) put("assume", [key, value]);
    return `#${parts.join("&")}`;
  };
})(Ringfence.interference);
