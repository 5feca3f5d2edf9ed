/* A test by seed: {seed, kinds, level, count}. Every learner's number draws other questions, place by place of the same kind and level;
   what comes of it is a short code. It tells a slip of the pen from another test; it is no proof of who sat there. */

import { core } from "./bank.js";
import { chance, digest, mixed } from "./seed.js";

const LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"; // base 32 without I, L, O, U (Crockford's alphabet)
const LEARNERS = 999,
  MOST = 30,
  FEWEST = 3,
  GROUP = 4,
  LONGEST = 40;
const WIDTHS = [
  ["learner", 10],
  ["test", 15],
  ["count", 5],
]; // bits, then one for each question, then 10 of a check
const CHECK = 10;
export const LIMITS = { LEARNERS, MOST, FEWEST };

export const writeTest = ({ seed, kinds, level, count }) =>
  new URLSearchParams({ test: seed, kinds: kinds.join(), level, n: count }).toString();

/* {test} or {fault}. */
export function readTest(hash) {
  const said = new URLSearchParams(hash.replace(/^#/, "")),
    { kinds: known, levels } = Ringfence.lessons;
  const seed = said.get("test") || "",
    kinds = (said.get("kinds") || "").split(",").filter(Boolean),
    level = said.get("level") || "",
    count = Number(said.get("n"));
  const strange = kinds.find((kind) => !Object.hasOwn(known, kind));
  if (!seed.trim() || seed.length > LONGEST)
    return { fault: `A test has a seed: a word of up to ${LONGEST} letters.` };
  if (strange)
    return {
      fault: `There is no kind of question called “${strange.slice(0, 40)}”. Ask your trainer for the address again.`,
    };
  if (level && !levels.includes(level))
    return {
      fault: `There is no level called “${level.slice(0, 40)}”. Ask your trainer for the address again.`,
    };
  if (!Number.isInteger(count) || count < FEWEST || count > MOST)
    return { fault: `A test has ${FEWEST} to ${MOST} questions.` };
  return { test: { seed, kinds, level, count } };
}

const pool = ({ kinds, level }) =>
  core().filter((one) => (!kinds.length || kinds.includes(one.kind)) && (!level || one.level === level));

/* The questions of one learner; fewer than asked for where there are not so many. */
export function drawnFor(test, learner) {
  const slots = mixed(pool(test), chance(`slots ${writeTest(test)}`)).slice(0, test.count);
  const own = chance(`learner ${learner} ${writeTest(test)}`),
    used = new Set();
  return slots.map((slot) => {
    const like = pool(test).filter(
      (one) => one.kind === slot.kind && one.level === slot.level && !used.has(one.id),
    );
    const one = like[Math.floor(own() * like.length)];
    used.add(one.id);
    return one;
  });
}

const name = (test) => digest(`${Ringfence.lessons.version} ${writeTest(test)}`) & 0x7fff;
const bits = (value, width) => value.toString(2).padStart(width, "0");
const check = (text) => bits(digest(text) & ((1 << CHECK) - 1), CHECK);

/* `answers`: true or false for each question in order. */
export function code(test, learner, answers) {
  const body =
    bits(learner, 10) + bits(name(test), 15) + bits(answers.length, 5) + answers.map(Number).join("");
  const whole = body + check(body),
    padded = whole.padEnd(Math.ceil(whole.length / 5) * 5, "0");
  return padded
    .match(/.{5}/g)
    .map((five) => LETTERS[parseInt(five, 2)])
    .join("")
    .match(new RegExp(`.{1,${GROUP}}`, "g"))
    .join("-");
}

/* {learner, answers} of a code, or {fault}. */
export function decode(test, text) {
  const said = text.toUpperCase().replace(/[\s-]/g, "").replaceAll("O", "0").replace(/[IL]/g, "1");
  const slip = { fault: "A letter is wrong or missing. Compare it with the learner's screen." };
  if (!said || [...said].some((letter) => !LETTERS.includes(letter))) return slip;
  const all = [...said].map((letter) => bits(LETTERS.indexOf(letter), 5)).join(""),
    found = {};
  let at = 0;
  for (const [field, width] of WIDTHS) {
    found[field] = parseInt(all.slice(at, at + width), 2);
    at += width;
  }
  const end = at + found.count;
  const whole =
    Math.ceil((end + CHECK) / 5) * 5 === all.length &&
    check(all.slice(0, end)) === all.slice(end, end + CHECK) &&
    !all.slice(end + CHECK).includes("1");
  if (!whole) return slip;
  if (found.test !== name(test))
    return {
      fault:
        "This code is of another test, or was made with another version of this site. Open the test at the address the learner had.",
    };
  return { learner: found.learner, answers: [...all.slice(at, end)].map((bit) => bit === "1") };
}
