/* The log in this browser's own store, and nowhere else. The store may be forbidden, full, or hold what is no log: it is said, and nothing
   is written over what cannot be read. */

import { parse } from "./exchange.js";
import { empty } from "./log.js";

const KEY = "ringfence.upkeep";
export const FORBIDDEN =
  "This browser does not let the page keep anything; a private window or a setting forbids it. Export the log before you leave.";
export const FULL =
  "This browser's store is full, so the last change is not kept. Export the log now, then make room.";
export const BROKEN =
  "What this browser kept is no whole log. It is left as it was; export what you enter now, or clear this site's data to start again.";

/* {log, fault}. */
export function kept() {
  let text;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    return { log: empty(), fault: FORBIDDEN };
  }
  if (text === null) return { log: empty(), fault: "" };
  const read = parse(text);
  if (read.fault || read.faults.length) return { log: read.log || empty(), fault: BROKEN };
  return { log: read.log, fault: "" };
}

/* Why it is not kept, or nothing. */
export function keep(log) {
  try {
    localStorage.setItem(KEY, JSON.stringify(log));
    return "";
  } catch (refused) {
    return refused && refused.name === "QuotaExceededError" ? FULL : FORBIDDEN;
  }
}
