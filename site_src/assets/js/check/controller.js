/* Holds the state of the check. The question lives in the address; only which picker is open, and the words of a question half understood, live
   here. The two ends are asked for; a lead is a third choice that nobody has to make: without one, the ways are told. What verdicts are worked
   out from and told with is asked for with the first choice, and waited for where it is shown. */

import { begin, stop } from "../judging/ask.js";
import { bagOnly } from "../ui/bag.js";
import { port } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { fitting as fittingOf, reach } from "../ui/fits.js";
import { later } from "../ui/later.js";
import { remember, remembered } from "../ui/memory.js";
import { ownAfter, ownAwaited, ownQuestion, withOwn } from "../ui/own.js";
import { seen } from "../ui/slices.js";
import { row } from "../ui/table.js";
import { read, write } from "./address.js";
import { answer as answerOf, notFound } from "./answer.js";
import { bagged, bagSwitch, kitFirst, news } from "./bagged.js";
import { byOwn } from "./by-own.js";
import { doors, guessed } from "./home.js";
import { again, lately } from "./lately.js";
import { found as foundFor, ownWays } from "./numbers.js";
import { picker as pickerOf, straight } from "./picker.js";
import { soon } from "./soon.js";
import { steps } from "./steps.js";

const HELD = 120; // ms
const ORDER = ["from", "into"],
  JUDGED_WITH = ["circuits", "engine", "table", "ways"];
let root,
  status,
  open = null,
  state = null,
  coming = null,
  here = false,
  turns = 0,
  shown = null,
  words = {};

function start() {
  root = document.getElementById("rf-check");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  window.addEventListener("hashchange", moved);
  render(false);
  news(root);
}

