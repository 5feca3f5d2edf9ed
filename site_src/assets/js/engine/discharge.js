/* Readings of charged capacitors: what they put on every rated part in the first instant, what stays beyond a rating for seconds,
   what they give when emptied, how long they take to settle. The twin of discharge.py. */

import { netName, pieces, resistive, SIGNAL_OPENS, valuesAt } from "./circuit.js";
import { ALIKE, LEAST_CHARGE, MORE, NOTICED } from "./constants.js";
import { everywhere, largestAt, partAmps, signalVolts, size } from "./currents.js";
import {
  afterwards,
  atLimit,
  Capacitors,
  instants,
  secondsBeyond,
  struckAt,
  struckTerms,
} from "./instants.js";
import { once, remembered } from "./kept.js";
import { stress } from "./limits.js";
import { at, Named, partName, reading } from "./readings.js";
import { solveAc } from "./solve.js";
import { supplySwitches } from "./switches.js";

/* What capacitors bring to rated parts in the first instant and for seconds after; peak current (A) with charge and energy of
   every one that a supply charges; and the time (s) the slowest takes to settle. */
export function* dischargeReadings(assembly) {
  const { capacitors, struck: all } = once(
    assembly,
    "instants",
    () => charged(assembly),
    numbersOf(assembly),
  );
  for (const struck of all) {
    for (const [place, record] of assembly.places) {
      // Heat takes longer than an instant.
      const limits = record.network.limits.filter(({ quantity }) => quantity !== "watts");
      for (const limit of limits) yield* passed(capacitors, struck, place, record, limit);
    }
    yield* remembered(struck.measured, "emptied", () => [...givenOff(assembly, struck)]);
  }
}

/* How many numbers that comes to, about: for every position as many as states of charging. */
const numbersOf = ({ circuit, states, home, halves }) =>
  4 * circuit.size * states.length * (home.length + 1 + halves.length);

function charged(assembly) {
  const capacitors = new Capacitors(assembly);
  return { capacitors, struck: instants(capacitors) };
}

/* What the capacitors give that were charged fully plugged, and how long that takes. */
function* givenOff(assembly, struck) {
  if (struck.moment !== "plugging" || struck.before[1] >= assembly.home.length) return; // not fully plugged
  yield* emptied(assembly, struck);
  const charges = new Map([...struck.charges].filter(([, volts]) => Math.abs(volts) >= LEAST_CHARGE));
  if (charges.size) yield slowest(assembly, charges, struck.setting);
}

/* What passes a rating: what it stands for a moment at once, or what it stands for seconds and longer than a moment. A rating
   that is not known counts where a supply elsewhere is on, and where the connection makes the device's own do more to it. */
function* passed(capacitors, struck, place, record, limit) {
  const { assembly } = capacitors,
    { momentary, seconds: lasting } = limit,
    name = `${place} ${limit.id} ${limit.settled === null}`,
    { sizes, state, most } = remembered(struck.measured, name, () => worst(assembly, struck, place, limit));
  const told = (rating, value, at, words) =>
    stress(
      place,
      record,
      limit,
      rating,
      value,
      struck.moment,
      struck.setting,
      struckAt(struck, at, ""),
      struckTerms(struck),
      words,
    );
  const elsewhere = struck.live.size > Number(struck.live.has(place));
  const acts = () => elsewhere || most > MORE * capacitors.alone(struck.driven, place, limit) + NOTICED;
  if (momentary === null ? most > NOTICED && acts() : most > momentary) {
    yield told(momentary, most, state);
    return;
  }
  if (momentary === null || lasting === null) return;
  const beyond = [...sizes.slice(0, assembly.settled.length).entries()].filter(([, size]) => size > lasting);
  const after = (at) => remembered(struck.measured, `after ${at}`, () => afterwards(capacitors, struck, at));
  const taken = beyond.map(([at]) =>
    remembered(struck.measured, `${name} ${at} ${lasting}`, () =>
      secondsBeyond(assembly, after(at), place, limit, lasting),
    ),
  );
  const seconds = Math.max(0, ...taken);
  if (!seconds) return;
  const [at, size] = beyond[taken.indexOf(seconds)];
  const reading = told(lasting, size, at, { seconds, supply: supplyOf(capacitors, struck) });
  yield { ...reading, quantity: reading.quantity.replace("part", "lasting") };
}

