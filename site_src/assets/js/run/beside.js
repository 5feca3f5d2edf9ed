/* What is near the run: mains cables, transformers and motors, transmitters. */

import { LIES, LIMITS } from "../interference/address.js";
import { choice, group, number, remove } from "./fields.js";

const said = (words) => [words, words];
export const all = (words) => words.map(said);
export const cm = 0.01;
export const named = (table) => Object.entries(table).map(([id, row]) => [id, row.name]);

export function beside(run, tables, change) {
  const rows = run.beside.flatMap((one, i) => [
    choice(
      `cable ${i + 1}`,
      named(tables.mains),
      one.cable,
      (cable) =>
        change((it) => {
          it.beside[i].cable = cable;
        }),
      true,
    ),
    choice("what hangs on it", named(tables.loads), one.load, (load) =>
      change((it) => {
        it.beside[i].load = load;
      }),
    ),
    number("carries", "A", 1, [0.001, tables.mains[one.cable].carries], one.amps, (amps) =>
      change((it) => {
        it.beside[i].amps = amps;
      }),
    ),
    number(
      "apart",
      "cm",
      cm,
      LIMITS.distance,
      one.distance,
      (value) =>
        change((it) => {
          it.beside[i].distance = value;
        }),
      0.01,
    ),
    number("alongside for", "m", 1, LIMITS.along, one.along, (value) =>
      change((it) => {
        it.beside[i].along = value;
      }),
    ),
    choice("lies", all(LIES), one.lies, (lies) =>
      change((it) => {
        it.beside[i].lies = lies;
      }),
    ),
    remove("Take it away", () =>
      change((it) => {
        it.beside.splice(i, 1);
      }, true),
    ),
  ]);
  const more = remove("A mains cable near it", () =>
    change((it) => {
      it.beside.push({ cable: "flex", load: "unknown", amps: 0, distance: 0.1, along: 0, lies: "alongside" });
    }, true),
  );
  return group(
    "Mains cables",
    run.beside.length ? `${run.beside.length} near it` : "none near it",
    false,
    ...rows,
    more,
  );
}

export function near(run, tables, change) {
  const rows = run.things.flatMap((one, i) => [
    choice(
      `thing ${i + 1}`,
      named(tables.things),
      one.thing,
      (thing) =>
        change((it) => {
          it.things[i].thing = thing;
        }),
      true,
    ),
    number(
      "apart",
      "cm",
      cm,
      LIMITS.distance,
      one.distance,
      (value) =>
        change((it) => {
          it.things[i].distance = value;
        }),
      one.distance,
    ),
    remove("Take it away", () =>
      change((it) => {
        it.things.splice(i, 1);
      }, true),
    ),
  ]);
  const more = remove("A transformer or motor near it", () =>
    change((it) => {
      it.things.push({ thing: "mains-transformer", distance: 0.3 });
    }, true),
  );
  return group(
    "Transformers and motors",
    run.things.length ? `${run.things.length} near it` : "none near it",
    false,
    ...rows,
    more,
  );
}

export function radio(run, tables, change) {
  const rows = run.transmitters.flatMap((one, i) => [
    choice(
      `transmitter ${i + 1}`,
      named(tables.transmitters),
      one.transmitter,
      (value) =>
        change((it) => {
          it.transmitters[i].transmitter = value;
        }),
      true,
    ),
    number(
      "away",
      "m",
      1,
      LIMITS.far,
      one.distance,
      (value) =>
        change((it) => {
          it.transmitters[i].distance = value;
        }),
      one.distance,
    ),
    number("power", "W", 1, LIMITS.watts, one.watts, (value) =>
      change((it) => {
        it.transmitters[i].watts = value;
      }),
    ),
    remove("Take it away", () =>
      change((it) => {
        it.transmitters.splice(i, 1);
      }, true),
    ),
  ]);
  const more = remove("A transmitter near it", () =>
    change((it) => {
      it.transmitters.push({ transmitter: "phone", distance: 1, watts: 0 });
    }, true),
  );
  const said = run.transmitters.length ? `${run.transmitters.length} near it` : "none near it";
  const chokes = Object.values(tables.chokes).map(({ ohm, name }) => [String(ohm), name]),
    none = ["0", "none"],
    own = [String(run.ferrite), "another, by its ohms"];
  const listed = [none, ...chokes].some(([ohm]) => ohm === own[0]) ? [] : [own];
  return group(
    "Radio",
    said,
    false,
    ...rows,
    more,
    choice("ferrite at the input", [none, ...chokes, ...listed], own[0], (ohm) =>
      change((it) => {
        it.ferrite = Number(ohm);
      }, true),
    ),
    number("its ohms at the transmitter", "Ω", 1, LIMITS.ferrite, run.ferrite, (value) =>
      change((it) => {
        it.ferrite = value;
      }, true),
    ),
  );
}
