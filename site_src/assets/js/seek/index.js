/* The search in people's words: sizes, plurals, signs and hyphens made alike, words that mean one thing made one word, slips of a key or two forgiven.
   MiniSearch (MIT licence, in minisearch.js) keeps the index; what is looked through is generator/site/sought.py's list. */

import { MiniSearch } from "./minisearch.js";

const FIELDS = { name: 5, device: 4, also: 4, words: 1, text: 0.4 };
const KINDS = { connectors: 2.4, assignments: 0.9, ports: 1.1, leads: 0.8, guides: 2.4 }; // what people mean more often
const CALLED = 1.4; // times as good: what is called just what was typed, in two words or more
const MET = { daily: 1.7, often: 1.3 };
const SMALL = new Set(
  "a an and the of for with my is it on or that this what which how do does i to into in at from your can be not no use need have has".split(
    " ",
  ),
);
const PLUGS = "male female plug jack socket trs ts trrs mono stereo connector".split(" "),
  DEVICES = new Set("loudspeaker headphone video".split(" "));
let index = null,
  same = null;

/* [pattern, the one word], longer sayings first. */
function sayings() {
  if (same) return same;
  const pairs = Object.entries(Ringfence.sought.same).flatMap(([word, said]) =>
    said.map((one) => [one.toLowerCase(), word]),
  );
  const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&").replace(/ /g, "[\\s,-]*");
  same = pairs
    .sort((a, b) => b[0].length - a[0].length)
    .map(([said, word]) => [
      new RegExp(`(?<![a-z0-9.])${escaped(said)}s?(?![a-z0-9])`, "g"),
      ` ${word.replace(/ /g, "_")} `,
    ]);
  return same;
}

const singular = (word) => (/[^su]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word);

/* The words of a text as the index has them; a saying becomes its one word, whatever other words it holds. */
export function words(text) {
  let plain = ` ${text.toLowerCase().replace(/[’']/g, "'")} `;
  for (const [said, word] of sayings()) plain = plain.replace(said, word.toUpperCase());
  return plain
    .toLowerCase()
    .split(/[^a-z0-9+]+/)
    .map(singular)
    .filter((word) => word && !SMALL.has(word));
}

function ready() {
  if (index) return index;
  index = new MiniSearch.default({
    fields: Object.keys(FIELDS),
    storeFields: ["kind", "met"],
    tokenize: words,
    processTerm: (word) => word,
  });
  index.addAll(
    Ringfence.sought.found.map(([id, name, also, words, met, , device]) => {
      const [kind] = id.split("/"),
        guide = kind === "guides";
      return {
        id,
        name,
        also: also.join(" | "),
        words: guide ? "" : words,
        text: guide ? words : "",
        kind,
        met,
        device,
      };
    }),
  );
  return index;
}

const HOW = {
  boost: FIELDS,
  prefix: (word, at, all) => at === all.length - 1 && word.length > 1,
  weights: { prefix: 0.35, fuzzy: 0.25 },
  fuzzy: (word) => (/\d/.test(word) || word.length < 5 ? false : word.length < 7 ? 1 : 2),
  boostDocument: (id, word, { kind, met }) =>
    (KINDS[kind] || 1) * (MET[met] || 1) * (id.includes("#") ? 0.5 : 1),
};

/* Who names two ends, or a thing that has two, means a lead. */
const LEADS = new Set("lead adapter splitter attenuator extension isolator changer".split(" "));
const HOW_TO = /\b(?:test|check|buy|mak|repair|mend|solder|broken|choos|measur)/i; // then a guide or a tool
const meansLead = (typed) =>
  !HOW_TO.test(typed) && (/ to /.test(typed) || words(typed).some((word) => LEADS.has(word)));
const leading = {
  ...HOW,
  boostDocument: (id, word, stored) =>
    HOW.boostDocument(id, word, stored) * ({ leads: 5, connectors: 0.5, guides: 0.6 }[stored.kind] || 1),
};

/* What is found, best first: [{id, score, also}]; `id` is an address. Everything asked for, else as much of it as anything has. */
export function find(typed, filter = () => true) {
  if (!words(typed).length) return [];
  const how = meansLead(typed) ? leading : HOW,
    all = ready().search(typed, { ...how, combineWith: "AND", filter });
  if (all.length) return exact(all, typed).map(told);
  const some = ready().search(typed, { ...how, combineWith: "OR", filter }),
    most = Math.max(0, ...some.map(({ queryTerms }) => queryTerms.length));
  return some.filter(({ queryTerms }) => queryTerms.length === most).map(told);
}

/* What is called just that, by its name up to the first comma or by another name, comes before what only has the words. */
function exact(found, typed) {
  const wanted = words(typed).join(" "),
    calls = ([id, name, also]) =>
      wanted.includes(" ") &&
      /^(?:connectors|ports|leads)/.test(id) &&
      [name.split(",")[0], ...also].some((one) => words(one).join(" ") === wanted);
  return found
    .map((one) => ({ ...one, score: one.score * (calls(entryOf(one.id)) ? CALLED : 1) }))
    .sort((a, b) => b.score - a.score);
}

/* The other name that matched, where the name itself did not. */
function told({ id, score, match }) {
  const entry = entryOf(id),
    named = Object.values(match).some((fields) => fields.includes("name"));
  const terms = Object.keys(match),
    also = named ? null : entry[2].find((name) => words(name).some((word) => terms.includes(word)));
  return { id, score, also: also || null, loose: Object.keys(match).length };
}

/* Is nothing said but what plug it is? */
export function plugOnly(text) {
  plugs =
    plugs ||
    new Set(
      [
        ...PLUGS,
        ...Ringfence.sought.found
          .filter(([id]) => id.startsWith("connectors/"))
          .flatMap(([, name]) => words(name)),
      ].filter((word) => !DEVICES.has(word)),
    );
  return words(text).every((word) => plugs.has(word));
}

let byId = null,
  plugs = null;
function entryOf(id) {
  byId = byId || new Map(Ringfence.sought.found.map((entry) => [entry[0], entry]));
  return byId.get(id);
}

/* Of some records (ports, leads, connectors) those that are found: id -> {place, score, also}; null where the list is of something else. What a person
   named, their devices and leads, is found by that name and stands first. */
export function among(entries, typed) {
  const kind = (entry) => (entry.ends ? "leads" : entry.device ? "ports" : "connectors"),
    addresses = new Map(entries.map((entry) => [`${kind(entry)}/${entry.id}/`, entry.id]));
  if (![...addresses.keys()].some(entryOf)) return null;
  const own = [...addresses]
    .filter(
      ([address, id]) =>
        !entryOf(address) &&
        Ringfence.ui.matches(
          entries.find((entry) => entry.id === id),
          typed,
        ),
    )
    .map(([, id]) => [id, { place: -1, score: 0, also: null }]);
  return new Map([
    ...own,
    ...find(typed, ({ id }) => addresses.has(id)).map(({ id, ...more }, place) => [
      addresses.get(id),
      { place, ...more },
    ]),
  ]);
}

export { entryOf as entry };
