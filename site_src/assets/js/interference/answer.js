/* The paths weighed against what is wanted, the noise and the ear. The twin of answer.py. */

import { db, fromDb, together } from "./formulas/basics.js";
import { threshold, weighting } from "./formulas/hearing.js";
import { guesses as guessesOf } from "./guesses.js";
import { ENDS, LOUD, numbers, TYPICAL } from "./numbers.js";
import { PATHS, paths as pathsOf } from "./paths.js";
import { radio } from "./radio.js";

const ONLY_AT_WORST = ["drain"];
export const SAID = ["inaudible", "in the noise", "under the voice", "in pauses", "unusable"];

export function answer(run, tables) {
  const guesses = guessesOf(run, tables),
    spectra = tables.spectra[String(run.hertz)];
  const three = ENDS.map((end) => numbers(run, tables, end, guesses)),
    found = three.map((n) => pathsOf(n, spectra, run.hertz));
  const sums = found.map(sum),
    middle = three[TYPICAL];
  const paths = Object.fromEntries(
    PATHS.map((name) => [
      name,
      level(
        found.map((lines) => lines[name]),
        three,
        tables,
      ),
    ]),
  );
  const heard = three.map((n, end) => said(sums[end], n, tables));
  let dominant = null;
  for (const name of PATHS) {
    const typical = paths[name].weighted[TYPICAL];
    if (
      !ONLY_AT_WORST.includes(name) &&
      typical > 0 &&
      (dominant === null || typical > paths[dominant].weighted[TYPICAL])
    )
      dominant = name;
  }
  return {
    paths,
    total: level(sums, three, tables),
    dominant,
    said: heard[1],
    best: heard[0],
    worst: heard[2],
    loudest: loudest(sums[1], middle.wanted, tables),
    wanted: three.map((n) => n.wanted),
    noise: three.map((n) => n.noise),
    balanced: middle.balanced,
    closed: middle.closed,
    inRange: middle.inRange,
    floating: middle.chassis.farad > 0,
    radio: radio(run, tables, middle.balanced),
    guesses: Object.values(guesses.used),
  };
}

/* Weighted volts of everything at the three ends. */
export const totalHeard = (run, tables) =>
  ENDS.map((end) =>
    weighted(sum(pathsOf(numbers(run, tables, end), tables.spectra[String(run.hertz)], run.hertz), end)),
  );

/* All paths together, line by line: roots of squares, at the loud end sums. */
function sum(found, end) {
  const counted = PATHS.filter((name) => end === LOUD || !ONLY_AT_WORST.includes(name)).map(
    (name) => found[name],
  );
  const every = [...new Set(counted.flatMap((lines) => [...lines.keys()]))].sort((one, other) => one - other);
  return new Map(
    every.map((f) => [
      f,
      together(
        counted.filter((lines) => lines.has(f)).map((lines) => lines.get(f)),
        end === LOUD,
      ),
    ]),
  );
}

const weighted = (lines) => together([...lines].map(([f, volts]) => volts * fromDb(weighting(f))));
const floorOf = (n, tables) => n.noise * fromDb(tables.hearing.noise_weighting.value);

function level(lines, three, tables) {
  const volts = lines.map((one) => together([...one.values()])),
    heard = lines.map(weighted);
  return {
    volts,
    weighted: heard,
    below: three.map((n, end) => (volts[end] ? db(n.wanted / volts[end]) : null)),
    noise: three.map((n, end) => db(heard[end] / floorOf(n, tables))),
  };
}

const room = (hertz, tables) =>
  tables.hearing.voice.value - threshold(hertz, tables.hearing.threshold.points);

/* The line that stands furthest above the threshold, Hz; 0 where there is none. */
function loudest(lines, wanted, tables) {
  let most = 0,
    height = -Infinity;
  for (const [f, volts] of lines) {
    const over = db(volts / wanted) + room(f, tables);
    if (over > height) [most, height] = [f, over];
  }
  return most;
}

function said(lines, n, tables) {
  const over = db(weighted(lines) / floorOf(n, tables)),
    margin = tables.hearing.margin.value;
  if (over === null || over < -margin) return "inaudible";
  if (over <= margin) return "in the noise";
  if (db(n.wanted / Math.hypot(...lines.values())) < tables.hearing.unusable.value) return "unusable";
  const most = loudest(lines, n.wanted, tables);
  return db(lines.get(most) / n.wanted) + room(most, tables) > 0 ? "in pauses" : "under the voice";
}
