"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* The run as a person on set describes it: devices, leads, what lies beside, radio. Every change gives a new run. */
(function (page, runs, ui) {
  const POWERED = [["earthed", "mains with earth"], ["insulated", "two-pin mains"], ["battery", "battery, or through the lead"]];
  const said = (words) => [words, words], all = (words) => words.map(said), cm = 0.01;

  /* The form. `change(edit, whole)` is called with a function that edits a copy; `whole`: the form itself looks different then. */
  page.form = function (run, tables, change) {
    return [devices(run, tables, change), leads(run, tables, change), beside(run, tables, change), near(run, tables, change),
      radio(run, tables, change), measured(run, change)];
  };

  const named = (table) => Object.entries(table).map(([id, row]) => [id, row.name]);

  function options(table) {
    const own = named(Object.fromEntries(Object.entries(table).filter(([, row]) => !row.title)));
    const ports = Object.entries(table).filter(([, row]) => row.title).map(([id, row]) => [id, row.title]);
    return { "Everyday devices": own, "From the catalogue": ports.sort(([, one], [, other]) => ui.inOrder(one, other)) };
  }

  function devices(run, tables, change) {
    const side = (key, label, table) => [
      page.choice(label, options(table), run[key].device,
        (device) => change((it) => { it[key] = { ...it[key], device, powered: table[device].powered }; fit(it); }, true), true),
      page.choice("powered by", POWERED, run[key].powered, (powered) => change((it) => { it[key].powered = powered; fit(it); }, true)),
      page.tick("its contact 1 wanders (known fault)", run[key].contact_one, (is) => change((it) => { it[key].contact_one = is; }))];
    const sockets = runs.SOCKETS.filter((one) => one !== "same battery" || bothBattery(run)).map((one) => [one, one === "unknown" ? "do not know" : one]);
    const mains = page.choice("mains", [["230,50", "230 V 50 Hz"], ["120,60", "120 V 60 Hz"], ["100,50", "100 V 50 Hz"], ["100,60", "100 V 60 Hz"]],
      `${run.volts},${run.hertz}`, (text) => change((it) => { [it.volts, it.hertz] = text.split(",").map(Number); }));
    return page.group("Devices", `${tables.sources[run.source.device].name} into ${tables.inputs[run.input.device].name}`, true,
      ...side("source", "from", tables.sources), ...side("input", "into", tables.inputs),
      page.choice("their mains sockets", sockets, run.sockets, (value) => change((it) => { it.sockets = value; })), mains,
      page.tick("dimmed lamps on the same supply", run.dimmers, (is) => change((it) => { it.dimmers = is; })),
      page.tick("the battery device is in a hand", run.held, (is) => change((it) => { it.held = is; })));
  }

  const bothBattery = (run) => run.source.powered === "battery" && run.input.powered === "battery";
  const fit = (run) => { if (run.sockets === "same battery" && !bothBattery(run)) run.sockets = "unknown"; };

  function leads(run, tables, change) {
    const rows = run.leads.flatMap((lead, i) => [
      page.choice(`lead ${i + 1}`, named(tables.cables), lead.cable, (cable) => change((it) => { it.leads[i].cable = cable; }), true),
      page.number("length", "m", 1, runs.LIMITS.length, lead.length, (value) => change((it) => { it.leads[i].length = value; }), lead.length),
      page.choice("screen", all(runs.SCREENS), lead.screen, (screen) => change((it) => { it.leads[i].screen = screen; })),
      page.choice("second wire", all(runs.COLD), lead.cold, (cold) => change((it) => { it.leads[i].cold = cold; })),
      run.leads.length > 1 ? page.remove("Take this lead out", () => change((it) => { it.leads.splice(i, 1); }, true)) : null]);
    const more = page.remove("Another lead behind it", () => change((it) => { it.leads.push({ ...it.leads[it.leads.length - 1] }); }, true));
    const spare = run.spare || { lies: "", turns: 5, across: 0.3, distance: 0 };
    const lies = page.choice("spare lead", [["", "none"], ...all(runs.SPARE)], spare.lies,
      (value) => change((it) => { it.spare = value ? { ...spare, lies: value } : null; }, true));
    const coil = run.spare ? [
      page.number("turns", "", 1, runs.LIMITS.turns, spare.turns, (turns) => change((it) => { it.spare.turns = turns; }), spare.turns),
      page.number("across", "cm", cm, runs.LIMITS.across, spare.across, (across) => change((it) => { it.spare.across = across; }), spare.across),
      page.number("from cables and things", "cm", cm, [0, 100], spare.distance, (value) => change((it) => { it.spare.distance = value; }))] : [];
    return page.group("Leads", `${runs.metres(runs.lengthOf(run))}`, false, ...rows, more, lies, ...coil,
      page.tick("isolating transformer in the run", run.transformer, (is) => change((it) => { it.transformer = is; })),
      page.number("wire from case to case", "mΩ", 1e-3, runs.LIMITS.bond, run.bond, (value) => change((it) => { it.bond = value; })));
  }

  function beside(run, tables, change) {
    const rows = run.beside.flatMap((one, i) => [
      page.choice(`cable ${i + 1}`, named(tables.mains), one.cable, (cable) => change((it) => { it.beside[i].cable = cable; }), true),
      page.choice("what hangs on it", named(tables.loads), one.load, (load) => change((it) => { it.beside[i].load = load; })),
      page.number("carries", "A", 1, [0.001, tables.mains[one.cable].carries], one.amps, (amps) => change((it) => { it.beside[i].amps = amps; })),
      page.number("apart", "cm", cm, runs.LIMITS.distance, one.distance, (value) => change((it) => { it.beside[i].distance = value; }), 0.01),
      page.number("alongside for", "m", 1, runs.LIMITS.along, one.along, (value) => change((it) => { it.beside[i].along = value; })),
      page.choice("lies", all(runs.LIES), one.lies, (lies) => change((it) => { it.beside[i].lies = lies; })),
      page.remove("Take it away", () => change((it) => { it.beside.splice(i, 1); }, true))]);
    const more = page.remove("A mains cable near it", () => change((it) => {
      it.beside.push({ cable: "flex", load: "unknown", amps: 0, distance: 0.1, along: 0, lies: "alongside" }); }, true));
    return page.group("Mains cables", run.beside.length ? `${run.beside.length} near it` : "none near it", false, ...rows, more);
  }

  function near(run, tables, change) {
    const rows = run.things.flatMap((one, i) => [
      page.choice(`thing ${i + 1}`, named(tables.things), one.thing, (thing) => change((it) => { it.things[i].thing = thing; }), true),
      page.number("apart", "cm", cm, runs.LIMITS.distance, one.distance, (value) => change((it) => { it.things[i].distance = value; }), one.distance),
      page.remove("Take it away", () => change((it) => { it.things.splice(i, 1); }, true))]);
    const more = page.remove("A transformer or motor near it", () => change((it) => { it.things.push({ thing: "mains-transformer", distance: 0.3 }); }, true));
    return page.group("Transformers and motors", run.things.length ? `${run.things.length} near it` : "none near it", false, ...rows, more);
  }

  function radio(run, tables, change) {
    const rows = run.transmitters.flatMap((one, i) => [
      page.choice(`transmitter ${i + 1}`, named(tables.transmitters), one.transmitter,
        (value) => change((it) => { it.transmitters[i].transmitter = value; }), true),
      page.number("away", "m", 1, runs.LIMITS.far, one.distance, (value) => change((it) => { it.transmitters[i].distance = value; }), one.distance),
      page.number("power", "W", 1, runs.LIMITS.watts, one.watts, (value) => change((it) => { it.transmitters[i].watts = value; })),
      page.remove("Take it away", () => change((it) => { it.transmitters.splice(i, 1); }, true))]);
    const more = page.remove("A transmitter near it", () => change((it) => { it.transmitters.push({ transmitter: "phone", distance: 1, watts: 0 }); }, true));
    const said = run.transmitters.length ? `${run.transmitters.length} near it` : "none near it";
    const chokes = Object.values(tables.chokes).map(({ ohm, name }) => [String(ohm), name]), none = ["0", "none"], own = [String(run.ferrite), "another, by its ohms"];
    const listed = [none, ...chokes].some(([ohm]) => ohm === own[0]) ? [] : [own];
    return page.group("Radio", said, false, ...rows, more,
      page.choice("ferrite at the input", [none, ...chokes, ...listed], own[0], (ohm) => change((it) => { it.ferrite = Number(ohm); }, true)),
      page.number("its ohms at the transmitter", "Ω", 1, runs.LIMITS.ferrite, run.ferrite, (value) => change((it) => { it.ferrite = value; }, true)));
  }

  function measured(run, change) {
    const said = run.measured_volts || run.measured_amps ? "measured" : "not measured";
    return page.group("A meter between the two cases", said, false,
      page.number("AC volts", "mV", 1e-3, runs.LIMITS.volts, run.measured_volts, (value) => change((it) => { it.measured_volts = value; })),
      page.number("AC amps", "mA", 1e-3, runs.LIMITS.read, run.measured_amps, (value) => change((it) => { it.measured_amps = value; })));
  }
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
