/* What charged capacitors do: at the moment a contact closes or opens, when a supply is switched, and for seconds after. The twin
   of instants.py. In the first instant a capacitor holds its voltage: it acts as an emf behind a contact's resistance. Later it
   acts as an emf of what it held a step before, behind step over capacitance (implicit Euler): the same circuit serves for both.
   Capacitors are charged as they were with nothing plugged in, as they are fully plugged, as they are with one joint still open,
   and, where a supply is switched with everything plugged, as they were before. Supplies are taken at their highest and
   resistances at their lowest: that charges and strikes most. One that is off is so in both kinds, its rail at 0 V or
   disconnected: a `position` is a setting with one of these. */

import { net, netName, rebuilt } from "./circuit.js";
import { CONTACT_OHM, LEAST_CAPACITANCE, LEAST_CHARGE, MOMENT, STEPS } from "./constants.js";
import { everywhere, most, nodeVolts, partAmps, partVolts } from "./currents.js";
import { idle, shared } from "./hanging.js";
import { decides, heldAgainst, limitValues } from "./limits.js";
import { at } from "./readings.js";
import { drivesOf, solveDc } from "./solve.js";
import { driveValues, liveSupplies, liveVolts, offs, settings } from "./switches.js";

export const CONTACT = ":contact";
export const CORNER = "strong";

/* The large capacitors of an assembly (`large`: part id -> number), and its circuit with each of them as an emf behind a
   resistance. `live` tells for each setting the places whose supplies are on, `fed` whether there are any. */
export const Capacitors = class Capacitors {
  constructor(assembly) {
    const { circuit, ports } = assembly;
    const big = ({ kind, value }) => kind === "capacitor" && value.nominal >= LEAST_CAPACITANCE;
    this.assembly = assembly;
    this.large = new Map(
      [...circuit.parts.entries()].filter(([, part]) => big(part)).map(([i, part]) => [part.id, i]),
    );
    this.circuit = struckCircuit(circuit, this.large);
    this.settings = settings(ports);
    const lives = this.settings.map((setting) => liveVolts(circuit, ports, setting));
    this.positions = lives.flatMap((live, number) => offs(circuit, live).map((off) => [number, off]));
    this.live = this.positions.map(
      ([number]) => new Set(liveSupplies(circuit, lives[number]).map(([place]) => place)),
    );
    this.fed = this.live.map((places) => places.size > 0);
    this.unplugged = new Map();
    this.driven = this.positions.map(([number, off]) => driveValues(circuit, lives[number], CORNER, off));
  }

  /* Volts of every large capacitor in every position, fully plugged in every way, with nothing plugged, with one joint after
     the other left open, and these again as long as what hangs in the air is without charge, where that is another:
     [capacitor][position][homes + 1 + joints ...]. */
  settled() {
    const { circuit, apart, home, halves } = this.assembly,
      states = [...home, apart, ...halves],
      numbers = [...this.large.values()];
    const found = solveDc(circuit, this.driven, states),
      atOnce = shared(found, states) || found,
      still = idle(circuit, states);
    const volts = numbers.map((i) => everywhere(found, partVolts(found, i)));
    const soon = numbers.map((i) =>
      everywhere(atOnce, partVolts(atOnce, i)).map((row) => row.map((one, s) => (still[s].has(i) ? 0 : one))),
    );
    const other = states
      .map((_, s) => s)
      .slice(states.length - halves.length)
      .filter((s) =>
        soon.some((rows, k) => rows.some((row, p) => Math.abs(row[s] - volts[k][p][s]) >= LEAST_CHARGE)),
      );
    return volts.map((rows, k) => rows.map((row, p) => [...row, ...other.map((s) => soon[k][p][s])]));
  }

  /* The size at a limit with nothing plugged in, once settled. */
  alone(position, place, limit) {
    const { circuit, apart } = this.assembly;
    if (!this.unplugged.has(position))
      this.unplugged.set(position, solveDc(circuit, [this.driven[position]], [apart]));
    const solution = this.unplugged.get(position),
      read = limitValues(solution, place, limit);
    return most(everywhere(solution, (...which) => heldAgainst(limit, read(...which))));
  }

  /* Values of the struck circuit's parts in a position: behind every capacitor a contact, or a step over its capacitance. */
  row(position, step = 0) {
    const { parts, index } = this.assembly.circuit,
      farads = (i) => parts[i].value.nominal;
    const behind = new Map(
      [...this.large].map(([name, i]) => [name + CONTACT, step ? step / farads(i) : CONTACT_OHM]),
    );
    return Float64Array.from(this.circuit.parts, ({ id }) => {
      if (this.large.has(id)) return 0;
      return behind.has(id) ? behind.get(id) : this.driven[position][index.get(id)];
    });
  }

  /* Solve with the capacitors at `held` volts, [capacitor][row][state]. */
  solve(rows, held, closed) {
    const volts = new Map([...this.large.keys()].map((name, k) => [this.circuit.index.get(name), held[k]]));
    return solveDc(this.circuit, rows, closed, volts);
  }

  /* What lies across every large capacitor, [capacitor][row][state]. */
  volts(solution) {
    const { ends } = this.assembly.circuit;
    return [...this.large.values()].map((i) =>
      everywhere(solution, nodeVolts(solution, ...ends[i].map(netName))),
    );
  }
};

