"use strict";
window.Ringfence = window.Ringfence || {};

/* The answer of the check in a frame: the address asks, the same engine answers, and every link opens outside the frame. */
(function (check, ui) {
  let root, asked = false, turns = 0;

  function start() {
    root = document.getElementById("rf-embed");
    if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const colour = () => { document.body.dataset.mdColorScheme = dark.matches ? "slate" : "default"; };
    dark.addEventListener("change", colour);
    colour();
    window.addEventListener("hashchange", render);
    render();
  }

  async function render() {
    const turn = ++turns;
    if (ui.ownAwaited(location.hash)) return void ui.withOwn().then(render);
    const { from, through, into, set, unknown, own } = check.read(location.hash), up = root.dataset.root;
    const whole = from && through && into && !unknown.length;
    if (whole && !Ringfence.table && !asked) { // nothing milder than the table is shown: it comes first, if it comes
      asked = true;
      ui.later("table").then(render);
      return;
    }
    const asks = whole ? `${ui.port(from).name} into ${ui.port(into).name}` : "Check a connection";
    const question = { from, through, into, own }, found = whole ? await check.found(question) : null;
    if (turn !== turns) return;
    root.replaceChildren(ui.el("h1", { class: "rf-hidden" }, asks), whole ? check.answer(question, up, found, { set, brief: true }).element : nothing(unknown));
    document.getElementById("rf-embed-open").href = whole || (from && into) ? `${up}check/${check.write({ from, through, into, set, own })}` : `${up}check/`;
    document.title = `${asks} - Ringfence`;
    root.querySelectorAll("a").forEach((link) => Object.assign(link, { target: "_blank", rel: "noopener" }));
  }

  const nothing = (unknown) => ui.el("div", { class: "rf-unknown", role: "alert" },
    unknown.slice(0, 5).map((text) => ui.el("p", {}, "Not found: ", ui.el("code", {}, text))),
    ui.el("p", {}, unknown.length ? "Nothing here goes by that id, so there is no answer for this address." : "This address names no whole connection: from, through and into. Open the check to see which lead to take."));

  document.addEventListener("DOMContentLoaded", start);
})(Ringfence.check, Ringfence.ui);
