"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};
Ringfence.judging = Ringfence.judging || {};

/* Looking further than the table: every chain of up to three leads, on request; and what to make or order where nothing is safe. */
(function (check, ui, judging) {
  const { el, button } = ui;

  /* A button that starts the search, or the search `atOnce`. `offered(found)` makes the list of what was found, or null. */
  check.further = function (question, offered, { atOnce = false } = {}) {
    const place = el("div", { class: "rf-further" }), told = el("p", { class: "rf-form__note", role: "status" });
    if (atOnce) ui.seen(start);
    else place.append(button({ class: "rf-button rf-button--quiet", onclick: start }, "Look for two or three leads in a row"));
    return place;

    function start() {
      place.replaceChildren(told, button({ class: "rf-button rf-button--quiet", onclick: () => { judging.stop("search"); end([], "Stopped."); } }, "Stop"));
      told.textContent = "Looking …";
      const leads = Object.keys(Ringfence.data.leads), request = judging.request({ data: Ringfence.data, question }, leads);
      judging.ask("search", { ...request, only: ui.bagOnly() ? leads.filter(check.carried) : null }, { onstep: ({ looked, known }) => {
        if (place.isConnected) told.textContent = `Looked at ${looked} of ${known} chains …`;
        else judging.stop("search");
      } }).then((found) => end(found, summary(found)), (fault) => { console.error(fault); end([], "The search broke down."); });
    }

    /* A wiring to start from, on the bench; comes with the scripts of the working. */
    function layOut() {
      const line = el("p", {});
      ui.later("working").then((loaded) => {
        const wiring = loaded && check.laidOut(question);
        if (wiring) line.append(el("a", { href: `${document.getElementById("rf-check").dataset.root}bench/${wiring}` }, "Lay such a lead out on the bench: what it does, and how to make it"));
      });
      return line;
    }

    function end(found, words) {
      told.textContent = words;
      place.replaceChildren(...[told, offered(found)].filter(Boolean));
      if (found.some((way) => ui.worth(way) < ui.rank("lossy"))) return;
      const request = judging.request({ data: Ringfence.data, question }, Object.keys(Ringfence.data.leads));
      judging.ask("missing", request).then((wanted) => place.append(el("p", { class: "rf-further__missing" }, wanted), layOut()), console.error);
    }
  };

  function summary(found) {
    if (!found.length) return "No chain of up to three leads works without harm.";
    if (found[0].offered) return `Found a way that ${found[0].offered === "safe" ? "is safe" : "works"} in the order told.`;
    return found[0].verdict === "safe" ? "Found a safe way." : "Nothing is safe; the best there is loses something.";
  }
})(Ringfence.check, Ringfence.ui, Ringfence.judging);
