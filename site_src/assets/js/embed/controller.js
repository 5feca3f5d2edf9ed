/* The answer of the check in a frame: the address asks, the same engine answers, and every link opens outside the frame. */

import { read, write } from "../check/address.js";
import { answer } from "../check/answer.js";
import { found as foundFor } from "../check/numbers.js";
import { port } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { ownAwaited, withOwn } from "../ui/own.js";

let root,
  asked = false,
  turns = 0;

function start() {
  root = document.getElementById("rf-embed");
  if (!root || !Ringfence.data) return; // without its data a page says so (standing.js)
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const colour = () => {
    document.body.dataset.mdColorScheme = dark.matches ? "slate" : "default";
  };
  dark.addEventListener("change", colour);
  colour();
  window.addEventListener("hashchange", render);
  render();
}

async function render() {
  const turn = ++turns;
  if (ownAwaited(location.hash)) return void withOwn().then(render);
  const { from, through, into, set, unknown, own } = read(location.hash),
    up = root.dataset.root;
  const whole = from && through && into && !unknown.length;
  if (whole && !Ringfence.table && !asked) {
    // nothing milder than the table is shown: it comes first, if it comes
    asked = true;
    later("table").then(render);
    return;
  }
  const asks = whole ? `${port(from).name} into ${port(into).name}` : "Check a connection";
  const question = { from, through, into, own },
    found = whole ? await foundFor(question) : null;
  if (turn !== turns) return;
  root.replaceChildren(
    el("h1", { class: "rf-hidden" }, asks),
    whole ? answer(question, up, found, { set, brief: true }).element : nothing(unknown),
  );
  document.getElementById("rf-embed-open").href =
    whole || (from && into) ? `${up}check/${write({ from, through, into, set, own })}` : `${up}check/`;
  document.title = `${asks} - Ringfence`;
  root.querySelectorAll("a").forEach((link) => Object.assign(link, { target: "_blank", rel: "noopener" }));
}

const nothing = (unknown) =>
  el(
    "div",
    { class: "rf-unknown", role: "alert" },
    unknown.slice(0, 5).map((text) => el("p", {}, "Not found: ", el("code", {}, text))),
    el(
      "p",
      {},
      unknown.length
        ? "Nothing here goes by that id, so there is no answer for this address."
        : "This address names no whole connection: from, through and into. Open the check to see which lead to take.",
    ),
  );

document.addEventListener("DOMContentLoaded", start);
