/* Direct-current readings: every supply setting, tolerance corner, landing and plugging state of an assembly. The twin of
   direct.py. */

import { group } from "./assemble.js";
import { MORE, RESIDUE } from "./constants.js";
import { everywhere, largestAt, mostAt, most as mostOf, nodeVolts, partAmps } from "./currents.js";
import { shared } from "./hanging.js";
import { once, remembered } from "./kept.js";
import { CLOSURE } from "./kinds.js";
import { heldAgainst, limitValues, partIndex, stress as stressOf } from "./limits.js";
import { meeting } from "./meeting.js";
import { isPort } from "./network.js";
import { Named, reading, at as whereAt } from "./readings.js";
import { drivesOf, solveDc, statesOf } from "./solve.js";
import { liveSupplies, liveVolts, placeOf, settings, stacked, supplySwitches } from "./switches.js";
import { quantity } from "./words.js";

/* All readings of every setting; `signals` tells what signal at its loudest adds to a part. */
export function* directReadings(assembly, signals) {
  const { circuit, ports, states } = assembly,
    wanted = settings(ports),
    numbers = 4 * wanted.length * circuit.size * states.length;
  for (const setting of once(assembly, "settings", () => solveSettings(assembly, wanted), numbers)) {
    yield* stress(assembly, setting, signals);
    yield* needs(assembly, setting);
    const { measured } = setting;
    yield* remembered(measured, "supplies", () => [...supplies(assembly, setting)]);
    yield* remembered(measured, "windings", () => [...windings(assembly, setting)]);
  }
}

/* Every wanted setting in every state, all of them in one solve: {number, live, places, solution, apart, hung, at, located, measured}, the supplies that
   are on as [place, part number] and where they are, the solution, the same with nothing plugged in, and both where hanging pieces have
   shared their charge (null where none hang); `at` says where the largest of numbers [drive][state from `from` on] stands, read at
   `decides`, and `located` the same for one of them, `moved` of (drive, state) telling which are shared; `measured` keeps what was read here. */
function solveSettings(assembly, wanted) {
  const { circuit, ports, states } = assembly,
    { values, each } = stacked(circuit, ports, wanted);
  const closed = [...states, assembly.apart],
    solution = solveDc(circuit, values, closed),
    hanging = shared(solution, closed);
  const parted = (some) => [statesOf(some, 0, states.length), statesOf(some, states.length)];
  let start = 0;
  return wanted.map((setting, number) => {
    const drives = each[number],
      first = start,
      mine = (whole) => parted(drivesOf(whole, first, first + drives.length));
    start += drives.length;
    const live = liveSupplies(circuit, liveVolts(circuit, ports, setting));
    const located = function ([drive, state], decides, from = 0, moved = () => false) {
      const [corner, off] = drives[drive];
      return whereAt("direct", state + from, decides, { corner, off, shared: moved(drive, state + from) });
    };
    const at = (numbers, decides, from) => located(largestAt(numbers), decides, from);
    const [plugged, apart] = mine(solution),
      places = new Set(live.map(([place]) => place));
    const hung = hanging && mine(hanging);
    return { number, live, places, at, located, solution: plugged, apart, hung, measured: new Map() };
  });
}

/* Is a supply on anywhere but at this place? */
const elsewhere = ({ places }, place) => places.size > Number(places.has(place));

/* What every rated part sees, settled and while plugging: direct current and all signals at their loudest together. A rating
   that is not known counts where another's supply or signal reaches the part, and where the connection makes a device's own do
   more to it. */
