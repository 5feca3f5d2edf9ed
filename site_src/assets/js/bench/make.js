/* The sheets of a lead that is in no catalogue. To build it: parts, what goes on which contact, the order of work, what it must read. To order it: the same
   for a shop or a maker, as text. On a phone and on A4. */

import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { partSaid } from "./drawing.js";
import { stock } from "./stock.js";

const SCRIPTS = ["faults", "faulty"];

/* A function that gives the sheet of a wiring, filled when it is asked for. */
export const making = (root) =>
  function (lead, wiring) {
    const place = el("div", { class: "rf-make" });
    const open = async () => {
      for (const name of SCRIPTS)
        if (!(await later(name))) {
          place.append(
            el(
              "p",
              { class: "rf-fault", role: "alert" },
              "The scripts of the sheet could not be loaded. Nothing was lost: try again with a network.",
            ),
          );
          return;
        }
      place.replaceChildren(...sheet(lead, wiring, root));
    };
    place.append(
      button(
        { class: "rf-button rf-button--quiet", "data-key": "make", onclick: open },
        "Show the sheets: build it, test it, order it",
      ),
    );
    return place;
  };

function sheet(lead, wiring, root) {
  const { connectors } = Ringfence.data,
    tables = Ringfence.faulty,
    ends = Object.values(lead.ends),
    cable = wiring.cable && stock()[wiring.cable];
  const made = Ringfence.faults.sheet(
    lead,
    Object.fromEntries(ends.map(({ connector }) => [connector, connectors[connector].contacts])),
    tables,
  );
  const list = (items) =>
    el(
      "ul",
      { class: "rf-plain" },
      items.map((words) => el("li", {}, words)),
    );
  const table = (head, rows) =>
    el(
      "table",
      { class: "rf-table" },
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          head.map((words) => el("th", { scope: "col" }, words)),
        ),
      ),
      el(
        "tbody",
        {},
        rows.map(([first, ...more]) =>
          el(
            "tr",
            {},
            el("th", { scope: "row" }, first),
            more.map((one) => el("td", {}, one)),
          ),
        ),
      ),
    );
  const shape = (id) => connectors[id].shape;
  const face = ({ connector, half }) =>
    ["concentric", "coaxial"].includes(shape(connector))
      ? null
      : el("img", {
          class: "rf-make__face",
          alt: `Solder side, ${half}`,
          src: `${root}draw/connector-${connector}-${half}-solder.svg`,
          onerror: (event) => event.target.remove(),
        });
  const order = Ringfence.faults.order(lead, made, tables, {
    name: ends.map(({ label }) => label).join(" to "),
    connectors: Object.fromEntries(ends.map(({ connector }) => [connector, connectors[connector].name])),
    cable: cable ? `${tables.making.cables[wiring.cable] || cable.name}, ${wiring.length}` : "",
    parts: wiring.parts.map((part) => partSaid(wiring, part)),
  });
  const box = () => el("input", { type: "checkbox", "aria-label": "passed" });
  return [
    button({ class: "rf-button rf-button--quiet rf-noprint", onclick: print }, "Print this sheet"),
    el("h3", {}, "Buy"),
    list([
      ...ends.map(
        ({ id, connector, half }) => `1 × ${connectors[connector].name}, ${half}, for cable (${id})`,
      ),
      ...(cable ? [`${wiring.length} of ${tables.making.cables[wiring.cable] || cable.name}`] : []),
      ...wiring.parts.map((part) => `1 × ${partSaid(wiring, part)}`),
    ]),
    wiring.parts.some(({ kind }) => kind === "resistor")
      ? el("p", {}, "Resistors: metal film, 1 %; those of the two legs from one reel.")
      : null,
    wiring.parts.some(({ kind, rating }) => kind === "capacitor" && !rating)
      ? el(
          "p",
          {},
          "Capacitors: ask for 63 V where phantom may reach them; + goes to the contact named first.",
        )
      : null,
    made.strip.length
      ? table(
          ["Strip, end", "Sheath", "Core", "Screen"],
          made.strip.map((row) => [row.end, row.sheath, row.core, row.screen]),
        )
      : null,
    made.strip.length
      ? el(
          "p",
          { class: "rf-form__note" },
          "Lengths differ from maker to maker: take the leaflet of your connector.",
        )
      : null,
    ...made.solder.flatMap((one, i) => [
      el("h3", {}, `End ${one.end}: ${one.label}`),
      ...[face(ends[i])].filter(Boolean),
      table(
        ["Contact", "Solder to it"],
        one.contacts.map(({ contact, solder }) => [contact, solder.join("; ")]),
      ),
    ]),
    list(made.says),
    el("h3", {}, "Order of work"),
    el(
      "ol",
      {},
      made.steps.map((words) => el("li", {}, words)),
    ),
    el("h3", {}, "It must read"),
    table(
      ["Between", "The meter shows", "Passed"],
      [
        ...made.test.map(([pair, shows]) => [pair, shows, box()]),
        ["every other pair", tables.says.none, box()],
      ],
    ),
    el(
      "p",
      {},
      "Both ends unplugged; flex it at both plugs while you read: nothing may change. A beep is not a pass: ask for a number.",
    ),
    el("p", {}, "Lead: ____________________ Made: ____________ By: ____________ Tested: ____________"),
    el("h3", {}, "Order it instead"),
    el(
      "p",
      {},
      "For a shop or a maker, so that it cannot be wired otherwise. Ask for the test with the lead.",
    ),
    el("pre", { class: "rf-take__text rf-order" }, order),
    el("div", { class: "rf-noprint" }, copier("Copy the order", order, "The order of this lead")),
  ].filter(Boolean);
}

/* Alone on the paper. */
function print() {
  document.body.dataset.print = "make";
  window.addEventListener(
    "afterprint",
    () => {
      delete document.body.dataset.print;
    },
    { once: true },
  );
  window.print();
}
