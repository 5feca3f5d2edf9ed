/* Holds the state of the bag: what is in it, which of the three views is open, what is asked, and the way back. */

import { picker as pickerOf } from "../check/picker.js";
import { overview } from "../kit/overview.js";
import { news } from "../kit/worse.js";
import { bag, counted, emptyBag, keepBag } from "../ui/bag.js";
import { lead as leadOf, port } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { ownAwaited, withOwn } from "../ui/own.js";
import { count } from "../ui/words.js";
import { arrival, ends, mine } from "./arrival.js";
import { ask, headline } from "./ask.js";
import { carry } from "./carry.js";
import { search } from "./chains.js";
import { read } from "./codes.js";
import { joined, parse } from "./exchange.js";
import { pack } from "./pack.js";

const TABS = [
  ["carry", "Carry"],
  ["pairs", "Pairs"],
  ["ask", "Ask"],
  ["pack", "Pack"],
];
let root,
  status,
  contents,
  incoming = null,
  past = [],
  tab = "carry",
  picking = null,
  stop = () => {};
const asked = { from: null, into: null };
let answers = new Map(); // "from into" -> {ways, failed}, for the leads of now
const view = { kind: "leads", typed: "", ticked: [], pasted: "", fault: "", kept: true, hand: false };

function start() {
  root = document.getElementById("rf-bag");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  if (ownAwaited(location.hash)) return void withOwn().then(start); // a lead of one's own is no lead before
  contents = bag();
  view.ticked = [...contents.leads, ...contents.ports];
  window.addEventListener("hashchange", arrive);
  arrive();
}

/* A link that carries a bag is offered, never taken unasked. */
function arrive() {
  incoming = read(location.hash);
  render();
}

const say = (text) => {
  status.textContent = text;
};

function change(next, words) {
  past.push(contents);
  keep(next, words);
}

function keep(next, words) {
  if (next.leads.join() !== contents.leads.join()) answers = new Map();
  contents = next;
  view.kept = keepBag(contents);
  view.ticked = view.ticked.filter((id) => contents.leads.includes(id) || contents.ports.includes(id));
  render();
  say(words);
}

const without = (list, item) => list.filter((other) => other !== item);

const on = {
  tab(name) {
    tab = name;
    picking = null;
    render();
  },
  kind(name) {
    view.kind = name;
    view.typed = "";
    view.ticked = [...contents.leads, ...contents.ports];
    render();
  },
  tick(kind, id, yes) {
    const name = (kind === "leads" ? leadOf(id) : port(id)).name;
    const next = { ...contents, [kind]: yes ? [...contents[kind], id] : without(contents[kind], id) };
    change(
      { ...next, counts: counted(next.counts, [...next.leads, ...next.ports]) },
      `${name} ${yes ? "in the bag" : "taken out"}`,
    );
  },
  count(id, number) {
    change(
      {
        ...contents,
        counts: counted({ ...contents.counts, [id]: number }, [id, ...Object.keys(contents.counts)]),
      },
      `${number} × ${(leadOf(id) || port(id)).name}`,
    );
  },
  undo() {
    keep(past.pop(), "Undone");
  },
  clear() {
    change(emptyBag(), "The bag is empty");
  },
  take(text) {
    const read = parse(text);
    Object.assign(view, { fault: read.fault || "", pasted: read.fault ? text : "" });
    incoming = read.fault ? null : read;
    render();
    if (incoming) root.scrollIntoView({ block: "start" });
  },
  use(next, words) {
    incoming = null;
    history.replaceState(null, "", location.pathname);
    if (next) {
      view.ticked = [...next.leads, ...next.ports];
      change(next, words);
    } else render();
  },
  begin(kit) {
    change(joined(contents, { ...emptyBag(), leads: kit.leads, ports: kit.ports }), `${kit.name}: in my kit`);
  },
  pick(side) {
    picking = { side, job: null };
    render(true);
  },
  pickJob() {
    picking = { side: "from", job: {} };
    render(true);
  },
  pack(lead) {
    change({ ...contents, leads: [...contents.leads, lead] }, `${leadOf(lead).name} in the bag`);
  },
  addJob(from = asked.from, into = asked.into) {
    change(joined(contents, { ...emptyBag(), jobs: [[from, into]] }), "On the packing list");
  },
  removeJob(job) {
    change({ ...contents, jobs: without(contents.jobs, job) }, "Off the list");
  },
};

function chosen(id) {
  const { side, job } = picking;
  picking = null;
  if (!job) asked[side] = id;
  else if (side === "from") picking = { side: "into", job: { from: id } };
  else return on.addJob(job.from, id);
  return render(true);
}

function render(moved) {
  stop();
  const key = root.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  document.body.dataset.bag = picking ? "picking" : tab;
  root.replaceChildren(
    ...[
      incoming ? arrival(incoming, contents, on) : null,
      picking ? null : news(contents, root.dataset.root, render),
      picking ? null : tabs(),
      picking ? picker() : panel(),
    ].filter(Boolean),
  );
  const again = moved
    ? root.querySelector(".rf-picker__title, [data-key='ask into']")
    : key && root.querySelector(`[data-key="${CSS.escape(key)}"]`);
  if (again) again.focus({ preventScroll: !moved });
}

function tabs() {
  return el(
    "div",
    { class: "rf-tabs" },
    el(
      "nav",
      { "aria-label": "Views of the bag" },
      TABS.map(([name, words]) =>
        button(
          {
            "data-key": `tab ${name}`,
            "aria-current": tab === name ? "page" : null,
            onclick: () => on.tab(name),
          },
          words,
        ),
      ),
    ),
    past.length ? button({ class: "rf-bench__tool", "data-key": "undo", onclick: on.undo }, "Undo") : null,
  );
}

function panel() {
  if (tab === "carry") return carry(contents, view, on);
  if (tab === "pairs") return overview(contents, root.dataset.root);
  const pairs = tab === "ask" ? (asked.from && asked.into ? [[asked.from, asked.into]] : []) : contents.jobs;
  const open = pairs.find((pair) => !answers.has(pair.join(" ")));
  const progress = el("p", { class: "rf-progress" }, "Working");
  if (open) work(open, progress);
  if (tab === "ask")
    return ask(contents, asked, answers.get(pairs.flat().join(" ")), progress, root.dataset.root, on);
  return pack(contents, answers, root.dataset.root, { ...on, pick: on.pickJob });
}

/* One pair at a time; each answer shows itself and starts the next. */
function work([from, into], progress) {
  stop = search(from, into, contents.leads, {
    onstep: (number, all) => {
      progress.textContent = `Working: ${number} of ${all}`;
    },
    ondone: (result) => {
      answers.set(`${from} ${into}`, result);
      render();
      if (tab === "ask") say(`${headline(result.ways)}. ${count(result.ways.length, "way", "ways")}.`);
    },
  });
}

/* The check's own picker, with the devices of the bag on top. */
function picker() {
  const { side, job } = picking;
  const close = () => {
    picking = null;
    render();
  };
  return pickerOf(side, ends(side), {
    hint: () => null,
    first: mine(contents, side, chosen),
    back: close,
    backTo: job ? "Back to the packing list" : "Back",
    onchoose: chosen,
    hidden: side === "from" ? "listen only" : "drive only",
  });
}

document.addEventListener("DOMContentLoaded", start);
