"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* Looking further than the table: every chain of up to three leads, on request, a slice at a time; and what to make or order where nothing is safe. */
(function (check, ui) {
  const { el, button } = ui;

  /* A button that starts the search. `offered(found)` makes the list of what was found, or null. */
  check.further = function (question, offered) {
    const place = el("div", { class: "rf-further" }), told = el("p", { class: "rf-form__note", role: "status" });
    let stop = () => null;
    place.append(button({ class: "rf-button rf-button--quiet", onclick: start }, "Look for two or three leads in a row"));
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

    function end(found, words) {
      told.textContent = words;
      const wanted = found.some((way) => ui.worth(way) < ui.rank("lossy")) ? null : Ringfence.missing(Ringfence.data, Ringfence.rulebook, question);
      place.replaceChildren(told, ...[offered(found), wanted && el("p", { class: "rf-further__missing" }, wanted)].filter(Boolean));
    }
  };

  const carriedOnly = () => Object.fromEntries(Object.entries(Ringfence.data.leads).filter(([id]) => check.carried(id)));

  function summary(found) {
    if (!found.length) return "No chain of up to three leads works without harm.";
    if (found[0].offered) return `Found a way that ${found[0].offered === "safe" ? "is safe" : "works"} in the order told.`;
    return found[0].verdict === "safe" ? "Found a safe way." : "Nothing is safe; the best there is loses something.";
  }
})(Ringfence.check, Ringfence.ui);
