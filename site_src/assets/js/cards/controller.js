/* Holds the page of cards: the address says which, this lays them out and prints them. */

import { connector as connectorOf, lead as leadOf, port as portOf } from "../ui/catalogue.js";
import { button, el, own } from "../ui/dom.js";
import { ownAwaited, withOwn } from "../ui/own.js";
import { count } from "../ui/words.js";
import { KINDS, PAPERS, read, write } from "./address.js";
import { chosen as chosenOf, list, papers as papersOf } from "./choose.js";
import { connector, lead, port } from "./content.js";
import { figure as figureOf, lay as layOf } from "./layout.js";

const view = { kind: "leads", typed: "" };
let root,
  status,
  faces,
  chosen,
  run = 0;

function start() {
  root = document.getElementById("rf-cards");
  status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  if (ownAwaited(location.hash)) return void withOwn().then(start);
  faces = JSON.parse(root.dataset.faces);
  const asked = read(location.hash);
  if (asked.connectors.length && !asked.leads.length) view.kind = "connectors";
  window.addEventListener("hashchange", render);
  window.addEventListener("resize", fit);
  render();
}

const go = (next) => {
  location.hash = write(next);
};

const on = {
  paper: (paper) => go({ ...chosen, paper }),
  tick: (kind, id, yes) =>
    go({ ...chosen, [kind]: yes ? [...chosen[kind], id] : chosen[kind].filter((other) => other !== id) }),
  add: (more) =>
    go({ ...chosen, ...Object.fromEntries(KINDS.map((kind) => [kind, [...chosen[kind], ...more[kind]]])) }),
  kind: (kind) => {
    Object.assign(view, { kind, typed: "" });
    render();
  },
};

async function render() {
  const mine = ++run,
    key = root.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  chosen = read(location.hash);
  document.body.dataset.cards = chosen.paper;
  const count = KINDS.reduce((sum, kind) => sum + chosen[kind].length, 0);
  const papers = el("div", {
    class: `rf-sheets rf-sheets--${chosen.paper}`,
    "data-root": root.dataset.root,
    "aria-busy": "true",
  });
  const told = el("p", { class: "rf-cards__count" }, count ? "Laying out" : "Nothing is chosen yet.");
  const print = button(
    { class: "rf-button", "data-key": "print", disabled: true, onclick: () => window.print() },
    "Print",
  );
  root.replaceChildren(
    el(
      "div",
      { class: "rf-cards__desk" },
      chosen.unknown.length ? notFound() : null,
      papersOf(chosen, on),
      el("div", { class: "rf-cards__print" }, print, told),
      chosenOf(chosen, on),
      el(
        "details",
        {
          class: "rf-more",
          open: !count || view.open,
          ontoggle: (event) => {
            view.open = event.target.open;
          },
        },
        el("summary", {}, "Choose connectors, leads and devices"),
        list(chosen, view, on),
      ),
    ),
    el("h2", { class: "rf-hidden" }, "As printed"),
    papers,
  );
  const again = key && root.querySelector(`[data-key="${CSS.escape(key)}"]`);
  if (again) again.focus({ preventScroll: true });
  const made = await lay(papers, () => mine === run);
  if (mine !== run) return;
  told.textContent = count ? said(made) : "Nothing is chosen yet.";
  print.disabled = !count;
  papers.removeAttribute("aria-busy");
  status.textContent = count ? said(made) : "";
}

const said = (made) =>
  `${count(made, "card", "cards")} on ${count(Math.ceil(made / PAPERS[chosen.paper]), "sheet", "sheets")}`;

const notFound = () =>
  el(
    "div",
    { class: "rf-unknown", role: "alert" },
    chosen.unknown.slice(0, 5).map((text) => el("p", {}, "Not found: ", el("code", {}, text))),
    el(
      "p",
      {},
      chosen.unknown.length > 5
        ? `And ${chosen.unknown.length - 5} more. Nothing here goes by these ids.`
        : "Nothing here goes by that id, so there is no card for it.",
    ),
  );

/* Lays all cards out, then puts them on sheets; how many cards there are. Stops when something newer is asked. */
async function lay(papers, wanted) {
  const { stamp, site } = root.dataset,
    all = [];
  for (const kind of KINDS)
    for (const id of chosen[kind]) {
      const content =
        kind === "ports"
          ? port(portOf(id))
          : kind === "leads"
            ? lead(leadOf(id))
            : connector(connectorOf(id), own(faces, id));
      const figure = await figureOf(content.drawings, root.dataset.root);
      if (!wanted()) return 0;
      all.push(...layOf(content, figure, papers, { stamp, site }));
    }
  const each = PAPERS[chosen.paper];
  papers.replaceChildren(
    ...Array.from({ length: Math.ceil(all.length / each) }, (_, sheet) =>
      el(
        "div",
        { class: "rf-sheets__slot" },
        el(
          "section",
          { class: "rf-sheets__one", "aria-label": `Sheet ${sheet + 1}` },
          all.slice(sheet * each, (sheet + 1) * each),
          each > 1 ? el("div", { class: "rf-sheets__marks", "aria-hidden": "true" }) : null,
        ),
      ),
    ),
  );
  fit();
  return all.length;
}

/* Sheets are shown as large as the window lets them be; their own measures, and with them the lines, stay those of the paper. */
function fit() {
  const papers = root.querySelector(".rf-sheets"),
    sheet = papers && papers.querySelector(".rf-sheets__one");
  if (sheet) papers.style.setProperty("--fit", String(Math.min(1, papers.clientWidth / sheet.offsetWidth)));
}

document.addEventListener("DOMContentLoaded", start);
