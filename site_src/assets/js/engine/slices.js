/* The one case a reading was found in, solved again with every voltage and current: a slice of the stack it came from. The
   twin of slices.py. */

import { EARTHS } from "./assemble.js";
import { directCase, probeCase, signalCase } from "./cases.js";
import { net, netName, resistive, valuesAt } from "./circuit.js";
import { TEST_AMPS } from "./constants.js";
import { shared } from "./hanging.js";
import { Capacitors, CORNER } from "./instants.js";
import { driveOf, powered, sourcesOf } from "./signal.js";
import { solveDc } from "./solve.js";
import { driveValues, liveVolts, settings } from "./switches.js";

/* The case of a reading; null where no voltage or current decides. */
export function caseOf(assembly, reading) {
  const { at, value: number, terms } = reading;
  return at === null ? null : { ...CASES[at.nature](assembly, reading, at), number, terms };
}

function direct(assembly, { setting }, { state, corner, off, decides, shared: hangs }) {
  const { circuit, ports, states } = assembly;
  const live = liveVolts(circuit, ports, settings(ports)[setting]);
  const values = driveValues(circuit, live, corner, off),
    closed = states[state];
  const solution = solveDc(circuit, [values], [closed]);
  return directCase(hangs ? shared(solution, [closed]) : solution, closed, corner, decides);
}

function instant(assembly, reading, { state, decides, before: [position, plugged], driven }) {
  const { circuit } = assembly,
    capacitors = new Capacitors(assembly),
    closed = assembly.states[state];
  const held = capacitors.settled().map((each) => each[position][plugged]),
    row = capacitors.row(driven);
  const solution = capacitors.solve(
    [row],
    held.map((volts) => [[volts]]),
    [closed],
  );
  // An emf of what the capacitor holds
  [...capacitors.large.keys()].forEach((name, k) => {
    row[capacitors.circuit.index.get(name)] = held[k];
  });
  const netsOf = () =>
    Array.isArray(decides)
      ? decides.map((node) => net(circuit, node))
      : circuit.ends[circuit.index.get(decides)];
  // A part may be missing in this instant, or be two.
  const there =
    !Array.isArray(decides) &&
    capacitors.circuit.index.has(decides) &&
    !(capacitors.large.has(decides) && reading.unit === "V");
  const read = there ? decides : netsOf().map(netName);
  return directCase({ ...solution, values: [row] }, closed, CORNER, read, "instant", circuit);
}

function signal(assembly, reading, at) {
  const circuit = at.bare ? assembly.bare : assembly.circuit,
    values = valuesAt(circuit, at.corner);
  // A side stands for all its devices: a lead may bring several together.
  const wanted = [...sourcesOf(assembly)].filter(
    ([name, [place]]) => name === at.source || place.replace(/[2-9]+$/, "") === at.source,
  );
  const drive = new Map(wanted.flatMap(([, [place, source]]) => [...driveOf(place, source)]));
  return signalCase(circuit, values, assembly.states[at.state], at.corner, drive, at);
}

function hum({ linked, home, pairs }, reading, at) {
  const values = powered(linked, valuesAt(linked, at.corner), pairs[at.pair]);
  const drive = new Map([[EARTHS, 1]]);
  return signalCase(linked, values, home[at.state], at.corner, drive, { ...at, source: EARTHS });
}

const test = ({ circuit, home }, reading, { state, decides, level }) =>
  probeCase(resistive(circuit), circuit, home[state], decides, TEST_AMPS * level);

const CASES = { direct, instant, signal, hum, test };
