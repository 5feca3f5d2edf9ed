/* Signals solved: what every listener hears of every source, how it is loaded, and what a difference between chassis adds.
   The twin of signal.py. Gains are complex volts [re, im] per volt of open-circuit level, in all settled states. */

import { CAPACITANCE, EARTHS, RESISTANCE } from "./assemble.js";
import { net, valuesAt } from "./circuit.js";
import { BALANCE_HERTZ, GAIN_FLOOR, HERTZ, MAINS } from "./constants.js";
import { largestAt, signalAmps, signalVolts, size } from "./currents.js";
import { once } from "./kept.js";
import { allSignals, eachSignal, partIndex } from "./limits.js";
import { at } from "./readings.js";
import { solveAc } from "./solve.js";
import { sends, settings, skewed, switchedOn } from "./switches.js";

export const LOW = 0;
export const MID = 1;
export const HIGH = 2;

/* What two chassis differ by, and what the balance is asked at. */
export const humHertz = () => [MAINS, BALANCE_HERTZ];

const nothing = () => at("signal", 0, "");

/* 20 log10 of a magnitude, never below GAIN_FLOOR. */
export const decibels = (ratio) => 20 * Math.log10(Math.max(Math.abs(ratio), GAIN_FLOOR));

export const pair = (source, listener) => `${source}>${listener}`;

/* The share of some signals' sizes, [signal][state], that is left when they are added with their phases, [state]. */
export const keptInSum = (gains) =>
  gains[0].map((_, state) => {
    const sum = gains.reduce(([re, im], states) => [re + states[state][0], im + states[state][1]], [0, 0]);
    return size(sum) / gains.reduce((all, states) => all + size(states[state]), 0);
  });

/* Every source and every listener, as Map of `place/id` -> [place, record]. */
export const sourcesOf = (assembly) => named(assembly, "sources");
export const listenersOf = (assembly) => named(assembly, "listeners");

const named = ({ ports }, kind) =>
  new Map(
    ports.flatMap(([place, port]) => port[kind].map((record) => [`${place}/${record.id}`, [place, record]])),
  );

/* The tolerance corners signals are solved at. */
export const signalCorners = (circuit) => (skewed(circuit) ? ["nominal", "skewed"] : ["nominal"]);

/* What one volt of open-circuit level is to the parts that make it, as Map. */
export const driveOf = (place, source) =>
  new Map(Object.entries(source.drive).map(([part, share]) => [`${place}/${part}`, share]));

/* The highest level a source is known to give, V rms. */
export const loudest = (source) => source.maximum || source.nominal || 0;

/* Solved signals of an assembly. Maps by `place/id` and pair of such names:
   gains[corner][frequency][state]; bare [frequency][state], nominal and without cable capacitance; openOutput[frequency] and
   output[frequency][state], at the source's own output, unplugged and plugged; load[state], the impedance magnitude the
   connection puts across it at 1 kHz, ohm, and loads, [with [state], without]; hum[pair][corner][home state], V rms at a
   listener for each pair of powerings, at MAINS; balance[corner][hum frequency][home state], volts there for a volt between
   the chassis, and `between`, alike, what the first pair's emf of a volt leaves there. `settled` and `plugging` are net
   voltages of every source, [corner][frequency][state][source], for what rated parts see. */
class Signals {
  constructor(found) {
    Object.assign(this, found);
    this.sources = sourcesOf(this.assembly);
    this.peaks = new Map();
  }

  /* The loudest level of every source that is switched on, V rms, for each setting. */
  get levels() {
    const { ports } = this.assembly,
      on = settings(ports).map((setting) => switchedOn(ports, setting));
    const own = (each) =>
      [...this.sources.values()].map(([place, s]) => (sends(each, place, s) ? loudest(s) : 0));
    Object.defineProperty(this, "levels", { value: on.map(own) }); // worked out once
    return this.levels;
  }