/* The sizes at a limit in every state, and the largest of them. */
function worst(assembly, { solution }, place, limit) {
  const [sizes] = atLimit(assembly, solution, place, limit),
    [state] = largestAt(sizes);
  return { sizes, state, most: sizes[state] };
}

/* The supplies that are on in a setting, in words. */
function supplyOf({ settings, assembly }, struck) {
  const on = supplySwitches(assembly.ports).filter(
    ({ key, states }) => settings[struck.setting].get(key) === states[0],
  );
  return on.map(({ name }) => name).join(" and ") || "the supply";
}

/* Every charged capacitor at the instant a contact closes on it. */
function* emptied(assembly, struck) {
  const {
      circuit,
      settled: { length: settled },
    } = assembly,
    { solution, setting } = struck;
  for (const [name, charge] of struck.charges) {
    if (Math.abs(charge) < LEAST_CHARGE) continue;
    const read = partAmps(solution, solution.circuit.index.get(name));
    const [amps] = everywhere(solution, (...which) => Math.abs(read(...which)), settled);
    const [state] = amps.length ? largestAt(amps) : [0],
      farads = circuit.parts[circuit.index.get(name)].value.nominal;
    const words = {
      ...wordsOf(assembly, name),
      energy: (farads * charge * charge) / 2,
      charge: Math.abs(charge),
    };
    yield reading("discharge-amps", name, words.part, amps.length ? amps[state] : 0, "A", "plugging", {
      setting,
      words,
      at: struckAt(struck, state + settled, name),
      terms: [[`${name} charged to`, charge, "V"]],
    });
  }
}

/* Five time constants of the charged capacitor that takes longest; of those alike, the first. */
function slowest(assembly, charges, setting) {
  const { circuit } = assembly,
    seconds = settling(assembly, charges),
    most = Math.max(0, ...seconds.values());
  const found = [...seconds.keys()].find((one) => seconds.get(one) >= most * (1 - ALIKE));
  const name = found || [...charges.keys()][0],
    index = circuit.index.get(name),
    words = wordsOf(assembly, name);
  const farads = circuit.parts[index].value.nominal,
    taken = seconds.get(name) || 0;
  return reading("settle-seconds", "connection", words.part, taken, "s", "plugging", {
    setting,
    words,
    at: taken ? at("test", 0, circuit.ends[index].map(netName)) : null,
    terms: [
      ["capacitance", farads, "F"],
      ["resistance it sees", taken / 5 / farads, "ohm"],
      ["charge", charges.get(name), "V"],
    ],
  });
}

/* Five time constants, s, of every charged capacitor that fills through resistance: Map by part id. */
function settling({ circuit, home }, charges) {
  const lean = resistive(circuit),
    piece = pieces(lean, home[0], SIGNAL_OPENS),
    { nets } = lean;
  const ends = (name) => circuit.ends[circuit.index.get(name)].map(netName);
  // Where only capacitors meet, or nothing leads round, a capacitor never fills through resistance.
  const names = [...charges.keys()]
    .filter((name) => ends(name).every((node) => nets.has(node)))
    .filter((name) => {
      const [a, b] = ends(name).map((node) => piece[nets.get(node)]);
      return a === b;
    });
  if (!names.length) return new Map();
  const values = valuesAt(lean, "nominal"),
    probes = names.map((name) => [[ends(name), -1]]);
  const [[[found]]] = solveAc(lean, [values], [0], home.slice(0, 1), probes);
  return new Map(
    names.map((name, i) => {
      const volts = signalVolts(found[i], ...ends(name).map((node) => nets.get(node)));
      return [name, 5 * circuit.parts[circuit.index.get(name)].value.nominal * size(volts)];
    }),
  );
}

function wordsOf(assembly, id) {
  const cut = id.indexOf("/"),
    place = id.slice(0, cut);
  return {
    device: new Named(place),
    part: partName(assembly.places.get(place), id.slice(cut + 1)) || "capacitor",
  };
}
