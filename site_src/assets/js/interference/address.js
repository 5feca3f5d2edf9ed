/* A run as it stands in the address: #from=mic-dynamic-xlr,battery&into=...&lead=mic-pair,30. The twin of address.py; what makes no sense is
   left out and told. */

export const POWERED = ["earthed", "insulated", "battery"];
export const SOCKETS = [
  "same strip",
  "same room",
  "other circuit",
  "other supply",
  "same battery",
  "unknown",
];
export const SCREENS = ["whole", "worn", "open at one end", "open at both ends"];
export const COLD = ["through", "to the screen at the source", "to the screen at the input"];
export const LIES = ["alongside", "crossing"];
export const SPARE = ["coiled", "figure of eight"];
const MOST = 12;
export const LIMITS = {
  length: [1e-3, 2000],
  distance: [1e-4, 100],
  far: [5e-3, 1e5],
  amps: [0, 400],
  along: [0, 2000],
  watts: [0, 1e6],
  turns: [1, 500],
  across: [1e-3, 3],
  volts: [0, 400],
  read: [0, 32],
  bond: [0, 10],
  ferrite: [0, 20e3],
  assumed: [0, 1e7],
};

export const empty = () => ({
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
export function readAddress(hash, tables) {
  const asked = new URLSearchParams(hash.replace(/^#/, "")),
    run = empty(),
    unknown = [];
  const all = (key) =>
    asked
      .getAll(key)
      .slice(0, MOST)
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
      powered: pick(powered, POWERED, table[name].powered),
      contact_one: wanders === "wanders",
    };
  };
  device("from", "source", tables.sources);
  device("into", "input", tables.inputs);
  const leads = all("lead")
    .filter(([cable]) => id(cable, tables.cables))
    .map(([cable, length, screen, cold]) => ({
      cable,
      length: within(length, LIMITS.length, 5),
      screen: pick(screen, SCREENS, "whole"),
      cold: pick(cold, COLD, "through"),
    }));
  if (leads.length) run.leads = leads;
  run.name = (asked.get("name") || "").slice(0, 80);
  if ((asked.get("mains") || "") !== "")
    [run.volts, run.hertz] = mains(asked.get("mains")) || (unknown.push("mains"), [230, 50]);
  run.sockets = pick(asked.get("sockets"), SOCKETS, "unknown");
  if (run.sockets === "same battery" && (run.source.powered !== "battery" || run.input.powered !== "battery"))
    run.sockets = "unknown";
  for (const key of ["dimmers", "held", "transformer"]) run[key] = asked.get(key) === "yes";
  run.measured_volts = within(asked.get("volts") || "", LIMITS.volts, 0);
  run.measured_amps = within(asked.get("amps") || "", LIMITS.read, 0);
  run.bond = within(asked.get("bond") || "", LIMITS.bond, 0);
  run.ferrite = within(asked.get("ferrite") || "", LIMITS.ferrite, 0);
  run.beside = all("beside")
    .filter(([cable, load]) => id(cable, tables.mains) && id(load, tables.loads))
    .map(([cable, load, amps, distance, along, lies]) => ({
      cable,
      load,
      amps: within(amps, LIMITS.amps, 0),
      distance: within(distance, LIMITS.distance, 0.01),
      along: within(along, LIMITS.along, 0),
      lies: pick(lies, LIES, "alongside"),
    }));
  const [spare] = all("spare");
  if (spare)
    run.spare = {
      lies: pick(spare[0], SPARE, "coiled"),
      turns: within(spare[1], LIMITS.turns, 1),
      across: within(spare[2], LIMITS.across, 0.3),
      distance: within(spare[3], [0, 100], 0),
    };
  run.things = all("thing")
    .filter(([thing]) => id(thing, tables.things))
    .map(([thing, distance]) => ({ thing, distance: within(distance, LIMITS.distance, 1) }));
  run.transmitters = all("radio")
    .filter(([what]) => id(what, tables.transmitters))
    .map(([transmitter, distance, watts]) => ({
      transmitter,
      distance: within(distance, LIMITS.far, 1),
      watts: within(watts, LIMITS.watts, 0),
    }));
  for (const [key, value] of all("assume"))
    if (id(key, tables.units)) run.assume[key] = within(value, LIMITS.assumed, 0);
  return { run, unknown };
}

const mains = (text) =>
  [
    [230, 50],
    [120, 60],
    [100, 50],
    [100, 60],
  ].find(([volts, hertz]) => text === `${volts},${hertz}`);

export function writeAddress(run) {
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
}
