/* The guided search, as in generator/workshop/search.py: what is likely after the readings, and the measurement expected to tell most. */

import { apart, likelihood, typical } from "./likely.js";

const sum = (values) => values.reduce((all, one) => all + one, 0);
const scaled = (values) => values.map((one) => one / sum(values));
const bits = (p) => (p > 0 ? -p * Math.log2(p) : 0);

/* What a page holds -> a dictionary: classes as objects, `which[fault][measurement]` the number of a class. */
export function unpacked(data) {
  const classes = data.classes.map(([low, high, moves]) => ({
    low: low === null ? Infinity : low,
    high: high === null ? Infinity : high,
    moves: Boolean(moves),
  }));
  const names = (side) => side.map((terminal) => data.terminals[terminal]);
  const pairs = data.measurements.map((sides) => sides.map((side) => names(side).join("&")).join("-"));
  const count = pairs.length;
  const which = data.faults.map((_, f) =>
    Array.from({ length: count }, (__, m) => data.which.charCodeAt(f * count + m) - 48),
  );
  const answers = [...new Set(classes.map(typical))];
  const channel = classes.map((known) =>
    scaled(answers.map((answer) => likelihood(answer, known, data.rules))),
  );
  const doubt = channel.map((row) => sum(row.map(bits)));
  return { ...data, pairs, classes, which, channel, doubt };
}

/* Likelihoods before any reading: how common each fault is, and whether it explains what is heard. */
export function prior(known, heard) {
  const explains = heard && new Set(known.symptoms.find(({ id }) => id === heard)?.faults);
  return scaled(
    known.faults.map(({ weight }, f) => weight * (!explains || explains.has(f) ? 1 : known.rules.unheard)),
  );
}

/* After readings [measurement, answer]. */
export function posterior(known, prior, read) {
  return read.reduce((likely, [measurement, answer]) => {
    const fit = known.classes.map((one) => likelihood(answer, one, known.rules));
    return scaled(likely.map((share, f) => share * fit[known.which[f][measurement]]));
  }, prior);
}

function gain(known, likely, measurement) {
  const mass = new Array(known.classes.length).fill(0);
  likely.forEach((share, f) => {
    mass[known.which[f][measurement]] += share;
  });
  const heard = known.channel[0].map((_, answer) =>
    sum(mass.map((share, k) => share * known.channel[k][answer])),
  );
  return sum(heard.map(bits)) - sum(mass.map((share, k) => share * known.doubt[k]));
}

/* The measurement to make next, or null; `left` are those not to be asked for. */
export function best(known, likely, read, left) {
  const often = (measurement) => read.filter(([one]) => one === measurement).length;
  const seen = new Map();
  const most = Math.max(...likely);
  const clear = scaled(likely.map((share) => (share > most * 1e-6 ? share : 0)));
  const gains = known.pairs.map((_, m) => {
    if (left.includes(m) || often(m) >= known.rules.repeats) return 0;
    const column = known.which.map((row) => row[m]).join();
    if (!seen.has(column)) seen.set(column, gain(known, clear, m));
    return seen.get(column);
  });
  const best = Math.max(...gains);
  return best >= known.rules.nothing ? gains.findIndex((one) => one > best - 1e-9) : null;
}

const alike = (known, f, g) =>
  known.which[f].every(
    (k, m) =>
      k === known.which[g][m] || !apart(known.classes[k], known.classes[known.which[g][m]], known.rules),
  );

/* {named, sure, state}: state is measuring, named, found or cannot tell. */
export function ending(known, prior, likely, begun, following) {
  const { rules } = known;
  const most = Math.max(...likely);
  const top = likely.findIndex((share) => share >= most * (1 - 1e-9));
  const group = known.faults.map((_, f) => f).filter((f) => alike(known, top, f));
  const sure = sum(group.map((f) => likely[f]));
  const fits = likely.map((share, f) => share / prior[f]);
  const others = fits.filter((_, f) => !group.includes(f));
  if (sure >= rules.enough && others.every((fit) => fit <= rules.against * fits[top]))
    return { named: group, sure, state: "found" };
  if (following !== null)
    return { named: group, sure, state: sure >= rules.named && begun ? "named" : "measuring" };
  const still = known.faults.map((_, f) => f).filter((f) => fits[f] >= rules.against * fits[top]);
  return { named: still, sure: sum(still.map((f) => likely[f])), state: "cannot tell" };
}