/* A switch was turned, forth or back: the answer stays and only tells another setting. All else is shown anew. */
function moved() {
  if (/^#[^=]+$/.test(location.hash)) return; // a place on the page, and no other question
  const next = read(location.hash);
  if (!shown || open || shown.asks !== asks(next) || !shown.turn) {
    open = null;
    render(true);
    return;
  }
  state = next;
  remember(location.hash);
  status.textContent = shown.turn(state.set);
}

const ends = ({ from, through, into }) => JSON.stringify([from, through, into]);
const asks = ({ from, through, into, unknown, own }) => JSON.stringify([from, through, into, unknown, own]);

/* The next end to choose, or null when both are. */
const missing = () => ORDER.find((step) => state[step] === null) || null;

function go(changes) {
  const hash = write({ ...state, set: [], own: ownAfter(state.own, state, changes), ...changes }); // another question has other settings
  if (hash === location.hash) {
    close();
    return;
  }
  history.pushState(null, "", hash || location.pathname + location.search); // a new hash would tell of itself, but a good while later
  moved();
}

function close() {
  open = null;
  render(true);
}

const actions = {
  open(step, index) {
    open = open && open.step === step && !missing() ? null : { step, index };
    render(true);
  },
  remove(index) {
    const left = state.through.filter((_, place) => place !== index);
    go({ through: left.length ? left : null });
  },
  add() {
    open = { step: "through", index: state.through.length };
    render(true);
  },
};

function choose(step, id) {
  const leads = state.through || [];
  const index = open ? open.index : 0;
  delete words[step];
  if (step === "from" && !port(id).sources.length)
    go({ from: null, through: null, into: id }); // it takes: the other end is asked for
  else if (step !== "through") go({ [step]: id });
  else go({ through: id === null ? [] : [...leads.slice(0, index), id, ...leads.slice(index + 1)] });
}

function render(moved) {
  turns += 1; // nobody waits for what was asked before
  stop();
  if (ownAwaited(location.hash)) return void withOwn().then(() => render(moved));
  state = read(location.hash);
  const step = open ? open.step : missing();
  const current = step ? { step, index: open ? open.index : 0 } : null;
  const chosen = ORDER.filter((one) => one !== step && state[one] !== null).length;
  if (chosen && !coming) coming = Promise.all(JUDGED_WITH.map(later)).then(arrived);
  const told = step === "through" || chosen === 2 || (chosen && state.through); // by its verdict, each row of the list or the whole
  if (!here && told) coming.then(() => render(moved));
  else show(current, moved);
}

/* What did not come is asked for again with the next choice; until then the page says what it lacks. */
function arrived(came) {
  here = true;
  begin();
  if (came.includes(false)) coming = null;
}

function show(current, moved) {
  const judged = !current && state.through,
    before = judged && shown && shown.ends === ends(state) && shown.element.isConnected ? shown : null;
  shown = null;
  if (before) return answer(turns, moved, hold(before, turns, moved));
  put(
    current ? [again(), picker(current)] : [guessed(words, choose), judged ? soon(state) : ways()],
    current,
  );
  if (moved) focus();
  return judged ? answer(turns, moved) : null;
}

/* Only a number changed: the answer before it stays for as long as nobody notices, and its drawings stay. */
function hold(before, turn, moved) {
  before.element.setAttribute("aria-busy", "true");
  setTimeout(() => {
    if (turn !== turns || !before.element.isConnected) return;
    put([guessed(words, choose), soon(state)], null);
    if (moved) focus();
  }, HELD);
  return before;
}

function put(parts, current) {
  const before = [
    state.unknown.length ? notFound(state.unknown) : null,
    steps(state, current, actions),
    state.from || state.into || open ? null : doors(root.dataset.root),
  ];
  root.replaceChildren(...[...before, ...parts].filter(Boolean));
  document.body.dataset.check = !current
    ? "answer"
    : state.from || state.into || open
      ? current.step
      : "start";
}

/* Both ends are chosen and no lead: what one would take. Without its scripts, the question that can be answered is asked. */
function ways() {
  const last = read(remembered());
  if (last.from !== state.from || last.into !== state.into) remember(location.hash); // else the lead of last time would be forgotten
  if (!Ringfence.ways || !Ringfence.rulebook || !Ringfence.engine?.judge)
    return el(
      "p",
      { class: "rf-standing__news" },
      "The list of ways did not load. Load this page again, or choose a lead above.",
    );
  const asked = { from: state.from, into: state.into, own: state.own },
    own = ownWays(asked, root.dataset.root, switched, (words) => {
      status.textContent = words;
    });
  if (own) return own;
  const told = Ringfence.ways.list(
    asked,
    root.dataset.root,
    switched,
    Ringfence.ways.of(asked.from, asked.into).map((way) => ({ ...way, own: byOwn(asked) })),
  );
  status.textContent = told.announce;
  return told.element;
}

/* Stands when it is worked out, if the same is still asked then, part by part; where somebody has scrolled to in between, they stay. */
async function answer(turn, moved, before = null) {
  const { from, through, into, own } = state,
    question = ownQuestion({ from, through, into, ...(own ? { own } : {}) });
  remember(location.hash);
  const found = await foundFor(question);
  if (turn !== turns) return;
  const attended =
      moved && (document.activeElement === document.body || root.contains(document.activeElement)),
    held = before && before.element.isConnected;
  shown = {
    asks: asks(state),
    ends: ends(state),
    ...answerOf(question, root.dataset.root, found, {
      set: state.set,
      drawn: before?.drawn,
      onturn: (set) => go({ set }),
      onown: (changes) => (changes ? go(changes) : render(true)),
    }),
  };
  put([guessed(words, choose), shown.element], null);
  status.textContent = shown.announce;
  if (attended) focus(held);
  grow(shown);
}

/* The rest of an answer, a part a frame, while it is the one that is shown. */
const grow = (one) =>
  seen(() => {
    if (shown === one && one.more?.()) grow(one);
  });

function picker({ step, index }) {
  status.textContent = "";
  const leads = step === "through" ? (state.through || []).slice(0, index) : state.through || [],
    from = state.from && port(state.from);
  const fitting =
      step === "from"
        ? fittingOf.either()
        : step === "into" && !state.through
          ? fittingOf.any(from)
          : fittingOf[step](from, leads),
    beside = step === "from" || !from ? [] : reach(from, leads);
  const choices = step === "through" ? bagged(fitting) : fitting;
  const first =
    step === "through"
      ? [bagSwitch(switched), index > 0 ? null : straight(() => choose(step, null))]
      : kitFirst(choices, (id) => choose(step, id));
  return pickerOf(step, choices, {
    hint: (entry) => hint(step, index, entry),
    beside,
    first,
    last: lately(step),
    back: missing() && !open ? null : close,
    typed: words[step] && words[step].text,
    onask: step === "through" ? null : ask,
    question: step === "from" && state.into ? "What goes into it?" : undefined,
    hidden: step === "through" && bagOnly() ? "leads that do not fit or are not in your kit" : undefined,
    onchoose: (id) => choose(step, id),
  });
}

/* A whole question was understood: what is certain is filled in, the rest is asked for with its words already in the field. */
function ask(understood) {
  words = understood;
  const sure = Object.fromEntries(
    Object.entries(understood).map(([step, { id }]) => [step, step === "through" ? (id ? [id] : null) : id]),
  );
  open = null;
  if (!sure.from && !sure.into) return render(true);
  return go({ through: null, ...sure });
}

function switched() {
  render(false);
  root.querySelector("[role=switch]").focus({ preventScroll: true });
}

/* What the generator's table says about an entry, as far as the rest of the question is chosen. */
function hint(step, index, entry) {
  const asked = {
    ...state,
    [step]: step === "through" ? [...(state.through || []).slice(0, index), entry.id] : entry.id,
  };
  if (!asked.from || !asked.through || !asked.into || asked.through.length > 1) return null;
  return row(asked.from, asked.through, asked.into);
}

const head = () => root.querySelector(".rf-answer__head, .rf-picker__title");

/* In the next frame, where all is laid out anyway. */
function focus(scroll = true) {
  (document.hidden ? setTimeout : requestAnimationFrame)(() => {
    const target = head();
    if (!target) return;
    target.focus({ preventScroll: true });
    const top = root.getBoundingClientRect().top + window.scrollY - 64;
    if (scroll && window.scrollY > top) window.scrollTo(0, Math.max(0, top));
  });
}

document.addEventListener("DOMContentLoaded", start);
