"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.adapter = Ringfence.adapter || {};

/* Holds the state of the adapter page: its ends and the two devices live in the address, only what is being chosen lives here. */
(function (adapter, ui) {
  const { el, button } = ui, check = Ringfence.check;
  let root, status, state = null, picking = null;

  function start() {
    root = document.getElementById("rf-adapter");
    status = document.getElementById("rf-status");
    if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
    window.addEventListener("hashchange", () => { picking = null; render(true); });
    render(false);
  }

  function go(changes) {
    picking = null;
    const hash = adapter.write({ ...state, ...changes });
    history.pushState(null, "", hash || location.pathname);
    render(true);
  }

  function render(moved) {
    state = adapter.read(location.hash);
    const { ends, from, into, unknown } = state;
    const told = unknown.length ? check.notFound(unknown) : null;
    const open = picking || (ends.length < 2 ? { end: ends.length } : null);
    const parts = open ? ["from", "into"].includes(open) ? [slots(), portPicker(open)] : [slots(), endPicker(open.end)]
      : [slots(), adapter.result(state, root.dataset.root), el("div", { class: "rf-actions rf-share" }, share())];
    root.replaceChildren(...[told, ...parts].filter(Boolean));
    const head = root.querySelector(".rf-picker__title, .rf-answer__head");
    if (moved && head) head.focus({ preventScroll: false });
    status.textContent = open || !from || !into ? "" : root.querySelector(".rf-adapter__summary")?.textContent || "";
  }

  function slots() {
    const { ends } = state;
    const end = (at) => button({ class: "rf-slot", "data-end": String(at), onclick: () => { picking = { end: at }; render(true); } }, el("span", { class: "rf-step__label" }, `End ${at + 1}`),
      ends[at] ? [ui.side(place(ends[at])), el("span", { class: "rf-step__name" }, ui.half(place(ends[at])))] : el("span", { class: "rf-step__name" }, "choose"));
    const port = (step, label) => button({ class: "rf-slot", "data-step": step, onclick: () => { picking = step; render(true); } }, el("span", { class: "rf-step__label" }, label),
      el("span", { class: "rf-step__name" }, state[step] ? ui.port(state[step]).name.split(",")[0] : "choose"));
    const more = ends.length >= 2 && adapter.ends(ends).length ? button({ class: "rf-button rf-button--quiet", onclick: () => { picking = { end: ends.length }; render(true); } }, "It has another end") : null;
    return el("div", { class: "rf-slots" }, [...new Set([0, 1, ...ends.keys()])].map(end), port("from", "What you have"), port("into", "What it goes into"), more);
  }

  const place = (end) => { const [connector, half] = end.split("/"); return { connector, half }; };

  /* Ends as pictures, the commonest first; of the second end only what is sold with the first. */
  function endPicker(at) {
    const others = state.ends.filter((_, i) => i < at), choices = adapter.ends(others);
    return el("section", { class: "rf-picker rf-picker--ends", "aria-label": `End ${at + 1}` }, el("h2", { class: "rf-picker__title", tabindex: "-1" }, at ? "And the other end?" : "What is on one end?"), ui.byPicture(),
      el("ul", { class: "rf-ends" }, choices.map((end) => el("li", {}, button({ class: "rf-end", "data-end": adapter.endName(end), onclick: () => go({ ends: [...others, adapter.endName(end)] }) }, ui.side(end), el("span", {}, ui.half(end)))))));
  }

  function portPicker(step) {
    const meets = (port) => state.ends.some((end) => ui.mated(port, place(end)) || ui.mated(place(end), port)), all = step === "from" ? ui.outlets() : ui.inlets();
    const choices = { fit: all.filter(meets), not: all.filter((port) => !meets(port)).map((entry) => ({ entry, why: "None of these ends goes in there." })) };
    return check.picker(step, choices, { hint: () => null, back: () => { picking = null; render(true); }, onchoose: (id) => go({ [step]: id }), hidden: "that take none of these ends" });
  }

  function share() {
    const link = location.href;
    if (!navigator.share) return ui.copier("Share: copy the link", link, "Link to this adapter");
    return button({ class: "rf-button rf-button--quiet", onclick: () => navigator.share({ title: document.title, url: link }).catch(() => null) }, "Share");
  }

  document.addEventListener("DOMContentLoaded", start);
})(Ringfence.adapter, Ringfence.ui);
