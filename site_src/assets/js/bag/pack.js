"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.bag = Ringfence.bag || {};

/* The packing list: for every connection of a job what the bag has for it, and what is missing. */
(function (bag, ui) {
  const { el, button } = ui;

  /* `found` is a Map "from into" -> {ways}; a job without an entry is still being worked out. `on`: pick(), pack(lead), removeJob(job). */
  bag.pack = function (contents, found, root, on) {
    const { jobs } = contents;
    const add = button({ class: "rf-button rf-button--quiet", "data-key": "new job", onclick: on.pick }, "Add a connection");
    if (!jobs.length) {
      return el("section", { "aria-label": "Packing list" }, el("p", {}, "List the connections of a job, each From and Into. For each the bag is searched, and what is missing is named."), add);
    }
    const sorted = jobs.map((job) => ({ job, result: found.get(job.join(" ")) })).map((one) => ({ ...one, state: bag.stateOf(one, contents) }));
    return el("section", { "aria-label": "Packing list" }, el("h2", {}, bag.sum(sorted)), short(bag.short(sorted, contents)), el("ul", { class: "rf-jobs" }, sorted.map(item)), add);

    function short(found) {
      return found.length ? el("ul", { class: "rf-plain rf-pack__short" }, found.map(({ id, wanted, have }) => el("li", {}, el("strong", {}, `${ui.lead(id).name}: `), `this list takes ${wanted} at once, you have ${have}.`))) : null;
    }

    function item({ job, result, state }) {
      const [from, into] = job;
        return el("li", { "data-state": state.word }, el("div", { class: "rf-job__head" },
        el("p", {}, el("strong", {}, ui.port(from).name), el("span", {}, " into "), el("strong", {}, ui.port(into).name)),
        button({ class: "rf-things__out", "data-key": `job out ${from} ${into}`, "aria-label": `Take off the list: ${ui.port(from).name} into ${ui.port(into).name}`, onclick: () => on.removeJob(job) }, "×")),
      el("p", { class: "rf-job__state" }, state.says),
      state.best ? bag.ways([state.best], from, into, root) : null,
      state.add ? bag.offer(state.add, contents, from, into, root, on) : null);
    }
  };

  /* The way to pack for: one with a lead before plugging straight in, where neither is worse. */
  bag.packed = function (ways) {
    const best = ways[0];
    return (best && ways.find((way) => way.through.length && ui.worth(way) === ui.worth(best))) || best || null;
  };

  /* Leads that the list takes more of than there are: [{id, wanted, have}]. */
  bag.short = function (jobs, contents) {
    const wanted = new Map();
    for (const { state } of jobs) for (const id of state.best ? state.best.through : []) wanted.set(id, (wanted.get(id) || 0) + 1);
    return [...wanted].map(([id, number]) => ({ id, wanted: number, have: ui.countOf(contents, id) })).filter((one) => one.wanted > one.have);
  };

  /* {word, says, best, add}: covered, better (works, and something safer exists), missing, or working. */
  bag.stateOf = function ({ job: [from, into], result }, { leads }) {
    if (!result) return { word: "working", says: "Working it out", best: null, add: null };
    const best = bag.packed(result.ways), add = bag.toAdd(from, into, leads, best);
    if (!best || !ui.works(best)) {
      return { word: "missing", says: add ? "Missing. The safest single lead for it:" : "Missing, and no single lead in this catalogue makes it work.", best: null, add };
    }
    const loss = [best.verdict, best.offered].includes("lossy") ? ", with a loss" : "";
    if (!best.through.length) {
      const reach = bag.toAdd(from, into, leads, best, true);
      return { word: add ? "better" : "covered", says: `It goes straight in${loss}.${reach ? (add ? " Better, with a lead:" : " With a lead in between:") : ""}`, best, add: reach };
    }
    return { word: add ? "better" : "covered", says: `In the bag${loss}.${add ? " Better:" : loss ? " No single lead does better." : ""}`, best, add };
  };

  /* One line over the list. */
  bag.sum = function (jobs) {
    const count = (word) => jobs.filter(({ state }) => state.word === word).length;
    if (count("working")) return `Working: ${jobs.length - count("working")} of ${jobs.length}`;
    if (!count("missing")) return count("better") ? `All there, ${ui.count(count("better"), "could be better", "could be better")}` : "Everything is in the bag";
    return `${count("missing")} of ${jobs.length} missing`;
  };
})(Ringfence.bag, Ringfence.ui);
