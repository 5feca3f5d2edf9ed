/* Holds the state of the matrix: the filters and whether there is room for a table. */

import { outlets } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { mixed } from "../ui/editions.js";
import { ownAwaited, withOwn as withOwnScripts } from "../ui/own.js";
import { slices } from "../ui/slices.js";
import { count as counted } from "../ui/words.js";
import { filtered, grid as gridOf } from "./best.js";
import { filters } from "./filters.js";
import { overview as overviewOf } from "./overview.js";
import { hasOwn, withOwn } from "./own.js";
import { list, pair, table } from "./views.js";

const roomy = window.matchMedia("(min-width: 600px)");

function start() {
  const root = document.getElementById("rf-matrix");
  const status = document.getElementById("rf-status");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  if (mixed()) {
    root.replaceChildren(
      el(
        "p",
        { class: "rf-standing__loud", role: "alert" },
        "This page was put together from two versions of the site, so it shows no verdicts. Load it again.",
      ),
    );
    return;
  }
  if (ownAwaited(location.hash)) return void withOwnScripts().then(start); // the kit may hold devices of one's own
  if (Ringfence.page && Ringfence.page.standing) root.before(Ringfence.page.standing());
  let grid = null,
    shown = null;
  const place = el("div", {});
  const whole = button(
    {
      class: "rf-toggle",
      role: "switch",
      "aria-checked": "false",
      onclick: () => {
        overview(whole.getAttribute("aria-checked") !== "true");
      },
    },
    el("span", { class: "rf-toggle__knob", "aria-hidden": "true" }),
    "The whole picture on one screen",
  );
  const count = el("p", { class: "rf-matrix__count" });
  let turn = 0;
  const filter = async (wanted) => {
    const mine = ++turn,
      tell = (words) => {
        if (mine === turn) count.textContent = words;
      };
    const all = hasOwn(wanted.bag) ? await withOwn(grid, wanted.bag, tell) : grid;
    if (mine !== turn) return;
    shown = filtered(all || grid, wanted);
    render();
    if (!all) count.textContent += ". Your own devices are left out: their scripts did not load.";
  };
  slices(
    [
      // the page answers to a thumb in between
      () => outlets(), // at its first mention the catalogue is unpacked
      () => {
        grid = shown = gridOf();
      },
      () => root.replaceChildren(filters(grid, roomy.matches, filter), count, whole, place),
      () => {
        roomy.addEventListener("change", render);
        render();
      },
    ],
    (work) => work(),
    () => null,
  );

  function render() {
    const view = whole.getAttribute("aria-checked") === "true" ? overviewOf : roomy.matches ? table : list;
    count.textContent = `${counted(shown.outlets.length, "outlet", "outlets")}, ${counted(shown.inlets.length, "inlet", "inlets")}`;
    status.textContent = `Showing ${count.textContent}`;
    place.replaceChildren(
      shown.outlets.length
        ? view(shown, open, (words) => {
            status.textContent = words;
          })
        : el("p", {}, "Nothing passes these filters."),
    );
  }

  function overview(on) {
    whole.setAttribute("aria-checked", String(on));
    render();
    if (on) whole.scrollIntoView({ block: "start" });
  }

  function open(outlet, inlet, cell) {
    const dialog = pair(outlet, inlet, cell, root.dataset.root, () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  }
}

document.addEventListener("DOMContentLoaded", start);
