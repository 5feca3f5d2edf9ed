"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* What a person carries, kept in the browser: lead and port ids, how many of each where it is more than one, and the jobs to pack for. Storage may be forbidden, full, or hold what an
   older version or somebody else wrote: then the bag is empty or smaller, and nothing breaks. */
(function (ui) {
  const KEY = "ringfence.bag", ONLY = "ringfence.bag-only", SEEN = "ringfence.kit-seen";

  function read(key) {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch (refused) {
      return null;
    }
  }

  function write(key, value) {
    try {
      localStorage.setItem(key, JSON.stringify(value));
      return true;
    } catch (refused) {
      return false;
    }
  }

  ui.emptyBag = () => ({ leads: [], ports: [], jobs: [], counts: {} });
  ui.MOST_OF_A_KIND = 99;

  /* How many of a thing are in a bag; how many things are in it at all. */
  ui.countOf = ({ leads, ports, counts }, id) => (leads.includes(id) || ports.includes(id) ? ui.own(counts, id) || 1 : 0);
  ui.filled = ({ leads, ports, jobs }) => leads.length + ports.length + jobs.length;

  /* Numbers of two and more, of what is there. */
  ui.counted = (counts, there) => Object.fromEntries(Object.entries(counts || {}).filter(([id, number]) => there.includes(id) && Number.isInteger(number) && number > 1 && number <= ui.MOST_OF_A_KIND));

  /* Any value made into a bag: only ids that live, each once; moved ids under their new name. {bag, unknown: texts} */
  ui.asBag = function (value) {
    const unknown = [];
    const ids = (kind, list) => [...new Set((Array.isArray(list) ? list : []).map((id) => living(kind, id)).filter(Boolean))];
    const given = value && typeof value.counts === "object" && value.counts ? Object.entries(value.counts).map(([id, number]) => [ui.living("leads", id) || ui.living("ports", id), number]) : [];
    const bag = {
      leads: ids("leads", value && value.leads), ports: ids("ports", value && value.ports),
      jobs: (value && Array.isArray(value.jobs) ? value.jobs : []).map(pair).filter(Boolean),
    };
    return { bag: { ...bag, counts: ui.counted(Object.fromEntries(given), [...bag.leads, ...bag.ports]) }, unknown };

    function living(kind, id) {
      const found = typeof id === "string" ? ui.living(kind, id) : null;
      if (!found) unknown.push(String(id).slice(0, 80));
      return found;
    }

    function pair(job) {
      if (!Array.isArray(job) || job.length !== 2) return unknown.push(String(job).slice(0, 80)) && null;
      const [from, into] = job.map((id) => living("ports", id));
      return from && into ? [from, into] : null;
    }
  };

  /* {edition, date, verdicts}: the verdicts of a kit when somebody last looked at it, or null. */
  ui.kitSeen = function () {
    const seen = read(SEEN);
    return seen && typeof seen.edition === "string" && seen.verdicts && typeof seen.verdicts === "object" ? seen : null;
  };
  ui.keepKitSeen = (seen) => write(SEEN, seen);

  ui.bag = () => ui.asBag(read(KEY)).bag;

  /* False when the browser does not keep it. */
  ui.keepBag = (bag) => write(KEY, bag);

  /* Should the check offer only what is in the bag? Off until it is asked for, and while there is no lead in the bag. */
  ui.bagOnly = () => read(ONLY) === true && ui.bag().leads.length > 0;
  ui.setBagOnly = (on) => write(ONLY, on);
})(Ringfence.ui);
