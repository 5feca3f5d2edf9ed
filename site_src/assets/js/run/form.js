/* The run as a person on set describes it: devices, leads, what lies beside, radio. Every change gives a new run. */

import { COLD, LIMITS, SCREENS, SOCKETS, SPARE } from "../interference/address.js";
import { lengthOf } from "../interference/nearby.js";
import { metres } from "../interference/words.js";
import { inOrder } from "../ui/words.js";
import { all, beside, cm, named, near, radio } from "./beside.js";
import { choice, group, number, remove, tick } from "./fields.js";

const POWERED = [
  ["earthed", "mains with earth"],
  ["insulated", "two-pin mains"],
  ["battery", "battery, or through the lead"],
];

/* The form. `change(edit, whole)` is called with a function that edits a copy; `whole`: the form itself looks different then. */
export function form(run, tables, change) {
  return [
    devices(run, tables, change),
    leads(run, tables, change),
    beside(run, tables, change),
    near(run, tables, change),
    radio(run, tables, change),
    measured(run, change),
  ];
}

function options(table) {
  const own = named(Object.fromEntries(Object.entries(table).filter(([, row]) => !row.title)));
  const ports = Object.entries(table)
    .filter(([, row]) => row.title)
    .map(([id, row]) => [id, row.title]);
  return {
    "Everyday devices": own,
    "From the catalogue": ports.sort(([, one], [, other]) => inOrder(one, other)),
  };
}

function devices(run, tables, change) {
  const side = (key, label, table) => [
    choice(
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
    choice("powered by", POWERED, run[key].powered, (powered) =>
      change((it) => {
        it[key].powered = powered;
        fit(it);
      }, true),
    ),
    tick("its contact 1 wanders (known fault)", run[key].contact_one, (is) =>
      change((it) => {
        it[key].contact_one = is;
      }),
    ),
  ];
  const sockets = SOCKETS.filter((one) => one !== "same battery" || bothBattery(run)).map((one) => [
    one,
    one === "unknown" ? "do not know" : one,
  ]);
  const mains = choice(
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
  return group(
    "Devices",
    `${tables.sources[run.source.device].name} into ${tables.inputs[run.input.device].name}`,
    true,
    ...side("source", "from", tables.sources),
    ...side("input", "into", tables.inputs),
    choice("their mains sockets", sockets, run.sockets, (value) =>
      change((it) => {
        it.sockets = value;
      }),
    ),
    mains,
    tick("dimmed lamps on the same supply", run.dimmers, (is) =>
      change((it) => {
        it.dimmers = is;
      }),
    ),
    tick("the battery device is in a hand", run.held, (is) =>
      change((it) => {
        it.held = is;
      }),
    ),
  );
}

const bothBattery = (run) => run.source.powered === "battery" && run.input.powered === "battery";
const fit = (run) => {
  if (run.sockets === "same battery" && !bothBattery(run)) run.sockets = "unknown";
};

function leads(run, tables, change) {
  const rows = run.leads.flatMap((lead, i) => [
    choice(
      `lead ${i + 1}`,
      named(tables.cables),
      lead.cable,
      (cable) =>
        change((it) => {
          it.leads[i].cable = cable;
        }),
      true,
    ),
    number(
      "length",
      "m",
      1,
      LIMITS.length,
      lead.length,
      (value) =>
        change((it) => {
          it.leads[i].length = value;
        }),
      lead.length,
    ),
    choice("screen", all(SCREENS), lead.screen, (screen) =>
      change((it) => {
        it.leads[i].screen = screen;
      }),
    ),
    choice("second wire", all(COLD), lead.cold, (cold) =>
      change((it) => {
        it.leads[i].cold = cold;
      }),
    ),
    run.leads.length > 1
      ? remove("Take this lead out", () =>
          change((it) => {
            it.leads.splice(i, 1);
          }, true),
        )
      : null,
  ]);
  const more = remove("Another lead behind it", () =>
    change((it) => {
      it.leads.push({ ...it.leads[it.leads.length - 1] });
    }, true),
  );
  const spare = run.spare || { lies: "", turns: 5, across: 0.3, distance: 0 };
  const lies = choice("spare lead", [["", "none"], ...all(SPARE)], spare.lies, (value) =>
    change((it) => {
      it.spare = value ? { ...spare, lies: value } : null;
    }, true),
  );
  const coil = run.spare
    ? [
        number(
          "turns",
          "",
          1,
          LIMITS.turns,
          spare.turns,
          (turns) =>
            change((it) => {
              it.spare.turns = turns;
            }),
          spare.turns,
        ),
        number(
          "across",
          "cm",
          cm,
          LIMITS.across,
          spare.across,
          (across) =>
            change((it) => {
              it.spare.across = across;
            }),
          spare.across,
        ),
        number("from cables and things", "cm", cm, [0, 100], spare.distance, (value) =>
          change((it) => {
            it.spare.distance = value;
          }),
        ),
      ]
    : [];
  return group(
    "Leads",
    `${metres(lengthOf(run))}`,
    false,
    ...rows,
    more,
    lies,
    ...coil,
    tick("isolating transformer in the run", run.transformer, (is) =>
      change((it) => {
        it.transformer = is;
      }),
    ),
    number("wire from case to case", "mΩ", 1e-3, LIMITS.bond, run.bond, (value) =>
      change((it) => {
        it.bond = value;
      }),
    ),
  );
}

function measured(run, change) {
  const said = run.measured_volts || run.measured_amps ? "measured" : "not measured";
  return group(
    "A meter between the two cases",
    said,
    false,
    number("AC volts", "mV", 1e-3, LIMITS.volts, run.measured_volts, (value) =>
      change((it) => {
        it.measured_volts = value;
      }),
    ),
    number("AC amps", "mA", 1e-3, LIMITS.read, run.measured_amps, (value) =>
      change((it) => {
        it.measured_amps = value;
      }),
    ),
  );
}
