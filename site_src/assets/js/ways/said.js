/* What a verdict means for the person who asked: what is lost in a few words, how much that matters, and what to do. */

import { lead } from "../ui/catalogue.js";
import { own } from "../ui/dom.js";
import { listed } from "../ui/words.js";
import { LOSSES } from "./losses.js";

const HEARD = 2, // what findings weigh together in the rulebook, where they begin to be heard
  RUINS = 4; // what one weighs where half of what was wanted is gone; little things do not add up to that

const ids = (findings) => [...new Set(findings.map((one) => (one.id || one).replaceAll(" ", "-")))];

/* What is lost or harmed, in few words each. That a rating is not known says nothing more where one that is known is passed. */
export function losses(findings) {
  const every = ids(findings),
    told = every.filter((id) => id !== "rating-not-known");
  return (told.length ? told : every).map((id) => own(LOSSES, id) || id.replaceAll("-", " "));
}

const UNSTEADY = new Set(["barely-powered", "not-for-data"]); // what is not heard as such: it works, until it does not

/* How much a loss matters: harmless, audible, may fail, ruins it. */
export function matters(findings) {
  const weigh = (some) => Ringfence.engine.loss(Ringfence.rulebook, some),
    every = ids(findings);
  if (weigh(every) < HEARD) return "harmless";
  if (every.some((id) => weigh([id]) >= RUINS)) return "ruins it";
  return every.filter((id) => weigh([id])).every((id) => UNSTEADY.has(id)) ? "may fail" : "audible";
}

/* "Works, but: one side only" and its like; `way` is {verdict, offered, findings}, of which those count that decide. */
export function means({ verdict, offered, findings }) {
  const lost = listed(losses(findings).slice(0, 3));
  if (offered) return `Harmful while plugging (${lost}); works if plugged in the right order`;
  return {
    safe: "Works, nothing lost",
    lossy: `Works, but: ${lost} (${matters(findings)})`,
    "no signal": `Will not work: ${lost}`,
    dangerous: `Harmful: ${lost}`,
    "does not fit": "The plugs do not go into each other",
  }[verdict];
}

/* The lead, or the leads, of a way as one says them in a sentence. */
export const named = (through) =>
  through.length ? through.map((id) => lead(id).name).join(", then ") : "no lead, straight in";
