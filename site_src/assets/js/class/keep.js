/* When a question comes again, and what this browser keeps: {version, seen: {id: [day it is due, interval in days, right, wrong]}}.
   The schedule is published (P. A. Wozniak, 1990): right after 1 day, then 6, then every interval times 2.5; wrong begins again at 1 day. */

import { mixed } from "./seed.js";

const KEY = "ringfence.class",
  DAY = 86400000,
  FIRST = 1,
  SECOND = 6,
  EASE = 2.5,
  LONGEST = 365;
export const FORBIDDEN =
  "This browser keeps nothing for this page: a private window or a setting forbids it. You can practise; nothing is remembered.";
export const BROKEN =
  "What this browser kept could not be read. It is left as it was until you remove it; this round counts, but is not kept.";

export const today = (now = new Date()) =>
  Math.floor((now.getTime() - now.getTimezoneOffset() * 60000) / DAY);

/* The next [due, interval, right, wrong] of a question answered today. */
export function next(before, good, today) {
  const [, interval, right, wrong] = before || [0, 0, 0, 0];
  const days =
    !good || !interval ? FIRST : interval < SECOND ? SECOND : Math.min(Math.ceil(interval * EASE), LONGEST);
  return [today + days, good ? days : 0, right + (good ? 1 : 0), wrong + (good ? 0 : 1)];
}

/* {seen, fault}. */
export function kept() {
  let text;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    return { seen: {}, fault: FORBIDDEN };
  }
  if (text === null) return { seen: {}, fault: "" };
  try {
    const value = JSON.parse(text);
    const whole =
      value.version === 1 &&
      Object.values(value.seen).every(
        (one) => Array.isArray(one) && one.length === 4 && one.every(Number.isInteger),
      );
    return whole ? { seen: value.seen, fault: "" } : { seen: {}, fault: BROKEN };
  } catch {
    return { seen: {}, fault: BROKEN };
  }
}

/* Why it is not kept, or nothing. */
export function keep(seen) {
  try {
    localStorage.setItem(KEY, JSON.stringify({ version: 1, seen }));
    return "";
  } catch {
    return FORBIDDEN;
  }
}

export function forget() {
  try {
    localStorage.removeItem(KEY);
    return "";
  } catch {
    return FORBIDDEN;
  }
}

/* The questions of a round: what is due, the longest due first, then what is new; if that is not enough, what comes soonest. */
export function round(questions, seen, today, count, chance) {
  const known = (one) => (Object.hasOwn(seen, one.id) ? seen[one.id] : null);
  const due = questions
    .filter((one) => known(one) && known(one)[0] <= today)
    .sort((a, b) => known(a)[0] - known(b)[0]);
  const fresh = mixed(
    questions.filter((one) => !known(one)),
    chance,
  );
  const later = questions
    .filter((one) => known(one) && known(one)[0] > today)
    .sort((a, b) => known(a)[0] - known(b)[0]);
  return [...due, ...fresh, ...later].slice(0, count);
}

/* [kind, wrong, of] of the kinds one keeps getting wrong, the worst first. */
export function weak(questions, seen) {
  const found = new Map();
  for (const one of questions.filter(({ id }) => Object.hasOwn(seen, id))) {
    const [wrong, all] = found.get(one.kind) || [0, 0],
      [, , good, bad] = seen[one.id];
    found.set(one.kind, [wrong + bad, all + good + bad]);
  }
  return [...found]
    .map(([kind, [wrong, all]]) => [kind, wrong, all])
    .filter(([, wrong]) => wrong > 1)
    .sort((a, b) => b[1] / b[2] - a[1] / a[2]);
}