  /* What all sources at their loudest add to a rated part, V or A peak or W, and where; shown for the source that adds
     most: [value, at]. A device is built for its own signal; where a rating is not known, only what comes from elsewhere
     counts. */
  peak(place, limit, state, setting) {
    const data = state === "settled" ? this.settled : this.plugging;
    const foreign = ([there]) => limit.settled !== null || there !== place;
    const level = [...this.sources.values()].map((one, i) => (foreign(one) ? this.levels[setting][i] : 0));
    if (!data[0][0].length || !level.some(Boolean)) return [0, nothing()];
    const key = JSON.stringify([place, limit.id, state, level]);
    if (!this.peaks.has(key))
      this.peaks.set(key, this.worked(place, limit, state === "settled", data, level));
    return this.peaks.get(key);
  }

  worked(place, limit, settled, data, level) {
    const { circuit } = this.assembly,
      edges = settled ? HERTZ : [HERTZ[MID]];
    const name = `signal at ${place} ${limit.id} ${settled}`,
      each = once(this.assembly, name, () => eachSignal(circuit, place, limit, data, edges, this.values));
    if (!each) return [0, nothing()];
    const total = allSignals(limit, each, level),
      [corner, edge, state] = largestAt(total);
    const here = [[[each[corner][edge][state]]]],
      one = (i) => level.map((volts, k) => (k === i ? volts : 0));
    const alone = level.map((_, i) => allSignals(limit, here, one(i))[0][0][0]);
    const [main] = largestAt(alone),
      first = settled ? 0 : this.assembly.settled.length;
    return [
      total[corner][edge][state],
      at("signal", state + first, "", {
        corner: signalCorners(circuit)[corner],
        hertz: edges[edge],
        source: [...this.sources.keys()][main],
        level: level[main],
      }),
    ];
  }

  /* The emfs of a source's output stage, and what every source at its loudest drives through each, A rms:
     {stages, amps}, amps as [stage][corner][frequency][state][source]. */
  stageAmps(name) {
    const [place, source] = this.sources.get(name),
      { circuit } = this.assembly;
    const driving = Object.keys(source.drive).map((part) => partIndex(circuit, place, part));
    const stages = driving.filter((i) => i !== undefined && circuit.parts[i].kind === "emf");
    const level = [...this.sources.values()].map(([, s]) => loudest(s));
    const through = (i) =>
      this.settled.map((edges, corner) =>
        edges.map((states, edge) =>
          states.map((sources) =>
            sources.map(
              (found, k) => signalAmps(circuit, this.values[corner][i], HERTZ[edge], found, i) * level[k],
            ),
          ),
        ),
      );
    return { stages: stages.map((i) => circuit.parts[i].id), amps: stages.map(through) };
  }

  /* Where a current of `stageAmps` was found, shown for one source. */
  stageAt(part, corner, edge, state, source) {
    const level = loudest(this.sources.get(source)[1]);
    return at("signal", state, part, {
      corner: signalCorners(this.assembly.circuit)[corner],
      hertz: HERTZ[edge],
      source,
      level,
    });
  }
}

/* Solve every signal question of an assembly. */
export const solveSignals = (assembly) =>
  new Signals({ assembly, ...once(assembly, "signals", () => solved(assembly), numbersOf(assembly)) });

/* How many numbers that comes to, about. */
const numbersOf = ({ circuit, states, ports }) =>
  4 * circuit.size * states.length * ports.flatMap(([, port]) => port.sources).length;

