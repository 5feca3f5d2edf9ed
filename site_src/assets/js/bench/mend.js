/* The guided search for a lead that is in no catalogue: its faults are worked out here, in a worker where there may be one. */

import { button, el, takeCare } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { steps } from "../ui/slices.js";

const SCRIPTS = ["faults", "faulty", "workshop"];

/* A function that gives the place of the search for a lead; for the same lead the same place, with what was read. */
export function mending(root) {
  let of = null,
    place = null,
    stop = () => null;
  return function (lead) {
    const asked = JSON.stringify(lead);
    if (asked === of) return place;
    stop();
    [of, place] = [asked, el("div", {})];
    const mine = place;
    mine.append(
      el("p", {}, "Step by step with a meter: where to put the probes next, and what is wrong with it."),
      button(
        {
          class: "rf-button rf-button--quiet",
          "data-key": "mend",
          onclick: () => {
            stop = begin(lead, mine, root);
          },
        },
        "Find what is wrong with it",
      ),
    );
    return mine;
  };
}

/* Loads what is needed and starts; returns a function that gives up. */
function begin(lead, place, root) {
  let stopped = false,
    halt = () => null;
  const told = el("p", { class: "rf-form__note", role: "status" }, "Working out every fault it may have …");
  place.replaceChildren(told);
  (async () => {
    for (const name of SCRIPTS)
      if (!(await later(name))) {
        told.textContent =
          "The scripts of the search could not be loaded. Nothing was lost: try again with a network.";
        return;
      }
    if (!stopped)
      halt = dictionary(
        lead,
        root,
        (data) => show(data, place, told, root),
        (share) => {
          told.textContent = `Working out every fault it may have: ${Math.round(100 * share)} %`;
        },
      );
  })();
  return () => {
    stopped = true;
    halt();
  };
}

/* Works in a worker; where none may start, in slices. Returns a function that stops it. */
function dictionary(lead, root, done, tell) {
  const contacts = Object.fromEntries(
    Object.values(lead.ends).map(({ connector }) => [
      connector,
      Ringfence.data.connectors[connector].contacts,
    ]),
  );
  const tables = Ringfence.faulty,
    here = () => steps(Ringfence.faults.dictionary(lead, contacts, tables), tell, done);
  let halt = () => null;
  try {
    const worker = new Worker(`${root}assets/js/faults.js`);
    worker.onmessage = ({ data }) => {
      worker.terminate();
      done(data);
    };
    worker.onerror = () => {
      worker.terminate();
      halt = here();
    };
    halt = () => worker.terminate();
    worker.postMessage(JSON.parse(JSON.stringify({ lead, contacts, tables })));
  } catch {
    halt = here();
  }
  return () => halt();
}

function show(data, place, told, root) {
  if (!data) {
    told.textContent =
      "This lead has too many contacts for a search with two probes. Ring it out with a jig, contact by contact.";
    return;
  }
  if (!document.getElementById("rf-workshop-style"))
    document.head.append(
      el("link", { id: "rf-workshop-style", rel: "stylesheet", href: `${root}assets/css/workshop.css` }),
    );
  const search = el("div", { class: "rf-workshop" });
  place.replaceChildren(
    takeCare([
      "Unplug every end, take batteries out, and never put an ohmmeter across a microphone, a ribbon, a coil or a loudspeaker.",
    ]),
    search,
  );
  Ringfence.workshop.mount(search, document.getElementById("rf-status"), data);
}
