/* The page "Lesson": one stop at a time, large enough for the last row. A verdict is hidden until somebody asks for it. */

import { button, el, slug, verdict } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { read } from "./address.js";
import { asked, told as toldOf } from "./asked.js";
import { find, ready as isReady } from "./bank.js";
import { begin } from "./begin.js";
import { chance } from "./seed.js";
import { connection, drawn, guides } from "./stops.js";

let root, place, lesson, at, shown;

function open() {
  const said = new URLSearchParams(location.hash.slice(1)),
    id = said.get("lesson");
  const ready = id && isReady(id);
  lesson = ready ? { ...ready, faults: [] } : id ? null : read(location.hash);
  if (!lesson || !lesson.stops.length)
    return choose(id ? `There is no ready lesson called “${id}”.` : (lesson && lesson.faults) || []);
  at = Math.min(Math.max(Number(said.get("at")) || 1, 1), lesson.stops.length) - 1;
  shown = false;
  return render();
}

const listed = (faults) =>
  [faults]
    .flat()
    .filter(Boolean)
    .map((fault) => el("p", { class: "rf-fault", role: "alert" }, fault));

function choose(faults) {
  place.replaceChildren(
    ...listed(faults),
    el(
      "ul",
      { class: "rf-list" },
      Ringfence.lessons.lessons.map(({ id, title, about, level, minutes }) =>
        el(
          "li",
          {},
          el(
            "a",
            { href: `#lesson=${id}` },
            el("span", { class: "rf-list__name" }, title),
            el("span", { class: "rf-list__more" }, `${about} ${level}, ${minutes} min.`),
          ),
        ),
      ),
    ),
    el(
      "p",
      {},
      el("a", { class: "rf-button rf-button--quiet", href: `${root}class/make/` }, "Make your own"),
    ),
  );
}

function go(step) {
  if (at + step < 0 || at + step >= lesson.stops.length) return;
  at += step;
  shown = false;
  const said = new URLSearchParams(location.hash.slice(1));
  said.set("at", at + 1);
  history.replaceState(null, "", `#${said}`);
  render(true);
}

/* Arrows and the keys of a presenter's remote turn the page; not while somebody types or picks. */
function key(event) {
  if (
    !lesson ||
    !lesson.stops.length ||
    event.altKey ||
    event.ctrlKey ||
    event.metaKey ||
    event.target.closest("input, select, textarea")
  )
    return;
  const step = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 }[event.key];
  if (!step) return;
  event.preventDefault();
  go(step);
}

function render(moved) {
  const stop = lesson.stops[at],
    last = at === lesson.stops.length - 1;
  place.replaceChildren(
    ...listed(at ? [] : lesson.faults),
    el("p", { class: "rf-class__place" }, `${lesson.title} · ${at + 1} of ${lesson.stops.length}`),
    el("div", { class: "rf-class__stop", "data-stop": stop.kind }, ...body(stop)),
    el(
      "div",
      { class: "rf-actions rf-class__turn" },
      button({ class: "rf-button rf-button--quiet", disabled: at === 0, onclick: () => go(-1) }, "Back"),
      last
        ? el(
            "a",
            { class: "rf-button", href: lesson.id ? `${root}class/lessons/${lesson.id}/` : `${root}class/` },
            lesson.id ? "The handout" : "The class",
          )
        : button({ class: "rf-button", onclick: () => go(1) }, "Next"),
      document.fullscreenEnabled
        ? button({ class: "rf-button rf-button--quiet", onclick: whole }, "Whole screen")
        : null,
    ),
  );
  const title = place.querySelector(".rf-ask__title, .rf-class__say");
  if (moved && title) title.focus({ preventScroll: true });
  if (moved) place.scrollIntoView({ block: "start" });
}

const whole = () => (document.fullscreenElement ? document.exitFullscreen() : place.requestFullscreen());
const reveal = () => {
  shown = true;
  render(true);
};

function body(stop) {
  const say = stop.say ? el("p", { class: "rf-class__say", tabindex: "-1" }, stop.say) : null;
  return [say, ...{ say: () => [], draw, guide, check, ask }[stop.kind](stop)].filter(Boolean);
}

function draw(stop) {
  const { picture, name } = stop.picture ? stop : drawn(stop.of);
  return [
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, name),
    el("img", {
      class: "rf-class__picture",
      src: `${root}draw/${encodeURIComponent(picture)}.svg`,
      alt: name,
    }),
  ];
}

function guide(stop) {
  const [, title] = guides().find(([name]) => name === stop.of);
  return [
    el("h2", { class: "rf-ask__title", tabindex: "-1" }, title),
    el("p", {}, el("a", { class: "rf-button", href: `${root}guides/${stop.of}/` }, "Open the guide")),
  ];
}

function check(stop) {
  const one = stop.verdict ? stop : connection(stop.of);
  const head = el(
    "h2",
    { class: "rf-ask__title", tabindex: "-1" },
    shown ? "This is what happens" : "What happens? Say it first.",
  );
  const given = el(
    "dl",
    { class: "rf-facts rf-class__given" },
    one.given.flatMap(([name, value]) => [el("dt", {}, name), el("dd", {}, value)]),
  );
  const set =
    shown && one.set && one.set.length
      ? el("p", { class: "rf-class__set", role: "status" }, "Working out the position asked for …")
      : null;
  if (set)
    settled(one).then((says) => {
      set.textContent = says;
    });
  if (!shown)
    return [
      head,
      given,
      button({ class: "rf-button", "data-reveal": "", onclick: reveal }, "Show what happens"),
    ];
  return [
    head,
    given,
    el("p", { class: `rf-class__verdict rf-class__verdict--${slug(one.verdict)}` }, verdict(one.verdict)),
    el(
      "p",
      { class: "rf-class__because" },
      one.because || (one.findings.length ? `${one.findings.join(", ")}.` : "Nothing speaks against it."),
    ),
    set,
    one.offer ? el("p", {}, one.offer) : null,
    el("p", {}, el("a", { class: "rf-button rf-button--quiet", href: `${root}${one.works}` }, "The working")),
  ];
}

/* How a connection ends with its switches as the stop has them, worked out on the spot; never in the place of the verdict over all positions. */
export async function settled({ question, set }) {
  const ALL = "That is with what it needs switched on, and every other switch at its worst.",
    WITHOUT = `${ALL} The position asked for could not be worked out here.`;
  if (!((await later("engine")) && (await later("check")))) return WITHOUT;
  const { judged } = await Ringfence.check.judge(question),
    number = judged ? Ringfence.check.position(judged, question, set) : -1;
  return number < 0
    ? WITHOUT
    : `${ALL} With ${Ringfence.check.setting(judged.settings[number].supplies, judged, question)}: ${Ringfence.check.ends(judged, number)}.`;
}

function ask(stop) {
  const one = find(stop.of);
  if (shown) return [toldOf(one, null, { root })];
  const told = (given) => {
    place.querySelector(".rf-class__stop").replaceChildren(toldOf(one, given, { root }));
    place.querySelector(".rf-ask__title").focus();
  };
  return [
    asked(one, { root, chance: chance(one.id), on: told }),
    el(
      "p",
      {},
      button({ class: "rf-button rf-button--quiet", "data-reveal": "", onclick: reveal }, "Show the answer"),
    ),
  ];
}

begin("rf-lesson", (page) => {
  ({ place, root } = page);
  open();
});
document.addEventListener("keydown", key);
