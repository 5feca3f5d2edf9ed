"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* A run as it stands in the address: #from=mic-dynamic-xlr,battery&into=...&lead=mic-pair,30.
   What address.py writes is read here; what makes no sense is left out and told. */
(function (runs) {
  runs.empty = () => ({
    source: { device: "line-unbalanced", powered: "insulated", contact_one: false },
    input: { device: "line-input-unbalanced", powered: "earthed", contact_one: false },
    leads: [{ cable: "coax-thin", length: 5, screen: "whole", cold: "through" }],
    name: "",
    volts: 230,
    hertz: 50,
    sockets: "unknown",
    dimmers: false,
    held: false,
    measured_volts: 0,
    measured_amps: 0,
    bond: 0,
    transformer: false,
    ferrite: 0,
    beside: [],
    spare: null,
    things: [],
    transmitters: [],
    assume: {},
  });

  /* {run, unknown: [text]}. */
  runs.readAddress = function (hash, tables) {
    const asked = new URLSearchParams(hash.replace(/^#/, "")),
      run = runs.empty(),
      unknown = [];
    const all = (key) =>
      asked
        .getAll(key)
        .slice(0, runs.MOST)
        .map((text) => text.split(","));
    const pick = (text, options, otherwise) => {
      const words = String(text || "").replaceAll("-", " "),
        found = options.find((one) => one === text || one === words);
      if (!found && text) unknown.push(String(text).slice(0, 60));
      return found || otherwise;
    };
    const id = (text, table) =>
      Object.hasOwn(table, text || "") ? text : (unknown.push(String(text).slice(0, 60)), null);
    const within = (text, [low, high], otherwise) => {
      const value = text === undefined || text === "" ? otherwise : Number(text);
      if (Number.isFinite(value) && value >= low && value <= high) return value;
      unknown.push(String(text).slice(0, 60));
      return otherwise;
    };
    const device = (key, side, table) => {
      const [[name, powered, wanders] = []] = all(key);
      if (name === undefined || !id(name, table)) return;
      run[side] = {
        device: name,
        powered: pick(powered, runs.POWERED, table[name].powered),
        contact_one: wanders === "wanders",
      };
    };
    device("from", "source", tables.sources);
    device("into", "input", tables.inputs);
    const leads = all("lead")
      .filter(([cable]) => id(cable, tables.cables))
      .map(([cable, length, screen, cold]) => ({
        cable,
        length: within(length, runs.LIMITS.length, 5),
        screen: pick(screen, runs.SCREENS, "whole"),
        cold: pick(cold, runs.COLD, "through"),
      }));
    if (leads.length) run.leads = leads;
    run.name = (asked.get("name") || "").slice(0, 80);
    if ((asked.get("mains") || "") !== "")
      [run.volts, run.hertz] = mains(asked.get("mains")) || (unknown.push("mains"), [230, 50]);
    run.sockets = pick(asked.get("sockets"), runs.SOCKETS, "unknown");
    if (
      run.sockets === "same battery" &&
      (run.source.powered !== "battery" || run.input.powered !== "battery")
    )
      run.sockets = "unknown";
    for (const key of ["dimmers", "held", "transformer"]) run[key] = asked.get(key) === "yes";
    run.measured_volts = within(asked.get("volts") || "", runs.LIMITS.volts, 0);
    run.measured_amps = within(asked.get("amps") || "", runs.LIMITS.read, 0);
    run.bond = within(asked.get("bond") || "", runs.LIMITS.bond, 0);
    run.ferrite = within(asked.get("ferrite") || "", runs.LIMITS.ferrite, 0);
    run.beside = all("beside")
      .filter(([cable, load]) => id(cable, tables.mains) && id(load, tables.loads))
      .map(([cable, load, amps, distance, along, lies]) => ({
        cable,
        load,
        amps: within(amps, runs.LIMITS.amps, 0),
        distance: within(distance, runs.LIMITS.distance, 0.01),
        along: within(along, runs.LIMITS.along, 0),
        lies: pick(lies, runs.LIES, "alongside"),
      }));
    const [spare] = all("spare");
    if (spare)
      run.spare = {
        lies: pick(spare[0], runs.SPARE, "coiled"),
        turns: within(spare[1], runs.LIMITS.turns, 1),
        across: within(spare[2], runs.LIMITS.across, 0.3),
        distance: within(spare[3], [0, 100], 0),
      };
    run.things = all("thing")
      .filter(([thing]) => id(thing, tables.things))
      .map(([thing, distance]) => ({ thing, distance: within(distance, runs.LIMITS.distance, 1) }));
    run.transmitters = all("radio")
      .filter(([what]) => id(what, tables.transmitters))
      .map(([transmitter, distance, watts]) => ({
        transmitter,
        distance: within(distance, runs.LIMITS.far, 1),
        watts: within(watts, runs.LIMITS.watts, 0),
      }));
    for (const [key, value] of all("assume"))
      if (id(key, tables.units)) run.assume[key] = within(value, runs.LIMITS.assumed, 0);
    return { run, unknown };
  };

  const mains = (text) =>
    [
      [230, 50],
      [120, 60],
      [100, 50],
      [100, 60],
    ].find(([volts, hertz]) => text === `${volts},${hertz}`);
})(Ringfence.interference);
