/* The packing list: for every connection of a job what the bag has for it, and what is missing. */

import { countOf } from "../ui/bag.js";
import { lead, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { works, worth } from "../ui/table.js";
import { count as counted } from "../ui/words.js";
import { offer, ways } from "./ask.js";
import { toAdd } from "./chains.js";

/* `found` is a Map "from into" -> {ways}; a job without an entry is still being worked out. `on`: pick(), pack(lead), removeJob(job). */
export function pack(contents, found, root, on) {
  const { jobs } = contents;
  const add = button(
    { class: "rf-button rf-button--quiet", "data-key": "new job", onclick: on.pick },
    "Add a connection",
  );
  if (!jobs.length) {
    return el(
      "section",
      { "aria-label": "Packing list" },
      el(
        "p",
        {},
        "List the connections of a job, each From and Into. For each the bag is searched, and what is missing is named.",
      ),
      add,
    );
  }
  const sorted = jobs
    .map((job) => ({ job, result: found.get(job.join(" ")) }))
    .map((one) => ({ ...one, state: stateOf(one, contents) }));
  return el(
    "section",
    { "aria-label": "Packing list" },
    el("h2", {}, sum(sorted)),
    short(shortened(sorted, contents)),
    el("ul", { class: "rf-jobs" }, sorted.map(item)),
    add,
  );

  function short(found) {
    return found.length
      ? el(
          "ul",
          { class: "rf-plain rf-pack__short" },
          found.map(({ id, wanted, have }) =>
            el(
              "li",
              {},
              el("strong", {}, `${lead(id).name}: `),
              `this list takes ${wanted} at once, you have ${have}.`,
            ),
          ),
        )
      : null;
  }

  function item({ job, result, state }) {
    const [from, into] = job;
    return el(
      "li",
      { "data-state": state.word },
      el(
        "div",
        { class: "rf-job__head" },
        el(
          "p",
          {},
          el("strong", {}, port(from).name),
          el("span", {}, " into "),
          el("strong", {}, port(into).name),
        ),
        button(
          {
            class: "rf-things__out",
            "data-key": `job out ${from} ${into}`,
            "aria-label": `Take off the list: ${port(from).name} into ${port(into).name}`,
            onclick: () => on.removeJob(job),
          },
          "×",
        ),
      ),
      el("p", { class: "rf-job__state" }, state.says),
      state.best ? ways([state.best], from, into, root) : null,
      state.add ? offer(state.add, contents, from, into, root, on) : null,
    );
  }
}

/* The way to pack for: one with a lead before plugging straight in, where neither is worse. */
export function packed(ways) {
  const best = ways[0];
  return (best && ways.find((way) => way.through.length && worth(way) === worth(best))) || best || null;
}

/* Leads that the list takes more of than there are: [{id, wanted, have}]. */
function shortened(jobs, contents) {
  const wanted = new Map();
  for (const { state } of jobs)
    for (const id of state.best ? state.best.through : []) wanted.set(id, (wanted.get(id) || 0) + 1);
  return [...wanted]
    .map(([id, number]) => ({ id, wanted: number, have: countOf(contents, id) }))
    .filter((one) => one.wanted > one.have);
}

/* {word, says, best, add}: covered, better (works, and something safer exists), missing, or working. */
export function stateOf({ job: [from, into], result }, { leads }) {
  if (!result) return { word: "working", says: "Working it out", best: null, add: null };
  const best = packed(result.ways),
    add = toAdd(from, into, leads, best);
  if (!best || !works(best)) {
    return {
      word: "missing",
      says: add
        ? "Missing. The safest single lead for it:"
        : "Missing, and no single lead in this catalogue makes it work.",
      best: null,
      add,
    };
  }
  const loss = [best.verdict, best.offered].includes("lossy") ? ", with a loss" : "";
  if (!best.through.length) {
    const reach = toAdd(from, into, leads, best, true);
    return {
      word: add ? "better" : "covered",
      says: `It goes straight in${loss}.${reach ? (add ? " Better, with a lead:" : " With a lead in between:") : ""}`,
      best,
      add: reach,
    };
  }
  return {
    word: add ? "better" : "covered",
    says: `In the bag${loss}.${add ? " Better:" : loss ? " No single lead does better." : ""}`,
    best,
    add,
  };
}

/* One line over the list. */
export function sum(jobs) {
  const count = (word) => jobs.filter(({ state }) => state.word === word).length;
  if (count("working")) return `Working: ${jobs.length - count("working")} of ${jobs.length}`;
  if (!count("missing"))
    return count("better")
      ? `All there, ${counted(count("better"), "could be better", "could be better")}`
      : "Everything is in the bag";
  return `${count("missing")} of ${jobs.length} missing`;
}

export { shortened as short };
