/* The lead that is not in the catalogue: what one would have to do, where nothing there is safe. The twin of missing.py. */

import { before } from "./glance.js";
import { answer, asked } from "./judge.js";
import { somethingToHear } from "./kinds.js";
import { OPPOSITE } from "./misfit.js";
import { short, spoken } from "./readings.js";
import { chains, cost as costOf } from "./route.js";

/* One or two sentences on the lead that would do it. Judges every single lead, and none. */
export function missing(data, rulebook, { from, into }) {
  const { outlet, inlet } = asked(data, from, [], into),
    cost = (one) => costOf(data, rulebook, one);
  if (!somethingToHear(outlet, inlet)) {
    const [one, other] = [outlet, inlet].map((port) => spoken(short(port)));
    return `No lead can help: neither the ${one} nor the ${other} sends what the other listens to.`;
  }
  const tried = [0, 1]
    .flatMap((length) => [...chains(data, from, into, length)])
    .map((through) => answer(data, rulebook, { from, through, into }));
  const better = (best, one) => (!best || before(cost(one), cost(best)) ? one : best);
  return described(data, outlet, inlet, tried.reduce(better, null));
}

function described(data, outlet, inlet, best) {
  const against = best ? best.findings.filter(({ severity }) => severity !== "note") : [];
  const ends = `from ${half(data, outlet)} to ${half(data, inlet)}`;
  const needs = [...new Set(against.map(({ mend }) => mend).filter(Boolean))];
  const worst = best ? against.filter(({ severity }) => severity === best.verdict) : [];
  // What no lead can change decides only where it is the worst there is.
  const hopeless = best && best.verdict === "no signal" && !worst.some(({ mend }) => mend);
  if (hopeless) return `No lead can help: ${[...new Set(worst.map(({ says }) => says))].join(" ")}`;
  if (!best)
    return `Nothing in the catalogue goes between the two. What would: a lead ${ends} wired for both.`;
  if (!needs.length) return "No lead does better than what there is.";
  return `Nothing in the catalogue does this without loss. What would: a lead ${ends} that ${joined(needs)}.`;
}

/* The half that goes into a port. */
const half = (data, port) => `the ${OPPOSITE[port.half]} of ${data.connectors[port.connector].name},`;

const joined = (needs) =>
  needs.length === 1 ? needs[0] : `${needs.slice(0, -1).join("; ")}; and ${needs.at(-1)}`;
