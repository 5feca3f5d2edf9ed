"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.mine = Ringfence.mine || {};

/* The page of one's own devices: what is kept, what came by a link, and handing on. */
(function (mine, own, ui) {
  const { el, button } = ui;
  let root, status, said = "";

  function start() {
    root = document.getElementById("rf-mine");
    status = document.getElementById("rf-status");
    if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
    if (ui.ownAwaited(location.hash)) return void ui.withOwn().then(start); // leads are made by the scripts of the bench
    window.addEventListener("hashchange", render);
    render();
  }

  function tell(words, fault) {
    said = fault || "";
    status.textContent = words;
    render();
  }

  function render() {
    const { devices, fault } = own.kept(), arrived = own.readDevices(location.hash);
    root.replaceChildren(...[arrived ? arrival(arrived) : null, said || fault ? el("p", { class: "rf-own__fault", role: "alert" }, said || fault) : null,
      devices.length ? el("ul", { class: "rf-mine" }, devices.map((device) => el("li", {}, mine.card(device, root.dataset.root, tell)))) : el("p", { class: "rf-mine__none" },
        "No device yet. Check a connection, tap a number that decides, type what the manual says, and keep it under a name; or start from a class:"),
      el("p", {}, el("a", { class: "rf-button rf-button--quiet", href: `${root.dataset.root}check/` }, "Check a connection")), mine.starter(tell), leads()].filter(Boolean));
  }

  /* Leads of the bench with a name. */
  function leads() {
    const kept = own.kept().leads, to = root.dataset.root;
    const item = ({ id, name, wiring }) => el("li", { "data-lead": id }, el("a", { href: `${to}bench/${wiring}` }, name), ui.lead(id) ? null : el("span", {}, ": not a whole lead any more; open it and mend it."), " ",
      button({ class: "rf-own__out", "data-key": `remove ${id}`, onclick: () => tell(`${name} removed`, own.removeLead(id)) }, `Remove ${name}`));
    return el("section", { class: "rf-mine__leads", "aria-label": "My leads" }, el("h2", {}, "My leads"), kept.length ? el("ul", {}, kept.map(item))
      : el("p", {}, "None yet. ", el("a", { href: `${to}bench/` }, "Lay one out on the bench"), " and give it a name."));
  }

  /* Devices of a link are offered, never taken unasked. */
  function arrival({ devices, unknown }) {
    const leave = () => { history.replaceState(null, "", location.pathname); };
    return el("div", { class: "rf-unknown", role: "status" },
      el("p", {}, devices.length ? `Somebody's ${devices.length === 1 ? "device" : "devices"}: ${ui.listed(devices.map(({ name }) => name))}. Their numbers are theirs to answer for: hold them against the manual.` : "There is no device in this link that is known here."),
      unknown.length ? el("p", {}, "Not understood: ", unknown.slice(0, 5).map((text) => el("code", {}, text))) : null,
      el("div", { class: "rf-actions" },
        devices.length ? button({ class: "rf-button rf-button--quiet", "data-key": "take", onclick: () => { const faults = devices.map((one) => own.add(one).fault); leave(); tell("Kept among your devices", faults.find(Boolean)); } }, "Keep it among mine") : null,
        button({ class: "rf-button rf-button--quiet", "data-key": "leave", onclick: () => { leave(); tell("Left"); } }, "Leave it")));
  }

  document.addEventListener("DOMContentLoaded", start);
})(Ringfence.mine, Ringfence.own, Ringfence.ui);
