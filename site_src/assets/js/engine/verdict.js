/* What an answer consists of: the verdict, the findings that led to it, and the figures of what works. The twin of
   verdict.py. */

import { ORDER_COSTS } from "./constants.js";
import { conditions, inOrder } from "./words.js";

const VERDICTS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]; // from best to worst
const FINDING = [
  "id",
  "severity",
  "subject",
  "where",
  "value",
  "unit",
  "limit",
  "when",
  "says",
  "remedy",
  "evidence",
  "cite",
];
const FIGURE = ["id", "where", "value", "unit", "says"]; // what is published of one
const some = (names) => (record) => Object.fromEntries(names.map((name) => [name, record[name]]));
export const rank = (verdict) => Math.max(0, VERDICTS.indexOf(verdict)); // notes and figures cost nothing

/* Where an answer stands among ways to connect: as its verdict, but half a step below what it is once plugged in where a switch avoids a
   danger that lasts only while plugging. */
export const standing = ({ offered, verdict }) => (offered ? rank(offered) + ORDER_COSTS : rank(verdict));

/* The least that can come to when more is found against it: a setting that is well in itself may turn out to be one that must not be
   plugged. `moments` are [settled, plugging] of each setting. */
export function leastStanding({ verdict, moments }) {
  const least = Math.min(...moments.map(([settled]) => rank(settled))),
    harmless = moments.some((moment) => Math.max(...moment.map(rank)) < rank("dangerous"));
  if (verdict !== "dangerous" || !harmless || least > rank("lossy")) return rank(verdict);
  return least + ORDER_COSTS;
}

/* The worst of some verdicts, the first of equals. */
export const worstOf = (verdicts) => verdicts.reduce((worst, one) => (rank(one) > rank(worst) ? one : worst));

/* The verdict that findings amount to. */
export const severest = (findings) =>
  VERDICTS[Math.max(0, ...findings.map(({ severity }) => rank(severity)))];

/* The published form of an answer to `question`. An answer is {verdict, settings, moments, names, plugging, findings,
   figures, ways, plugs}: `settings` are [setting, verdict], a setting being a Map of switch -> position, and `moments`
   for each of them [how it is once plugged in, how it is while plugging]; `names` tells what each switch is called;
   `ways` are [way, verdict]; `plugs` the labels of the ends a person has to choose for this verdict. */
export function publishedVerdict({ from, through = [], into }, answer) {
  const { verdict, settings, moments, names } = answer,
    order = orderOf(answer);
  const told = settings.map(([setting, found], i) => [setting, when(found, moments[i])]);
  return {
    from,
    through: [...through],
    into,
    fits: verdict !== "does not fit",
    verdict,
    settings: settings.map(([setting, found]) => ({ supplies: Object.fromEntries(setting), verdict: found })),
    conditions: conditions(told, names),
    offer: order ? inOrder(...order, names) : "",
    offered: order ? order[0] : "",
    plugs: [...answer.plugs],
    moments: moments.map(([settled, plugging]) => ({ settled, plugging })),
    plugging: answer.plugging,
    findings: answer.findings.map(some(FINDING)),
    figures: answer.figures.map(some(FIGURE)),
    ways: answer.ways.map(([{ ends, plugged }, found]) => ({
      ends,
      plugged: plugged.map(({ lead, end, port }) => [lead, end, port]),
      verdict: found,
    })),
    remedies: [],
  };
}

/* A verdict of a setting; a danger that lasts only while plugging says so. */
const when = (verdict, [settled]) =>
  verdict === "dangerous" && settled !== "dangerous" ? "dangerous while plugging" : verdict;

/* Where a danger lasts only while plugging and a switch avoids it: how it is in the end, the setting to plug in, the
   setting to switch to, and whether it stays as it was plugged instead; else null. Of those that end well the one with the
   most on, from the one nearest to it that may be plugged; where that one is as good, it stays. */
function orderOf({ verdict, settings, moments }) {
  if (verdict !== "dangerous") return null;
  const states = settings.map(([setting], i) => [setting, ...moments[i]]);
  const ends = states.filter(([, settled]) => rank(settled) <= rank("lossy"));
  const starts = states
    .filter(([, ...both]) => !both.some((one) => rank(one) >= rank("dangerous")))
    .map(([start, settled]) => ({ start, settled }));
  if (!ends.length || !starts.length) return null;
  const [setting, settled, plugging] = ends.reduce((best, one) =>
    rank(one[1]) < rank(best[1]) ? one : best,
  );
  if (plugging !== "dangerous") return null; // that setting is well in itself
  const changed = (start) => [...setting].filter(([key, state]) => start.get(key) !== state).length;
  const near = starts.reduce((best, one) => (changed(one.start) < changed(best.start) ? one : best));
  const stays = rank(near.settled) <= rank(settled); // nothing is gained by switching
  return [stays ? near.settled : settled, near.start, setting, stays];
}
