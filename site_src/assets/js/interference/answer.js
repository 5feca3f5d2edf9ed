"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* The paths weighed against what is wanted, the noise and the ear. The twin of answer.py. */
(function (runs) {
  const ONLY_AT_WORST = ["drain"];
  runs.SAID = ["inaudible", "in the noise", "under the voice", "in pauses", "unusable"];

  runs.answer = function (run, tables) {
    const guesses = runs.guesses(run, tables), spectra = tables.spectra[String(run.hertz)];
    const three = runs.ENDS.map((end) => runs.numbers(run, tables, end, guesses)), found = three.map((n) => runs.paths(n, spectra, run.hertz));
    const sums = found.map(sum), middle = three[runs.TYPICAL];
    const paths = Object.fromEntries(runs.PATHS.map((name) => [name, level(found.map((lines) => lines[name]), three, tables)]));
    const heard = three.map((n, end) => said(sums[end], n, tables));
    let dominant = null;
    for (const name of runs.PATHS) {
      const typical = paths[name].weighted[runs.TYPICAL];
      if (!ONLY_AT_WORST.includes(name) && typical > 0 && (dominant === null || typical > paths[dominant].weighted[runs.TYPICAL])) dominant = name;
    }
    return {
      paths, total: level(sums, three, tables), dominant, said: heard[1], best: heard[0], worst: heard[2],
      loudest: loudest(sums[1], middle.wanted, tables), wanted: three.map((n) => n.wanted), noise: three.map((n) => n.noise),
      balanced: middle.balanced, closed: middle.closed, inRange: middle.inRange, floating: middle.chassis.farad > 0,
      radio: runs.radio(run, tables, middle.balanced), guesses: Object.values(guesses.used),
    };
  };

  /* Weighted volts of everything at the three ends. */
  runs.totalHeard = (run, tables) => runs.ENDS.map((end) =>
    weighted(sum(runs.paths(runs.numbers(run, tables, end), tables.spectra[String(run.hertz)], run.hertz), end)));

  /* All paths together, line by line: roots of squares, at the loud end sums. */
  function sum(found, end) {
    const counted = runs.PATHS.filter((name) => end === runs.LOUD || !ONLY_AT_WORST.includes(name)).map((name) => found[name]);
    const every = [...new Set(counted.flatMap((lines) => [...lines.keys()]))].sort((one, other) => one - other);
    return new Map(every.map((f) => [f, runs.together(counted.filter((lines) => lines.has(f)).map((lines) => lines.get(f)), end === runs.LOUD)]));
  }

  const weighted = (lines) => runs.together([...lines].map(([f, volts]) => volts * runs.fromDb(runs.weighting(f))));
  const floorOf = (n, tables) => n.noise * runs.fromDb(tables.hearing.noise_weighting.value);

  function level(lines, three, tables) {
    const volts = lines.map((one) => runs.together([...one.values()])), heard = lines.map(weighted);
    return {
      volts, weighted: heard, below: three.map((n, end) => (volts[end] ? runs.db(n.wanted / volts[end]) : null)),
      noise: three.map((n, end) => runs.db(heard[end] / floorOf(n, tables))),
    };
  }

  const room = (hertz, tables) => tables.hearing.voice.value - runs.threshold(hertz, tables.hearing.threshold.points);

  /* The line that stands furthest above the threshold, Hz; 0 where there is none. */
  function loudest(lines, wanted, tables) {
    let most = 0, height = -Infinity;
    for (const [f, volts] of lines) {
      const over = runs.db(volts / wanted) + room(f, tables);
      if (over > height) [most, height] = [f, over];
    }
    return most;
  }

  function said(lines, n, tables) {
    const over = runs.db(weighted(lines) / floorOf(n, tables)), margin = tables.hearing.margin.value;
    if (over === null || over < -margin) return "inaudible";
    if (over <= margin) return "in the noise";
    if (runs.db(n.wanted / Math.hypot(...lines.values())) < tables.hearing.unusable.value) return "unusable";
    const most = loudest(lines, n.wanted, tables);
    return runs.db(lines.get(most) / n.wanted) + room(most, tables) > 0 ? "in pauses" : "under the voice";
  }
})(Ringfence.interference);