function* stress(assembly, setting, signals) {
  const settled = assembly.settled.length,
    { number } = setting;
  for (const [place, record] of assembly.places) {
    for (const limit of record.network.limits) {
      for (const [state, start, stop] of [
        ["settled", 0, settled],
        ["plugging", settled, assembly.states.length],
      ]) {
        if (start === stop) continue;
        const { most, alone, where } = remembered(
          setting.measured,
          `${place} ${limit.id} ${limit.settled === null} ${state}`,
          () => measured(setting, place, limit, start, stop),
        );
        const [signal, loud] = signals.peak(place, limit, state, number);
        const rating = state === "settled" ? limit.settled : limit.momentary;
        const own = setting.places.has(place) && most > MORE * alone + RESIDUE;
        if (rating === null && !(signal > RESIDUE || elsewhere(setting, place) || own)) continue;
        const at = signal > most ? loud : where;
        const unit = { watts: "W", amps: "A" }[limit.quantity] || "V",
          peak = unit === "W" ? "" : ", peak";
        const terms = [
          ["direct current", most, unit],
          [`all signals at their loudest${peak}`, signal, unit],
        ];
        yield stressOf(
          place,
          record,
          limit,
          rating,
          most + signal,
          state,
          number,
          at,
          signal > RESIDUE ? terms : [],
        );
      }
    }
  }
}

/* The most at a limit in some states, with nothing plugged in, and where it stands. */
function measured(setting, place, limit, start, stop) {
  const { read, alone, moved } = held(setting, place, limit),
    { most, at } = mostAt(setting.solution, read, start, stop);
  return { most, alone, where: setting.located(at, "", start, moved) };
}

/* The size at a limit of (drive, state), the most with nothing plugged in, and which sizes are those of charge that is shared, being
   larger. */
function held(setting, place, limit) {
  const size = function (solution) {
    const read = limitValues(solution, place, limit);
    return (...which) => heldAgainst(limit, read(...which));
  };
  const most = (read) => mostOf(everywhere(setting.apart, read));
  const plain = size(setting.solution),
    alone = most(size(setting.apart));
  // No current flows through what hangs.
  if (setting.hung === null || !["volts", "reverse"].includes(limit.quantity))
    return { read: plain, alone, moved: () => false };
  const [hung, hungAlone] = setting.hung.map(size);
  return {
    read: (...which) => Math.max(plain(...which), hung(...which)),
    alone: Math.max(alone, most(hungAlone)),
    moved: (...which) => hung(...which) > plain(...which),
  };
}

/* The volts left at whatever has to be powered: the least over corners, landings and earths. A need belongs to the channel it
   shares its circuit with: a microphone nobody listens to may stay without. `way` tells needs of the direction that was asked
   about from those of the way back; `all` whether nothing at this place is powered; `ever` whether it is enough at the best
   corner, however the plug has landed. */
function* needs(assembly, setting) {
  for (const [side, other] of [
    ["from", "into"],
    ["into", "from"],
  ]) {
    for (const place of group(assembly, side)) {
      const port = assembly.places.get(place),
        device = new Named(place),
        found = [];
      for (const need of port.needs) {
        const sends = port.sources.some((source) => circuitOf(source.id) === circuitOf(need.id));
        if (sends && !assembly.places.get(other).listeners.length) continue;
        const nodes = need.between.map((node) => `${place}/${node}`),
          read = nodeVolts(setting.solution, ...nodes);
        const below = (...which) => (Math.abs(read(...which)) > RESIDUE ? -read(...which) : 0);
        const lacks = everywhere(setting.solution, below, 0, assembly.settled.length),
          volts = -mostOf(lacks),
          enough = lacks[0].every((_, state) => lacks.some((drive) => -drive[state] >= need.least));
        const way = wayOf(assembly, sends ? side : other);
        found.push({ need, volts, way, ever: enough ? "yes" : "no", at: setting.at(lacks, nodes) });
      }
      const all = found.every(({ need, volts }) => volts < need.least) ? "yes" : "no";
      for (const { need, volts, way, ever, at } of found) {
        const { where, evidence } = need,
          told = (quantity, limit, words, flags) =>
            reading(quantity, `${place}/${need.id}`, where, volts, "V", "settled", {
              setting: setting.number,
              limit,
              evidence,
              words: { device, part: where, ...words },
              flags: { way, ...flags },
              at,
            });
        if (need.full && volts >= need.least) yield told("starved-volts", need.full);
        yield told("supplied-volts", need.least, { window: window(port, need) }, { all, ever });
      }
    }
  }
}

