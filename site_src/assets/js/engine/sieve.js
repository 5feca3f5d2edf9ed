/* What nothing comes of, told before a glance: its readings, one kind after the other and the cheapest first, until they say so. Never worse
   than a glance, which has all of these and more. The twin of sieve.py. */

import { joints, placed, portsOf } from "./assemble.js";
import { build, CircuitError, valuesAt } from "./circuit.js";
import { HERTZ } from "./constants.js";
import { size } from "./currents.js";
import { directReadings, wayOf } from "./direct.js";
import { rulesMet, severityOf } from "./findings.js";
import { leastOf } from "./glance.js";
import { signalReadings } from "./hearing.js";
import { named, signal } from "./output.js";
import { comparable, inputs, outputs } from "./pairing.js";
import { at } from "./readings.js";
import { loss } from "./rulebook.js";
import { across, decibels, driveOf, MID, solveSignals } from "./signal.js";
import { solveAc } from "./solve.js";
import { settings } from "./switches.js";
import { rank } from "./verdict.js";

const QUIET = { peak: () => [0, at("signal", 0, "")] }; // signals that add nothing to what a part sees

/* The least that a glance at this chain can come to, as [rank, what is lost]. `plain` is what `plainly` makes of the catalogue. */
export const sieve = (plain, rulebook, from, through, into) =>
  leastOf(plain, from, through, into, (...way) => {
    try {
      return sieved(rulebook, kinds(plain, ...way));
    } catch (error) {
      if (error instanceof CircuitError) return [rank("dangerous"), 0]; // what cannot be worked out is never safe
      throw error;
    }
  });

function sieved(rulebook, { ports, reads }) {
  const met = [];
  let least = 0;
  for (const read of reads) {
    for (const reading of read())
      for (const rule of rulesMet(rulebook, reading))
        met.push({ id: rule.id, setting: reading.setting, rank: rank(severityOf(rule, reading)) });
    least = leastSetting(met, ports);
    if (least >= rank("no signal")) break;
  }
  const lossy = met.filter((one) => one.rank === rank("lossy"));
  return [
    least,
    loss(
      rulebook,
      lossy.map(({ id }) => id),
    ),
  ];
}

/* How the best setting is. One that merely lacks its supply does not count; which those are is not known before all is read, but the best is
   none of them or no better. */
function leastSetting(met, ports) {
  const worst = (setting) =>
    met.reduce((most, one) => (one.setting === setting ? Math.max(most, one.rank) : most), 0);
  const always = worst(null);
  if (met.every(({ setting }) => setting === null)) return always;
  return Math.max(always, Math.min(...settings(ports).map((_, setting) => worst(setting))));
}

/* The ports, and functions to three kinds of readings: how much is heard, the capacitance of cables aside; direct current, signals aside; and
   signals, what lies between the two chassis aside. */
function kinds(data, outlet, leads, inlet, way) {
  const places = placed(data, outlet, leads, inlet, way),
    ports = portsOf(places),
    joint = joints(data, places, outlet, leads, inlet, way, false),
    { parts, strays, couplings, switches, chassis } = joint,
    assembly = { ...joint, places, ports, linked: null, once: new Map(), weigh() {} };
  const reads = [
    function () {
      assembly.bare = build(parts, couplings, switches, chassis);
      return heard(assembly);
    },
    function () {
      assembly.circuit = build([...parts, ...strays], couplings, switches, chassis);
      return directReadings(assembly, QUIET);
    },
    () => signalReadings(assembly, solveSignals(assembly)),
  ];
  return { ports, reads };
}

/* How much is heard of what is asked about, if anything is of a kind. */
function heard(assembly) {
  const { bare, settled } = assembly,
    [here, there] = wayOf(assembly, "from") === "forth" ? ["from", "into"] : ["into", "from"],
    alike = comparable(outputs(assembly, here), inputs(assembly, there)),
    sent = [...new Set(alike.map(([o]) => o))];
  if (!alike.length) return [];
  const drives = sent.map(({ place, source }) => driveOf(place, source)),
    [[states]] = solveAc(bare, [valuesAt(bare, "nominal")], [HERTZ[MID]], settled, drives);
  const gains = alike.map(function ([o, i]) {
    const volts = across(bare, i.place, i.listener.between);
    return Math.min(...states.map((solved) => size(volts(solved[sent.indexOf(o)]))));
  });
  return [
    signal("path-gain", here, "connection", decibels(Math.max(...gains)), "dB", {
      words: { device: named(here), other: named(there) },
      flags: { cause: "open", way: "forth" },
    }),
  ];
}
