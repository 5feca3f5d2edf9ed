/* The questions and all their answers. A question is {id, asks, help, answers: [{id, label, more, fits(looks)}]}; with `when(plugs)` it
   may be asked only of these candidates, with `last` only when no other question helps. What a connector does not tell fits every answer. */

import { own } from "../ui/dom.js";
import { capital, listed } from "../ui/words.js";

/* Thickness in mm. People see sizes roughly: a connector near the edge of a band is kept in both. */
const BANDS = [
  [0, 3, "Up to 3 mm", "like a matchstick"],
  [3, 5, "3 to 5 mm", "like a thin drinking straw"],
  [5, 8, "5 to 8 mm", "like a pencil"],
  [8, 12, "8 to 12 mm", "like a little finger"],
  [12, 16, "12 to 16 mm", "like an AA cell"],
  [16, 24, "16 to 24 mm", "like a thumb"],
  [24, Infinity, "Over 24 mm", "wider than a thumb"],
];
const EDGE = 1.08;
const SAME = 1.06; // sizes closer than this no rule tells apart
const MANY = 8; // nobody counts further at a glance

const known = (key, fits) => (looks) => looks[key] === undefined || fits(looks[key]);
const is = (key, value) => known(key, (found) => found === value);

/* Answers from one of the closed lists; `merged` puts words under one answer, where the two halves of one connector show both. */
function closed(key, words, merged = {}) {
  const groups = new Map();
  for (const word of Object.keys(words)) {
    if (word === "either") continue;
    const name = own(merged, word) || word;
    groups.set(name, [...(groups.get(name) || []), word]);
  }
  return [...groups].map(([id, inside]) => ({
    id,
    label: capital(
      listed(
        inside.map((word) => words[word]),
        "or",
      ),
    ),
    fits: known(key, (found) => inside.includes(found) || (found === "either" && id !== "none")),
  }));
}

const numbers = (key, plugs) =>
  [...new Set(plugs.map(({ looks }) => looks[key]).filter((value) => value !== undefined))].sort(
    (a, b) => a - b,
  );

function contacts(plugs) {
  const few = numbers("contacts", plugs).filter((value) => value <= MANY);
  return [
    ...few.map((value) => ({ id: String(value), label: String(value), fits: is("contacts", value) })),
    { id: "many", label: `More than ${MANY}`, fits: known("contacts", (found) => found > MANY) },
  ];
}

/* Sizes that a rule can tell apart, neighbours taken together. */
function sizes(plugs) {
  const groups = [];
  for (const size of numbers("diameter", plugs)) {
    const group = groups[groups.length - 1];
    if (group && size <= group[group.length - 1] * SAME) group.push(size);
    else groups.push([size]);
  }
  return groups.map((group) => {
    const [least, most] = [group[0], group[group.length - 1]];
    return {
      id: [...new Set([least, most])].join("-"),
      label: `${[...new Set([least, most])].join(" to ")} mm`,
      fits: known("diameter", (found) => group.includes(found)),
    };
  });
}

/* What one takes in at a glance, most often met first: {id, label, fits, shown}, `shown` the halves that are drawn, of the commonest member. */
function families(plugs) {
  const groups = new Map();
  for (const plug of plugs.filter(({ looks }) => looks.family))
    groups.set(plug.looks.family, [...(groups.get(plug.looks.family) || []), plug]);
  const met = (members) => members.reduce((sum, plug) => sum + (plug.met || 0), 0);
  return [...groups]
    .sort(([, a], [, b]) => met(b) - met(a))
    .map(([family, members]) => {
      const common = members.reduce((best, one) => ((one.met || 0) > (best.met || 0) ? one : best));
      return {
        id: family.toLowerCase().replace(/[^a-z0-9]+/g, "-"),
        label: family,
        fits: is("family", family),
        shown: (common.halves || []).map((half) => ({ connector: common.id, half })),
      };
    });
}

/* All questions, for a list of plugs {looks}, in the order in which they win a tie. */
export function questions(plugs, words) {
  const exactly = (key, values) =>
    values.map((value) => ({ id: String(value), label: String(value), fits: is(key, value) }));
  return [
    {
      id: "look",
      short: "Looks like",
      asks: "Which of these looks like it?",
      help: "All at one scale, what goes in above what it goes into. Tap the nearest; what tells it from its like comes next.",
      pictured: true,
      answers: families(plugs),
    },
    {
      id: "shape",
      short: "Shape",
      asks: "What shape is it?",
      help: "Look at the part that goes in, or at what it goes into.",
      answers: closed("outline", words.outline),
    },
    {
      id: "rings",
      short: "Rings",
      asks: "How many insulating rings?",
      help: "The dark or light lines that part the metal bands of the rod.",
      when: (left) => left.every(({ looks }) => looks.rings !== undefined),
      answers: exactly("rings", numbers("rings", plugs)),
    },
    {
      id: "thick",
      short: "Thickness",
      asks: "How thick is it?",
      help: "The part that goes in, or its shell; across the longest side if it is not round.",
      last: true,
      answers: BANDS.map(([from, to, label, more], place) => ({
        id: String(place),
        label,
        more,
        fits: known("diameter", (size) => size >= from / EDGE && size <= to * EDGE),
      })),
    },
    {
      id: "contacts",
      short: "Contacts",
      asks: "How many contacts?",
      help: "Pins or holes in a shell, bands on a rod. A single pin and the metal around it are two.",
      answers: contacts(plugs),
    },
    {
      id: "count",
      short: "Contacts",
      asks: "Count them: how many contacts?",
      help: "All rows together.",
      when: (left) => left.every(({ looks }) => !(looks.contacts <= MANY)),
      answers: exactly(
        "contacts",
        numbers("contacts", plugs).filter((value) => value > MANY),
      ),
    },
    {
      id: "latch",
      short: "Held by",
      asks: "What holds it once it is in?",
      help: "The catch may be on the plug or on what it goes into.",
      answers: closed("latch", words.latch),
    },
    {
      id: "key",
      short: "Turned right by",
      asks: "What makes it go in one way only?",
      help: "A slot in one half is a ridge in the other.",
      answers: closed("keyway", words.keyway, { slot: "key", ridge: "key", notch: "key" }),
    },
    {
      id: "shell",
      short: "Shell",
      asks: "What is the outside made of?",
      help: "The part around the contacts, not the handle.",
      answers: closed("shell", words.shell),
    },
    {
      id: "size",
      short: "Measured",
      asks: "Measure it: how many millimetres?",
      help: "With calipers or a rule, across the part that goes in.",
      last: true,
      answers: sizes(plugs),
    },
  ];
}