function solved(assembly) {
  const { circuit, bare, plugging } = assembly,
    states = assembly.settled,
    { length } = states;
  const sources = [...sourcesOf(assembly)],
    listeners = [...listenersOf(assembly)];
  const values = signalCorners(circuit).map((corner) => valuesAt(circuit, corner));
  const drives = sources.map(([, [place, s]]) => driveOf(place, s));
  const probes = sources.map(([, [place, s]]) => new Map([[s.output.map((node) => `${place}/${node}`), -1]]));

  const found = solveAc(circuit, values, HERTZ, [...states, assembly.apart], [...drives, ...probes]);
  const [lean] = solveAc(bare, [valuesAt(bare, "nominal")], HERTZ, states, drives);
  const maps = ["gains", "bare", "openOutput", "output", "load", "loads"].map((name) => [name, new Map()]);
  const signals = Object.fromEntries(maps);
  sources.forEach(([name, [place, source]], column) => {
    for (const [other, [there, listener]] of listeners) {
      const heard = across(circuit, there, listener.between),
        heardBare = across(bare, there, listener.between);
      const plugged = (solved) => solved.slice(0, length).map((drive) => heard(drive[column]));
      signals.gains.set(
        pair(name, other),
        found.map((corner) => corner.map(plugged)),
      );
      const simple = lean.map((solved) => solved.map((drive) => heardBare(drive[column])));
      signals.bare.set(pair(name, other), simple);
    }
    const own = across(circuit, place, source.output);
    const atOutput = found[0].map((solved) => solved.map((drive) => own(drive[column])));
    signals.openOutput.set(
      name,
      atOutput.map((solved) => solved[length]),
    );
    signals.output.set(
      name,
      atOutput.map((solved) => solved.slice(0, length)),
    );
    const probed = found[0][MID].map((drive) => own(drive[sources.length + column]));
    signals.load.set(name, added(probed.slice(0, length), probed[length]));
    signals.loads.set(name, [probed.slice(0, length).map(size), size(probed[length])]);
  });
  const moving = drives.length && plugging.length;
  const settled = found.map((edges) =>
    edges.map((solved) => solved.slice(0, length).map((one) => one.slice(0, drives.length))),
  );
  return {
    values,
    ...signals,
    ...hummed(assembly, listeners, values),
    settled,
    plugging: moving ? solveAc(circuit, values.slice(0, 1), [HERTZ[MID]], plugging, drives) : [[[]]],
  };
}

/* The signal voltage between two nodes of a place, in any solved drive. */
export function across(circuit, place, nodes) {
  const [a, b] = nodes.map((node) => net(circuit, `${place}/${node}`));
  return (found) => signalVolts(found, a, b);
}

/* The impedance the connection adds across an output in each state, from the impedance there with and without it. */
function added(plugged, unplugged) {
  const open = inverse(unplugged);
  return plugged
    .map(inverse)
    .map(([re, im]) => 1 / Math.max(Math.hypot(re - open[0], im - open[1]), GAIN_FLOOR));
}

function inverse([re, im]) {
  const square = re * re + im * im;
  return square === 0 ? [Infinity, NaN] : [re / square, -im / square]; // of nothing, as NumPy has it
}

/* What a difference between the chassis brings to every listener: in volts for every pair of powerings, and for a volt
   between them. */
function hummed(assembly, listeners, values) {
  const { linked, home, pairs } = assembly,
    hum = new Map(),
    balance = new Map();
  if (!linked) return { hum, balance, between: [] };
  const padded = values.map((row) =>
    Float64Array.from(linked.parts, (_, i) => (i < row.length ? row[i] : 1)),
  );
  const hertz = (number) => (number ? [MAINS] : humHertz()); // the balance is asked of the first pair only
  const found = pairs.map((pair, number) =>
    solveAc(
      linked,
      padded.map((row) => powered(linked, row, pair)),
      hertz(number),
      home,
      [new Map([[EARTHS, 1]])],
    ),
  );
  const [near, far] = ["from", "into"].map((place) => net(linked, `${place}/chassis`));
  const sizes = (solved, a, b) =>
    solved.map((edges) => edges.map((states) => states.map(([one]) => size(signalVolts(one, a, b)))));
  const least = (states) => states.map((volts) => Math.max(volts, GAIN_FLOOR));
  const between = sizes(found[0], near, far).map((edges) => edges.map(least));
  for (const [name, [place, listener]] of listeners) {
    const nets = listener.between.map((node) => net(linked, `${place}/${node}`));
    const heard = found.map((solved) => sizes(solved, ...nets));
    hum.set(
      name,
      heard.map((corners, number) =>
        corners.map(([states]) => states.map((volts) => volts * pairs[number].volts)),
      ),
    );
    balance.set(
      name,
      heard[0].map((edges, corner) =>
        edges.map((states, edge) => states.map((volts, state) => volts / between[corner][edge][state])),
      ),
    );
  }
  return { hum, balance, between };
}

/* Values with what limits the current between the chassis as a pair of powerings has it. */
export function powered(linked, values, pair) {
  const given = new Map([
    [RESISTANCE, pair.ohm],
    [CAPACITANCE, pair.farad],
  ]);
  return Float64Array.from(linked.parts, (part, i) => (given.has(part.id) ? given.get(part.id) : values[i]));
}
