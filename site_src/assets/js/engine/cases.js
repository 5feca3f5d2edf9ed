/* One solved case of a connection: the setting, corner and switch state at which a reading got its number, with every voltage
   and current. The twin of cases.py. A case is {nature, circuit, values, closed, corner, volts, amps, decides, number, terms,
   hertz, level, source, spectrum, drive, nodes}: `volts` by net and `amps` by part are complex [re, im] (rms for signal);
   `number` is the reading found again, `terms` what it is made of; `level` the open-circuit volts of the source that is shown
   (the amperes of a test current), `hertz` its frequency, null for direct current; `source` is place/id of it, a place alone
   stands for all its sources, sending alike; `spectrum` has for each of HERTZ the volts by net per unit of level; `drive` maps
   what is driven to its signal for one unit of level; `nodes` lists the nodes each net is made of. */

import { branched, valuesAt } from "./circuit.js";
import { HERTZ } from "./constants.js";
import { partAmps, signalVolts } from "./currents.js";
import { solveAc } from "./solve.js";

/* Net -> nodes. Nets of a circuit made over from `original` are called `net0` ...; they get the original's nodes. */
export function nodesOf(circuit, original = null) {
  const found = Array.from({ length: circuit.netCount }, () => []),
    known = original ? nodesOf(original) : [];
  for (const [name, net] of circuit.nets) {
    const made = original && /^net(\d+)$/.exec(name);
    found[net].push(...(made ? known[Number(made[1])] : [name]));
  }
  return found;
}

const plain = { number: 0, terms: [], hertz: null, level: 1, source: "", spectrum: null, drive: new Map() };
const real = (number) => [number, 0];
const scaled =
  (by) =>
  ([re, im]) => [re * by, im * by];
const voltsOf = (circuit, found) =>
  Array.from({ length: circuit.netCount }, (_, net) => [found.re[net], found.im[net]]);

/* A case out of a direct-current solution of one drive in one state. */
export function directCase(solution, closed, corner, decides, nature = "direct", original = null) {
  const {
    circuit,
    values: [values],
    unknowns: [[unknowns]],
  } = solution;
  return {
    ...plain,
    nature,
    circuit,
    values,
    closed,
    corner,
    decides,
    nodes: nodesOf(circuit, original),
    volts: Array.from(unknowns.slice(0, circuit.netCount), real),
    amps: circuit.parts.map((_, i) => real(partAmps(solution, i)(0, 0))),
  };
}

/* Signal current through a part from a to b, A rms. */
function signalAmps(circuit, value, hertz, found, index) {
  const part = circuit.parts[index],
    row = circuit.branches.get(part.id);
  if (branched(part)) return [found.re[row], found.im[row]];
  const [re, im] = signalVolts(found, ...circuit.ends[index]),
    siemens = 2 * Math.PI * hertz * value;
  if (part.kind === "resistor") return [re / value, im / value];
  return part.kind === "capacitor" ? [-siemens * im, siemens * re] : [0, 0];
}

/* One drive in one state, solved at HERTZ and shown at `hertz`. */
export function signalCase(circuit, values, closed, corner, drive, { hertz, decides, level, source }) {
  const [found] = solveAc(circuit, [values], [hertz, ...HERTZ], [closed], [drive]);
  const [shown, ...spectrum] = found.map(([[one]]) => one);
  const driven = ({ kind, id }) => (kind === "sink" && drive.get(id)) || 0;
  const amps = circuit.parts.map(function (part, i) {
    const [re, im] = signalAmps(circuit, values[i], hertz, shown, i);
    return [re + driven(part), im];
  });
  return {
    ...plain,
    nature: "signal",
    circuit,
    values,
    closed,
    corner,
    decides,
    hertz,
    level,
    source,
    drive,
    nodes: nodesOf(circuit),
    volts: voltsOf(circuit, shown).map(scaled(level)),
    amps: amps.map(scaled(level)),
    spectrum: spectrum.map((one) => voltsOf(circuit, one)),
  };
}

/* A test current of `level` amperes into the first of `nodes` and out of the second, all sources quiet: the voltage tells
   the resistance. */
export function probeCase(circuit, original, closed, nodes, level) {
  const values = valuesAt(circuit, "nominal"),
    drive = new Map([[nodes, -1]]);
  const [[[[found]]]] = solveAc(circuit, [values], [0], [closed], [drive]);
  return {
    ...plain,
    nature: "test",
    circuit,
    values,
    closed,
    corner: "nominal",
    decides: nodes,
    hertz: 0,
    level,
    drive,
    nodes: nodesOf(circuit, original),
    volts: voltsOf(circuit, found).map(([re]) => real(re * level)),
    amps: circuit.parts.map((_, i) => real(signalAmps(circuit, values[i], 0, found, i)[0] * level)),
  };
}
