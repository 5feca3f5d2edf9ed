/* Looking further than the table: every chain of up to three leads, on request; and what to make or order where nothing is safe. */

import { ask, request as requestOf, stop } from "../judging/ask.js";
import { bagOnly } from "../ui/bag.js";
import { button, el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { seen } from "../ui/slices.js";
import { rank, worth } from "../ui/table.js";
import { carried } from "./bagged.js";

/* A button that starts the search, or the search `atOnce`. `offered(found)` makes the list of what was found, or null. */
export function further(question, offered, { atOnce = false } = {}) {
  const place = el("div", { class: "rf-further" }),
    told = el("p", { class: "rf-form__note", role: "status" });
  if (atOnce) seen(start);
  else
    place.append(
      button({ class: "rf-button rf-button--quiet", onclick: start }, "Look for two or three leads in a row"),
    );
  return place;

  function start() {
    place.replaceChildren(
      told,
      button(
        {
          class: "rf-button rf-button--quiet",
          onclick: () => {
            stop("search");
            end([], "Stopped.");
          },
        },
        "Stop",
      ),
    );
    told.textContent = "Looking …";
    const leads = Object.keys(Ringfence.data.leads),
      request = requestOf({ data: Ringfence.data, question }, leads);
    ask(
      "search",
      { ...request, only: bagOnly() ? leads.filter(carried) : null },
      {
        onstep: ({ looked, known }) => {
          if (place.isConnected) told.textContent = `Looked at ${looked} of ${known} chains …`;
          else stop("search");
        },
      },
    ).then(
      (found) => end(found, summary(found)),
      (fault) => {
        console.error(fault);
        end([], "The search broke down.");
      },
    );
  }

  /* A wiring to start from, on the bench; comes with the scripts of the working. */
  function layOut() {
    const line = el("p", {});
    later("working").then((loaded) => {
      const wiring = loaded && Ringfence.check.laidOut(question);
      if (wiring)
        line.append(
          el(
            "a",
            { href: `${document.getElementById("rf-check").dataset.root}bench/${wiring}` },
            "Lay such a lead out on the bench: what it does, and how to make it",
          ),
        );
    });
    return line;
  }

  function end(found, words) {
    told.textContent = words;
    place.replaceChildren(...[told, offered(found)].filter(Boolean));
    if (found.some((way) => worth(way) < rank("lossy"))) return;
    const request = requestOf({ data: Ringfence.data, question }, Object.keys(Ringfence.data.leads));
    ask("missing", request).then(
      (wanted) => place.append(el("p", { class: "rf-further__missing" }, wanted), layOut()),
      console.error,
    );
  }
}

function summary(found) {
  if (!found.length) return "No chain of up to three leads works without harm.";
  if (found[0].offered)
    return `Found a way that ${found[0].offered === "safe" ? "is safe" : "works"} in the order told.`;
  return found[0].verdict === "safe"
    ? "Found a safe way."
    : "Nothing is safe; the best there is loses something.";
}
