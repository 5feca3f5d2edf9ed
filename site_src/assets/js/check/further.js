"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* Looking further than the table: every chain of up to three leads, on request, a slice at a time; and what to make or order where nothing is safe. */
(function (check, ui) {
  const { el, button } = ui;

  /* A button that starts the search, or the search `atOnce`. `offered(found)` makes the list of what was found, or null. */
  check.further = function (question, offered, { atOnce = false } = {}) {
    const place = el("div", { class: "rf-further" }), told = el("p", { class: "rf-form__note", role: "status" });
    let stop = () => null;
    if (atOnce) ui.seen(start);
    else place.append(button({ class: "rf-button rf-button--quiet", onclick: start }, "Look for two or three leads in a row"));
    return place;

    function start() {
      place.replaceChildren(told, button({ class: "rf-button rf-button--quiet", onclick: () => { stop(); end([], "Stopped."); } }, "Stop"));
      told.textContent = "Looking …";
      const data = ui.bagOnly() ? { ...Ringfence.data, leads: carriedOnly() } : Ringfence.data;
      stop = ui.steps(Ringfence.search(data, Ringfence.rulebook, question), ({ looked, known }) => {
        if (place.isConnected) told.textContent = `Looked at ${looked} of ${known} chains …`;
        else stop();
      }, (found) => end(found, summary(found)));
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
      const wanted = found.some((way) => ui.worth(way) < ui.rank("lossy")) ? null : Ringfence.missing(Ringfence.data, Ringfence.rulebook, question);
      place.replaceChildren(told, ...[offered(found), wanted && el("p", { class: "rf-further__missing" }, wanted), wanted && layOut()].filter(Boolean));
    }
  };

  const carriedOnly = () => Object.fromEntries(Object.entries(Ringfence.data.leads).filter(([id]) => check.carried(id)));

  function summary(found) {
    if (!found.length) return "No chain of up to three leads works without harm.";
    if (found[0].offered) return `Found a way that ${found[0].offered === "safe" ? "is safe" : "works"} in the order told.`;
    return found[0].verdict === "safe" ? "Found a safe way." : "Nothing is safe; the best there is loses something.";
  }
})(Ringfence.check, Ringfence.ui);
