/* The page "Practice": a short round, told at once, and what comes again when. The address may name one question: #ask=KIND:SUBJECT. */

import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { adding } from "./address.js";
import { asked, told } from "./asked.js";
import { answer as answerOf, core, find, own, right } from "./bank.js";
import { begin as beginNow } from "./begin.js";
import {
  BROKEN,
  forget as forgetAll,
  keep,
  kept,
  next,
  round,
  today as todayIs,
  weak as weakOf,
} from "./keep.js";

const COUNT = 10;
let root, status, place, store, going;
const chosen = { level: "", kind: "" };

function open() {
  store = kept();
  const asked = new URLSearchParams(location.hash.slice(1)).get("ask");
  if (!asked) return entrance();
  const one = find(asked);
  if (!one)
    return entrance(
      `There is no question at “${asked}” any more, or the address has a slip in it. Here are the others.`,
    );
  going = { questions: [one], at: 0, right: 0, wrong: [] };
  return ask();
}

const show = (...parts) => {
  place.replaceChildren(...parts.filter(Boolean));
};
const wanted = () =>
  core().filter(
    (one) => (!chosen.level || one.level === chosen.level) && (!chosen.kind || one.kind === chosen.kind),
  );

function entrance(fault = "") {
  const { kinds, levels } = Ringfence.lessons,
    today = todayIs();
  const due = core().filter(
      (one) => Object.hasOwn(store.seen, one.id) && store.seen[one.id][0] <= today,
    ).length,
    known = Object.keys(store.seen).length;
  const pick = (name, label, all, options) =>
    el(
      "label",
      { class: "rf-field rf-field--wide" },
      el("span", {}, label),
      el(
        "select",
        {
          name,
          onchange: (event) => {
            chosen[name] = event.target.value;
          },
        },
        [["", all], ...options].map(([value, words]) =>
          el("option", { value, selected: chosen[name] === value }, words),
        ),
      ),
    );
  const weak = weakOf(core(), store.seen).slice(0, 3);
  show(
    fault || store.fault ? el("p", { class: "rf-fault", role: "alert" }, fault || store.fault) : null,
    el(
      "div",
      { class: "rf-form" },
      pick(
        "level",
        "Level",
        "All levels",
        levels.map((level) => [level, level]),
      ),
      pick("kind", "Kind of question", "All kinds", Object.entries(kinds)),
    ),
    button({ class: "rf-button", onclick: begin }, "Start a round of ten"),
    el(
      "p",
      { class: "rf-class__sum" },
      known
        ? `${known} of ${core().length} questions met; ${due} due today.`
        : `${core().length} questions wait.`,
    ),
    weak.length
      ? el(
          "div",
          {},
          el("h2", {}, "What you keep getting wrong"),
          el(
            "ul",
            {},
            weak.map(([kind, wrong, all]) => el("li", {}, `${kinds[kind]}: ${wrong} of ${all}`)),
          ),
        )
      : null,
    known || store.fault
      ? button({ class: "rf-button rf-button--quiet", onclick: forget }, "Forget everything on this device")
      : null,
  );
}

function forget() {
  const fault = forgetAll();
  store = kept();
  status.textContent = "Forgotten.";
  entrance(fault);
}

function begin() {
  const found = round(wanted(), store.seen, todayIs(), COUNT, Math.random);
  if (!found.length) return entrance("There are no questions of that kind on that level. Choose another.");
  going = { questions: found, at: 0, right: 0, wrong: [] };
  return ask();
}

function ask() {
  const one = going.questions[going.at];
  show(
    asked(one, {
      root,
      chance: Math.random,
      on: (given) => answer(one, given),
      place: going.questions.length > 1 ? `${going.at + 1} of ${going.questions.length}` : "",
    }),
  );
  look();
}

function answer(one, given) {
  const good = right(one, given);
  if (good) going.right += 1;
  else going.wrong.push(one);
  going.at += 1;
  if (store.fault !== BROKEN) {
    store.seen[one.id] = next(own(store.seen, one.id), good, todayIs());
    store.fault = keep(store.seen);
  }
  const more = going.at < going.questions.length;
  show(
    told(one, given, { root }),
    button({ class: "rf-button", "data-next": "", onclick: more ? ask : end }, more ? "Next" : "How it went"),
    taken(one),
  );
  look();
}

/* The question for a lesson, and as a frame for another page. */
function taken(one) {
  const address = new URL(`${root}embed/questions/${one.id.replaceAll(":", "/")}/`, location.href).href,
    title = one.asks.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
  return el(
    "details",
    { class: "rf-more" },
    el("summary", {}, "Use this question elsewhere"),
    el(
      "p",
      {},
      el("a", { class: "rf-button rf-button--quiet", href: adding(root, "ask", one.id) }, "Add to a lesson"),
    ),
    copier(
      "Copy a frame for your own page",
      `<iframe src="${address}" title="${title}" width="390" height="560"></iframe>`,
      "The frame of this question",
    ),
  );
}

function end() {
  const wrong = going.wrong.length
    ? [
        el("p", {}, "Come back to these:"),
        el(
          "ul",
          {},
          going.wrong.map((one) =>
            el(
              "li",
              {},
              el("a", { href: `#ask=${encodeURIComponent(one.id)}` }, one.asks),
              ` ${answerOf(one)}`,
            ),
          ),
        ),
      ]
    : [];
  show(
    el(
      "section",
      { class: "rf-ask" },
      el(
        "h2",
        { class: "rf-ask__title", tabindex: "-1" },
        `${going.right} of ${going.questions.length} right`,
      ),
      ...wrong,
      el(
        "div",
        { class: "rf-actions" },
        button(
          {
            class: "rf-button",
            onclick: () => {
              if (location.hash) history.replaceState(null, "", location.pathname);
              begin();
            },
          },
          "Ten more",
        ),
        button(
          {
            class: "rf-button rf-button--quiet",
            onclick: () => {
              if (location.hash) history.replaceState(null, "", location.pathname);
              entrance();
            },
          },
          "Enough for now",
        ),
      ),
    ),
  );
  look();
}

function look() {
  const title = place.querySelector(".rf-ask__title");
  title.focus({ preventScroll: true });
  place.scrollIntoView({ block: "start" });
}

beginNow("rf-practice", (page) => {
  ({ root, place, status } = page);
  open();
});
