/* A file of the catalogue as it is handed on (yaml.js) back into a device: name, class, and what was typed. A file may say more than a manual is asked; then it
   is for the command line, and the line that is too much is named. */

import { living } from "../ui/catalogue.js";
import { asksOf } from "./apply.js";
import { asDevice, name } from "./keep.js";
import { parse } from "./quantity.js";
import { valuesSet } from "./yaml.js";

const LONGEST = 8000; // characters
const TOP = /^(name|same_as): (.+)$/,
  INSTANCE = /^ {2}([a-z][a-z0-9-]*):$/,
  NUMBER = /^ {4}([a-z][a-z0-9_-]*): \{value: ([^{},]+), evidence: your manual\}$/;

/* {device: {name, base, answers}} or {fault}. */
export function fromFile(text) {
  if (text.length > LONGEST) return { fault: "That is too long to be the file of one device." };
  const found = lines(text),
    base = found.top && living("ports", found.top.same_as || "");
  if (found.fault) return found;
  if (!base) return { fault: "The line same_as names no class that is known here." };
  const answers = answersTo(asksOf(base), found.set),
    device = asDevice({ id: "my.none", name: named(found.top.name || ""), base, answers, stamp: "" });
  const said = valuesSet(device),
    left =
      [...found.set].find(([key, value]) => said.get(key) !== value) ||
      [...said].find(([key]) => !found.set.has(key));
  return left
    ? {
        fault: `No question of this class has the answer "${left.join(": ")}". The command line takes the file as it is.`,
      }
    : { device: { name: device.name, base, answers } };
}

function lines(text) {
  const top = {},
    set = new Map();
  let instance = null;
  for (const [place, line] of text.replaceAll("\r", "").split("\n").entries()) {
    const [whole, inside, number] = [TOP, INSTANCE, NUMBER].map((form) => form.exec(line));
    if (whole && !Object.hasOwn(top, whole[1])) top[whole[1]] = whole[2].trim();
    else if (inside) instance = inside[1];
    else if (number && instance) set.set(`${instance} ${number[1]}`, number[2].trim());
    else if (!/^\s*(#.*)?$|^circuit:$/.test(line))
      return { fault: `Line ${place + 1} is not as this page writes it: ${name(line).slice(0, 40)}` };
  }
  return { top, set };
}

function named(text) {
  try {
    return text.startsWith('"') ? String(JSON.parse(text)) : text;
  } catch {
    return text;
  }
}

/* What was typed for the values to be these: a number where all it sets is there and is one value, yes or no for what is left. */
function answersTo(asks, set) {
  const answers = {},
    values = ({ instances }, name) => instances.map((instance) => set.get(`${instance} ${name}`)),
    worded = (ask) => Object.keys(ask.answers).length > 0;
  const single = (found) => found.every(Boolean) && new Set(found).size === 1;
  const numeric = asks.filter(
    (ask) => !worded(ask) && single(Object.keys(ask.feeds).flatMap((name) => values(ask, name))),
  );
  for (const ask of numeric) answers[ask.id] = typedFor(ask, values(ask, Object.keys(ask.feeds)[0])[0]);
  for (const ask of asks.filter(worded)) {
    const fits = ([name, value]) => values(ask, name).every((one) => one === value);
    const by = ([name]) =>
      numeric.filter(
        (one) =>
          Object.hasOwn(one.feeds, name) &&
          one.instances.some((instance) => ask.instances.includes(instance)),
      );
    for (const [word, sets] of Object.entries(ask.answers).map(([word, of]) => [word, Object.entries(of)])) {
      if (
        !sets.some((one) => fits(one) && !by(one).length) ||
        !sets.every((one) => fits(one) || by(one).length)
      )
        continue;
      answers[ask.id] = word;
      for (const one of sets.filter(fits).flatMap(by)) delete answers[one.id];
    }
  }
  return answers;
}

function typedFor(ask, value) {
  const read = parse(value),
    ends = read && (value.includes("..") ? [read.low, read.high] : [read.nominal]);
  return ask.times === 1 || !read
    ? value.replace(/ \+-.*$/, "")
    : `${ends.map((end) => Number((end / ask.times).toPrecision(9))).join("..")} ${read.unit}`;
}
