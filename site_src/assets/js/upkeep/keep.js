"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.upkeep = Ringfence.upkeep || {};

/* The log in this browser's own store, and nowhere else. The store may be forbidden, full, or hold what is no log: it is said, and nothing
   is written over what cannot be read. */
(function (upkeep) {
  const KEY = "ringfence.upkeep";
  upkeep.FORBIDDEN = "This browser does not let the page keep anything; a private window or a setting forbids it. Export the log before you leave.";
  upkeep.FULL = "This browser's store is full, so the last change is not kept. Export the log now, then make room.";
  upkeep.BROKEN = "What this browser kept is no whole log. It is left as it was; export what you enter now, or clear this site's data to start again.";

  /* {log, fault}. */
  upkeep.kept = function () {
    let text;
    try {
      text = localStorage.getItem(KEY);
    } catch (refused) {
      return { log: upkeep.empty(), fault: upkeep.FORBIDDEN };
    }
    if (text === null) return { log: upkeep.empty(), fault: "" };
    const read = upkeep.parse(text);
    if (read.fault || read.faults.length) return { log: read.log || upkeep.empty(), fault: upkeep.BROKEN };
    return { log: read.log, fault: "" };
  };

  /* Why it is not kept, or nothing. */
  upkeep.keep = function (log) {
    try {
      localStorage.setItem(KEY, JSON.stringify(log));
      return "";
    } catch (refused) {
      return refused && refused.name === "QuotaExceededError" ? upkeep.FULL : upkeep.FORBIDDEN;
    }
  };
})(Ringfence.upkeep);
