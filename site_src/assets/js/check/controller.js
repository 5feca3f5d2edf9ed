"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* Holds the state of the check. The question lives in the address; only which picker is open lives here. The table of verdicts is asked for with
   the first choice, and waited for where its rows are shown: beside the last choice, and in the answer. */
(function (check, ui) {
  const ORDER = ["from", "through", "into"];
  let root, status, open = null, state = null, table = null, tabled = false, turns = 0, shown = null;

  function start() {
    root = document.getElementById("rf-check");
    status = document.getElementById("rf-status");
    if (!root) return;
    window.addEventListener("hashchange", moved);
    render(false);
  }

  /* A switch was turned, forth or back: the answer stays and only tells another setting. All else is shown anew. */
  function moved() {
    const next = check.read(location.hash);
    if (!shown || open || shown.asks !== asks(next) || !shown.turn) {
      open = null;
      render(true);
      return;
    }
    state = next;
    ui.remember(location.hash);
    status.textContent = shown.turn(state.set);
  }

  const asks = ({ from, through, into, unknown }) => JSON.stringify([from, through, into, unknown]);

  /* The next thing to choose, or null when the question is complete. */
  const missing = () => ORDER.find((step) => state[step] === null) || null;

  function go(changes) {
    const hash = check.write({ ...state, set: [], ...changes }); // another question has other settings
    if (hash === location.hash) { close(); return; }
    history.pushState(null, "", hash || location.pathname + location.search); // a new hash would tell of itself, but a good while later
    moved();
  }

  function close() {
    open = null;
    render(true);
  }

  const actions = {
    open(step, index) { open = open && open.step === step && !missing() ? null : { step, index }; render(true); },
    remove(index) { go({ through: state.through.filter((_, place) => place !== index) }); },
    add() { open = { step: "through", index: state.through.length }; render(true); },
  };

  function choose(step, id) {
    const leads = state.through || [];
    const index = open ? open.index : 0;
    if (step !== "through") go({ [step]: id });
    else go({ through: id === null ? [] : [...leads.slice(0, index), id, ...leads.slice(index + 1)] });
  }

  function render(moved) {
    state = check.read(location.hash);
    const step = open ? open.step : missing();
    const current = step ? { step, index: open ? open.index : 0 } : null;
    const chosen = ORDER.filter((one) => one !== step && state[one] !== null).length;
    if (chosen && !table) table = ui.later("table").then(() => { tabled = true; });
    if (!tabled && chosen >= (step ? 2 : 3)) table.then(() => render(moved));
    else show(current, moved);
  }

  function show(current, moved) {
    shown = null;
    const turn = ++turns, soon = current ? null : check.soon(state);
    put(current ? [again(), picker(current)] : [soon || answer()], current, moved);
    if (soon) ui.seen(() => { if (turn === turns) put([answer()], null, moved); });
  }

  function put(parts, current, moved) {
    const before = [state.unknown.length ? check.notFound(state.unknown) : null, check.steps(state, current, actions)];
    root.replaceChildren(...[...before, ...parts].filter(Boolean));
    document.body.dataset.check = current ? current.step : "answer";
    if (moved) focus();
  }

  function answer() {
    const { from, through, into } = state;
    ui.remember(location.hash);
    shown = { asks: asks(state), ...check.answer({ from, through, into }, root.dataset.root, { set: state.set, onturn: (set) => go({ set }) }) };
    status.textContent = shown.announce;
    return shown.element;
  }

  function picker({ step, index }) {
    status.textContent = "";
    const leads = step === "through" ? (state.through || []).slice(0, index) : state.through || [], from = state.from && ui.port(state.from);
    const fitting = ui.fitting[step](from, leads), beside = step === "from" ? [] : ui.reach(from, leads);
    const choices = step === "through" ? check.bagged(fitting) : fitting;
    const first = step === "through" ? [check.bagSwitch(switched), none(step, index)] : null;
    return check.picker(step, choices, { hint: (entry) => hint(step, index, entry), beside, first, last: lately(step), back: missing() ? null : close,
      hidden: step === "through" && ui.bagOnly() ? "leads that do not fit or are not in the bag" : undefined, onchoose: (id) => choose(step, id) });
  }

  function switched() {
    render(false);
    root.querySelector("[role=switch]").focus({ preventScroll: true });
  }

  /* What the generator's table says about an entry, as far as the rest of the question is chosen. */
  function hint(step, index, entry) {
    const asked = { ...state, [step]: step === "through" ? [...(state.through || []).slice(0, index), entry.id] : entry.id };
    if (!asked.from || !asked.through || !asked.into || asked.through.length > 1) return null;
    return ui.row(asked.from, asked.through, asked.into);
  }

  function none(step, index) {
    if (step !== "through" || index > 0) return null;
    return ui.button({ class: "rf-option rf-option--none", "data-id": "", onclick: () => choose("through", null) },
      ui.el("span", { class: "rf-option__name" }, "None"),
      ui.el("span", { class: "rf-option__more" }, "Plugged straight in"));
  }

  /* What was chosen last time at a step, where one thing was. */
  function lately(step) {
    const chosen = [check.read(ui.remembered())[step]].flat();
    return chosen.length === 1 ? chosen[0] : null;
  }

  /* The last question, one tap away, while nothing is chosen yet. */
  function again() {
    const last = ui.remembered();
    if (location.hash || !last) return null;
    const { from, through, into, unknown } = check.read(last);
    if (!from || !through || !into || unknown.length) return null;
    const names = [ui.port(from).name, ...through.map((id) => ui.lead(id).name), ui.port(into).name];
    return ui.el("p", { class: "rf-again" }, ui.el("a", { href: last }, ui.el("span", {}, "Last time"), names.join(" → ")));
  }

  function focus() {
    const target = root.querySelector(".rf-answer__head, .rf-picker__title");
    if (!target) return;
    target.focus({ preventScroll: true });
    const top = root.getBoundingClientRect().top + window.scrollY - 64;
    if (window.scrollY > top) window.scrollTo(0, Math.max(0, top));
  }

  document.addEventListener("DOMContentLoaded", start);
})(Ringfence.check, Ringfence.ui);
