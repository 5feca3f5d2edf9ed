"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* What a person carries, kept in the browser: lead and port ids, and the jobs to pack for. Storage may be forbidden, full, or hold what an
   older version or somebody else wrote: then the bag is empty or smaller, and nothing breaks. */
(function (ui) {
  const KEY = "ringfence.bag", ONLY = "ringfence.bag-only";

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

  ui.emptyBag = () => ({ leads: [], ports: [], jobs: [] });

  /* Any value made into a bag: only ids that live, each once; moved ids under their new name. {bag, unknown: texts} */
  ui.asBag = function (value) {
    const unknown = [];
    const ids = (kind, list) => [...new Set((Array.isArray(list) ? list : []).map((id) => living(kind, id)).filter(Boolean))];
    const bag = {
      leads: ids("leads", value && value.leads), ports: ids("ports", value && value.ports),
      jobs: (value && Array.isArray(value.jobs) ? value.jobs : []).map(pair).filter(Boolean),
    };
    return { bag, unknown };

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

  ui.bag = () => ui.asBag(read(KEY)).bag;

  /* False when the browser does not keep it. */
  ui.keepBag = (bag) => write(KEY, bag);

  /* Should the check offer only what is in the bag? Off until it is asked for, and while there is no lead in the bag. */
  ui.bagOnly = () => read(ONLY) === true && ui.bag().leads.length > 0;
  ui.setBagOnly = (on) => write(ONLY, on);
})(Ringfence.ui);