/* `needs 24 V or more`, or `works from 10.5 V to 17 V` where it is known what may lie there at most. */
function window(port, need) {
  const between = (limit) => limit.between && limit.between.join() === need.between.join();
  const most = port.network.limits.find((limit) => limit.quantity === "volts" && between(limit));
  const least = quantity(need.least, "V");
  return !most || most.settled === null
    ? `needs ${least} or more`
    : `works from ${least} to ${quantity(most.settled, "V")}`;
}

const circuitOf = (id) => id.split(".")[0];

/* `forth` for what From sends, `back` for what comes back; a connection with nothing to send is asked about what comes back. */
export function wayOf(assembly, side) {
  const from = assembly.places.get("from"),
    into = assembly.places.get("into");
  return side === (from.sources.length && into.listeners.length ? "from" : "into") ? "forth" : "back";
}

/* Current pushed back into a supply, and the surge a supply gives while plugging beyond what it gives settled. A supply that is
   off has an inside too: what is pushed into its rail counts alike. */
function* supplies(assembly, setting) {
  const {
      circuit,
      settled: { length: settled },
    } = assembly,
    { solution, number } = setting;
  const live = new Set(setting.live.map(([, i]) => i));
  for (const [i, part] of circuit.parts.entries()) {
    if (part.kind !== "emf" || !part.value.nominal || !(live.has(i) || part.supply)) continue;
    const place = placeOf(part),
      record = assembly.places.get(place),
      sign = Math.sign(part.value.nominal);
    const read = partAmps(solution, i),
      back = (...which) => read(...which) * sign,
      out = (...which) => -back(...which);
    const supply = isPort(record) && record.supplies.find(({ id }) => id === part.supply);
    const name = supply ? supply.name : "supply",
      words = { device: new Named(place), part: name };
    const home = everywhere(solution, back, 0, settled);
    yield reading("supply-fed-amps", part.id, name, Math.max(0, mostOf(home)), "A", "settled", {
      setting: number,
      words,
      flags: { live: live.has(i) ? "yes" : "no" },
      at: setting.at(home, part.id),
    });
    if (!live.has(i) || assembly.states.length === settled) continue;
    const moving = everywhere(solution, out, settled),
      most = mostOf(moving);
    const once = Math.max(0, mostOf(everywhere(solution, out, 0, settled)));
    const at = setting.at(moving, part.id, settled),
      meets = meeting(assembly, at.state - settled);
    yield reading("surge-amps", part.id, name, Math.max(0, most - once), "A", "plugging", {
      setting: number,
      words: { ...words, meets },
      at,
      terms: [
        ["most while plugging", most, "A"],
        ["most once home", once, "A"],
      ],
    });
  }
}

/* Direct current through coils and ribbons, and into the stages that drive an output. */
function* windings(assembly, setting) {
  const { circuit, settled } = assembly,
    on = (place, supply) =>
      setting.live.some(([there, i]) => there === place && circuit.parts[i].supply === supply);
  const pair = supplySwitches(assembly.ports).some(
    ({ places, supply, style }) => style === "pair" && places.some((place) => on(place, supply)),
  );
  const flags = { feed: pair ? "pair" : "single" };
  for (const [place, record] of assembly.places) {
    if (!elsewhere(setting, place)) continue;
    const driving = new Set(
      (record.sources || [])
        .filter(({ kind }) => kind !== CLOSURE)
        .flatMap(({ drive }) => Object.keys(drive)),
    );
    const coils = record.network.parts.some((part) => part.coil);
    for (const part of record.network.parts) {
      const index = partIndex(circuit, place, part.id),
        stage = driving.has(part.id) && part.kind === "emf";
      if (index === undefined || !(part.coil || (stage && !coils))) continue;
      const read = partAmps(setting.solution, index);
      const amps = everywhere(setting.solution, (...which) => Math.abs(read(...which)), 0, settled.length);
      const [quantity, name] = part.coil ? ["coil-amps", part.coil] : ["output-fed-amps", "output stage"];
      yield reading(quantity, `${place}/${part.id}`, name, mostOf(amps), "A", "settled", {
        setting: setting.number,
        words: { device: new Named(place), part: name },
        flags,
        at: setting.at(amps, `${place}/${part.id}`),
      });
    }
  }
}
