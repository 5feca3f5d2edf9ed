"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* The form's first group: the two devices, what powers them, which sockets. */
(function (page, runs, ui) {
  const POWERED = [
    ["earthed", "mains with earth"],
    ["insulated", "two-pin mains"],
    ["battery", "battery, or through the lead"],
  ];

  const bothBattery = (run) => run.source.powered === "battery" && run.input.powered === "battery";
  const fit = (run) => {
    if (run.sockets === "same battery" && !bothBattery(run)) run.sockets = "unknown";
  };

  function options(table) {
    const own = page.named(Object.fromEntries(Object.entries(table).filter(([, row]) => !row.title)));
    const ports = Object.entries(table)
      .filter(([, row]) => row.title)
      .map(([id, row]) => [id, row.title]);
    return {
      "Everyday devices": own,
      "From the catalogue": ports.sort(([, one], [, other]) => ui.inOrder(one, other)),
    };
  }

  page.devices = function (run, tables, change) {
    const side = (key, label, table) => [
      page.choice(
        label,
        options(table),
        run[key].device,
        (device) =>
          change((it) => {
            it[key] = { ...it[key], device, powered: table[device].powered };
            fit(it);
          }, true),
        true,
      ),
      page.choice("powered by", POWERED, run[key].powered, (powered) =>
        change((it) => {
          it[key].powered = powered;
          fit(it);
        }, true),
      ),
      page.tick("its contact 1 wanders (known fault)", run[key].contact_one, (is) =>
        change((it) => {
          it[key].contact_one = is;
        }),
      ),
    ];
    const sockets = runs.SOCKETS.filter((one) => one !== "same battery" || bothBattery(run)).map((one) => [
      one,
      one === "unknown" ? "do not know" : one,
    ]);
    const mains = page.choice(
      "mains",
      [
        ["230,50", "230 V 50 Hz"],
        ["120,60", "120 V 60 Hz"],
        ["100,50", "100 V 50 Hz"],
        ["100,60", "100 V 60 Hz"],
      ],
      `${run.volts},${run.hertz}`,
      (text) =>
        change((it) => {
          [it.volts, it.hertz] = text.split(",").map(Number);
        }),
    );
    return page.group(
      "Devices",
      `${tables.sources[run.source.device].name} into ${tables.inputs[run.input.device].name}`,
      true,
      ...side("source", "from", tables.sources),
      ...side("input", "into", tables.inputs),
      page.choice("their mains sockets", sockets, run.sockets, (value) =>
        change((it) => {
          it.sockets = value;
        }),
      ),
      mains,
      page.tick("dimmed lamps on the same supply", run.dimmers, (is) =>
        change((it) => {
          it.dimmers = is;
        }),
      ),
      page.tick("the battery device is in a hand", run.held, (is) =>
        change((it) => {
          it.held = is;
        }),
      ),
    );
  };
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