/* The circuit with every large capacitor as an emf behind a resistance, and the small ones left out. */
function struckCircuit(circuit, large) {
  const ohm = CONTACT_OHM,
    contact = { nominal: ohm, low: ohm, high: ohm, unit: "ohm", text: "" };
  const charged = [...large].flatMap(([name, i]) => {
    const part = circuit.parts[i],
      [a, b] = circuit.ends[i].map(netName),
      behind = name + CONTACT;
    return [
      { ...part, kind: "emf", a: behind, b },
      { ...part, id: behind, kind: "resistor", a, b: behind, value: contact },
    ];
  });
  return rebuilt(circuit, (part) => part.kind !== "capacitor", charged);
}

/* Every first instant of every setting that feeds anything. Plugging in: all states, charged with nothing or with one joint
   less plugged. Pulling out: all states, charged as fully plugged. Switching: the settled states, charged as before the
   switch; it belongs to the setting with more supplies on. Each is {setting, driven, moment, before, charges, live, solution, measured}:
   the setting it belongs to, the position of the supplies now, plugging or switching, the position and state (number of one of
   `settled`) in which the capacitors were charged, V by part id, places whose supplies are on now; the solution has one
   drive; `measured` keeps what was read here. */
export function instants(capacitors) {
  const { large, fed, positions, live, assembly } = capacitors;
  if (!large.size || !fed.includes(true)) return [];
  const levels = capacitors.settled(),
    [[each]] = levels;
  const plugged = fed.flatMap((one, number) =>
    one ? each.map((_, state) => [number, positions[number][0], [number, state]]) : [],
  );
  // Settings come with everything on first, so the first of two has more on.
  const switched = switchings(capacitors)
    .filter(([one, other]) => fed[one] || fed[other])
    .flatMap(([one, other]) =>
      [
        [one, other],
        [other, one],
      ].map(([driven, before]) => [driven, positions[one][0], [before, 0]]),
    );
  const found = [];
  const volts = ([, , [position, state]]) => levels.map((each) => each[position][state]);
  for (const [moment, every, states] of [
    ["plugging", plugged, assembly.states],
    ["switching", switched, assembly.settled],
  ]) {
    const asked = apart(every, volts);
    const held = levels.map((_, k) => asked.map((one) => states.map(() => volts(one)[k])));
    const solution = capacitors.solve(
      asked.map(([driven]) => capacitors.row(driven)),
      held,
      states,
    );
    for (const [row, [driven, setting, before]] of asked.entries()) {
      const charges = new Map([...large.keys()].map((name, k) => [name, volts(asked[row])[k]]));
      found.push({
        setting,
        driven,
        moment,
        before,
        charges,
        live: live[driven],
        solution: drivesOf(solution, row, row + 1),
        measured: new Map(),
      });
    }
  }
  return found;
}

/* What is asked, without what is struck as another was, with capacitors charged alike; of these the first. */
function apart(asked, volts) {
  const found = new Map();
  for (const one of asked) {
    const [driven, setting] = one,
      key = [driven, setting, ...volts(one)].join();
    if (!found.has(key)) found.set(key, one);
  }
  return [...found.values()];
}

/* Pairs of positions that differ in one switch; what is off in both is so in the same kind. */
function switchings({ settings, positions }) {
  const differ = (one, other) =>
    [...one.keys()].filter((key) => one.get(key) !== other.get(key)).length === 1;
  const apart = ([one, off], [other, kind]) =>
    differ(settings[one], settings[other]) && (off === kind || !off || !kind);
  return positions.flatMap((first, one) =>
    [...positions.keys()]
      .slice(one + 1)
      .filter((other) => apart(first, positions[other]))
      .map((other) => [one, other]),
  );
}

const charged = ([, volts]) => Math.abs(volts) >= LEAST_CHARGE;

/* Where a number of an instant stands. */
export const struckAt = ({ before, driven }, state, decides) =>
  at("instant", state, decides, { before, driven });

/* What the capacitors hold, as terms of a reading. */
export const struckTerms = (struck) =>
  [...struck.charges].filter(charged).map(([name, volts]) => [`${name} charged to`, volts, "V"]);

/* The size at a limit in an instant, [row][state]: volts between its nodes, or amps through its part. */
export function atLimit({ circuit }, solution, place, limit) {
  const at = decides(place, limit),
    { index, nets } = solution.circuit;
  const told = (read) => everywhere(solution, read);
  if (limit.quantity === "amps") {
    const read = index.has(at) ? partAmps(solution, index.get(at)) : () => 0;
    return told((...which) => Math.abs(read(...which)));
  }
  const ends = Array.isArray(at) ? at.map((node) => net(circuit, node)) : circuit.ends[circuit.index.get(at)];
  if (!ends || !ends.every((net) => nets.has(netName(net)))) return told(() => 0); // only small capacitors lead there
  const read = nodeVolts(solution, ...ends.map(netName));
  return told((...which) => heldAgainst(limit, read(...which)));
}

/* What comes after an instant in one settled state, followed as far as somebody asks: a function that gives the end of a step of STEPS. */
export function afterwards(capacitors, struck, state) {
  const closed = [capacitors.assembly.settled[state]],
    solutions = [];
  let held = [...struck.charges.values()].map((volts) => [[volts]]);
  return function (number) {
    while (solutions.length <= number) {
      const row = capacitors.row(struck.driven, STEPS[solutions.length]);
      solutions.push(capacitors.solve([row], held, closed));
      held = capacitors.volts(solutions.at(-1));
    }
    return solutions[number];
  };
}

/* How long after the instant a limit stays passed, s; 0 if it falls below within MOMENT. */
export function secondsBeyond(assembly, after, place, limit, rating) {
  let passed = 0;
  for (const [number, step] of STEPS.entries()) {
    if (atLimit(assembly, after(number), place, limit)[0][0] <= rating) break;
    passed += step;
  }
  return passed >= MOMENT * 0.99 ? passed : 0;
}
