/* Own numbers and devices: their scripts are asked for where somebody has any, and with the first answer. */

import { mark, verdict } from "./dom.js";
import { later } from "./later.js";

const KEY = "ringfence.own";
let loading = null,
  failed = false;

function kept() {
  try {
    return localStorage.getItem(KEY) !== null;
  } catch {
    return false;
  }
}

/* Are the scripts here that somebody's devices and leads need? */
const here = () => Ringfence.own && Ringfence.own.ready();

/* Must they be, before a question of this address is shown? */
export const ownAwaited = (hash) =>
  !here() &&
  !failed &&
  (kept() ||
    /(^#?|&)(own=|(from|into|through)=[^&]*\bmy\.)/.test(hash) ||
    Boolean((Ringfence.data.local || []).length));

/* Resolves to whether they are here. */
export function withOwn() {
  if (here()) return Promise.resolve(true);
  loading =
    loading ||
    load().then((loaded) => {
      failed = !loaded;
      loading = null;
      return loaded;
    });
  return loading;
}

/* The records of one's own leads are made by the scripts of the bench. */
async function load() {
  if ((await Promise.all(["circuits", "engine", "asks"].map(later))).includes(false) || !(await later("own")))
    return false;
  if (!Ringfence.own.ready() && !(await later("bench"))) return false;
  Ringfence.own.registerLeads();
  return true;
}

/* What is left of the numbers in an address when another device stands at one of its ends. */
export const ownAfter = (own, state, changes) =>
  (own || "")
    .split(",")
    .filter(
      (one) =>
        one &&
        ["from", "into"].every(
          (side) => !one.startsWith(`${side}.`) || !(side in changes) || changes[side] === state[side],
        ),
    )
    .join(",");

/* A question as the engine and the drawings know it: a device of one's own is its class with its numbers. */
export const ownQuestion = (question) => (Ringfence.own ? Ringfence.own.plain(question) : question);

/* A verdict in a list or a cell, and its mark alone: `own` where it rests on somebody's own numbers, which have marks of their own; a danger keeps the
   mark of danger. */
export const verdictBy = (word, own) => (own && Ringfence.own ? Ringfence.own.verdict : verdict)(word);
export const markBy = (word, own) =>
  (own && word !== "dangerous" && Ringfence.own ? Ringfence.own.mark : mark)(word);
