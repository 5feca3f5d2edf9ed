/* The page of my leads: the list, one lead, leads that come back, tags. Every change is kept at once. */

import { button, el, own } from "../ui/dom.js";
import { count as counted, inOrder } from "../ui/words.js";
import { asCsv, asJson, parse } from "./exchange.js";
import { form } from "./form.js";
import { BROKEN, keep, kept } from "./keep.js";
import { find, joined, out, put, same, state as stateOf, tested, today as todayIs } from "./log.js";
import { queue, round } from "./round.js";
import { tags } from "./tags.js";

const view = { of: "list", label: null, going: null, typed: "", only: "", told: "" };
let root, status, names, log, fault, today;

function start() {
  root = document.getElementById("rf-upkeep");
  status = document.getElementById("rf-status");
  if (!root) return;
  names = JSON.parse(document.getElementById("rf-lead-names").textContent);
  today = todayIs();
  ({ log, fault } = kept());
  const asked = new URLSearchParams(location.hash.replace(/^#/, "")).get("lead");
  if (asked && find(log, asked)) Object.assign(view, { of: "lead", label: asked });
  render();
}

function change(next, told = "") {
  log = next;
  if (fault !== BROKEN) fault = keep(log);
  view.told = told;
}

const show = (of, more = {}) => {
  Object.assign(view, { of, label: null, ...more });
  render(true);
};

function render(moved) {
  const base = root.dataset.root;
  const inside = {
    list,
    tags: () => [
      el(
        "div",
        { class: "rf-actions rf-noprint" },
        button({ class: "rf-button", onclick: () => window.print() }, "Print"),
        button({ class: "rf-button rf-button--quiet", onclick: () => show("list") }, "Back to the list"),
      ),
      tags(log, names, log.own || "", (own) => {
        change({ ...log, own });
        render();
      }),
    ],
    lead: () => [form(find(log, view.label || ""), names, base, onForm)],
    round: () => [round(log, view.going, base, onRound)],
  }[view.of]();
  root.replaceChildren(
    ...[
      fault ? el("p", { class: "rf-caution", role: "alert" }, fault) : null,
      view.told ? el("p", { class: "rf-upkeep__told" }, view.told) : null,
      ...inside,
    ].filter(Boolean),
  );
  status.textContent = view.told;
  view.told = "";
  const title = moved && root.querySelector(".rf-ask__title");
  if (title) title.focus({ preventScroll: true });
  if (moved) root.scrollIntoView({ block: "start" });
}

const onForm = {
  close: () => show("list"),
  out: (label) => {
    change(out(log, label), `${label} is off the list.`);
    show("list");
  },
  test: (label, passed) => {
    change(
      put(log, tested(find(log, label), passed, today, log.every)),
      `${label}: ${passed ? "passed" : "failed, out of use"}.`,
    );
    show("list");
  },
  /* Words of what is wrong, or nothing. */
  keep: (lead, was) => {
    const other = find(log, lead.label);
    if (other && !(was && same(was, lead.label)))
      return `There is a lead labelled ${lead.label} already. Give this one another label. Nothing was lost.`;
    change(put(log, lead, was || lead.label), `${lead.label} is kept.`);
    show("list");
    return "";
  },
};

const onRound = {
  back: () => {
    view.going.at -= 1;
    render(true);
  },
  end: () => show("list", { going: null }),
  answer: (word) => {
    const { going } = view,
      label = going.labels[going.at];
    going.answers[label] = word;
    going.at += 1;
    if (word !== "missing") change(put(log, tested(find(log, label), word === "passed", today, log.every)));
    render(true);
  },
};

function list() {
  const state = new Map(log.leads.map((lead) => [lead, stateOf(lead, today)]));
  const count = (word) => [...state.values()].filter((one) => one === word).length;
  const wanted = log.leads
    .filter(
      (lead) =>
        (!view.only || state.get(lead) === view.only) &&
        `${lead.label} ${own(names, lead.lead) || ""} ${lead.note}`
          .toLowerCase()
          .includes(view.typed.toLowerCase()),
    )
    .sort((a, b) => inOrder(a.label, b.label));
  const rows = el(
    "ul",
    { class: "rf-upkeep__list" },
    wanted.map((lead) =>
      el(
        "li",
        {},
        button(
          { class: "rf-option", onclick: () => show("lead", { label: lead.label }) },
          el("span", { class: "rf-option__name" }, lead.label),
          el(
            "span",
            { class: "rf-option__more" },
            `${words(lead, state.get(lead))}${own(names, lead.lead) ? ` · ${names[lead.lead]}` : ""}`,
          ),
        ),
      ),
    ),
  );
  return [
    el(
      "p",
      { class: "rf-upkeep__sum" },
      log.leads.length
        ? [
            counted(log.leads.length, "lead", "leads"),
            ...["due", "never tested", "out of use"].filter(count).map((word) => `${count(word)} ${word}`),
          ].join(", ")
        : "No lead is in the log yet. Add the first, or import a list.",
    ),
    el(
      "div",
      { class: "rf-actions" },
      button({ class: "rf-button", onclick: () => show("lead") }, "Add a lead"),
      log.leads.length
        ? button({ class: "rf-button rf-button--quiet", onclick: begin }, "Leads that came back")
        : null,
      log.leads.length
        ? button({ class: "rf-button rf-button--quiet", onclick: () => show("tags") }, "Tags to print")
        : null,
    ),
    log.leads.length
      ? el(
          "div",
          { class: "rf-chips", role: "group", "aria-label": "Show" },
          [
            ["", "all"],
            ["due", "due"],
            ["never tested", "never tested"],
            ["out of use", "out of use"],
          ].map(([word, said]) =>
            button(
              {
                class: "rf-chip",
                "aria-pressed": String(view.only === word),
                onclick: () => {
                  view.only = word;
                  render();
                },
              },
              said,
            ),
          ),
        )
      : null,
    log.leads.length > 8
      ? el("input", {
          class: "rf-picker__search",
          type: "search",
          "aria-label": "Find a lead",
          placeholder: "Find a lead",
          value: view.typed,
          onchange: (event) => {
            view.typed = event.target.value;
            render();
          },
        })
      : null,
    rows,
    carry(),
  ];
}

const words = (lead, state) =>
  ({
    "out of use": "out of use",
    "never tested": "never tested",
    due: `was due ${lead.due}`,
    fine: `passed ${lead.tested}${lead.due ? `, next ${lead.due}` : ""}`,
  })[state];

function begin() {
  show("round", { going: { labels: queue(log, today), at: 0, answers: {} } });
}

/* Out of this browser and into it, and how often a lead is due. */
function carry() {
  const file = el("input", {
    class: "rf-hidden",
    id: "rf-upkeep-file",
    type: "file",
    accept: ".json,.csv,application/json,text/csv",
    onchange: async () => {
      if (file.files.length) take(await file.files[0].text());
    },
  });
  const every = el(
    "select",
    {
      onchange: (event) => {
        change({ ...log, every: Number(event.target.value) });
      },
    },
    [1, 2, 3, 6, 12, 24].map((months) =>
      el("option", { value: months, selected: months === log.every }, counted(months, "month", "months")),
    ),
  );
  return el(
    "details",
    { class: "rf-fold", open: !log.leads.length },
    el("summary", {}, "Take the log along"),
    el(
      "div",
      { class: "rf-actions" },
      saver("CSV", "leads.csv", "text/csv", asCsv),
      saver("JSON", "leads.json", "application/json", asJson),
      file,
      el("label", { class: "rf-button rf-button--quiet", for: "rf-upkeep-file" }, "Import CSV or JSON"),
    ),
    el(
      "div",
      { class: "rf-form" },
      el("label", { class: "rf-field" }, el("span", {}, "A lead is due again after"), every),
    ),
    el(
      "p",
      { class: "rf-form__note" },
      "The log stays in this browser; nothing is sent anywhere. A phone may forget it after some weeks without a visit: export it now and then.",
    ),
  );
}

const saver = (words, name, type, make) =>
  button(
    {
      class: "rf-button rf-button--quiet",
      onclick: () => {
        const url = URL.createObjectURL(new Blob([make(log)], { type }));
        el("a", { href: url, download: name }).click();
        setTimeout(() => URL.revokeObjectURL(url), 1000);
      },
    },
    `Export ${words}`,
  );

function take(text) {
  const read = parse(text);
  if (read.fault) view.told = `${read.fault} Your log is as it was.`;
  else
    change(
      joined(log, read.log),
      [`Read ${counted(read.log.leads.length, "lead", "leads")}.`, ...read.faults.slice(0, 3)].join(" "),
    );
  render();
}

document.addEventListener("DOMContentLoaded", start);
