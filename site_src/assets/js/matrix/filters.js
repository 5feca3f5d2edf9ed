/* The filter bar: for each side text, device, connector and kind of signal; the best verdict, and what is in the bag. Emits the whole wish at every change. */

import { bag } from "../ui/bag.js";
import { connector } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { joined, verdicts } from "../ui/table.js";
import { capital } from "../ui/words.js";

export function filters(grid, roomy, onchange) {
  const wanted = { from: {}, into: {}, verdict: "", bag: null };
  const { leads, ports } = bag();
  const bags = [
    ["leads", "Only leads in my kit", leads, null],
    ["ports", "Only devices in my kit", null, ports],
    ["both", "Only leads and devices in my kit", leads, ports],
  ].filter(([, , one, two]) => (!one || one.length) && (!two || two.length));
  const form = el(
    "form",
    { class: "rf-filters", "aria-label": "Filter the matrix", onsubmit: (event) => event.preventDefault() },
    side("from", "From", grid.outlets, "sources"),
    side("into", "Into", grid.inlets, "listeners"),
    el(
      "fieldset",
      {},
      el("legend", {}, "Best"),
      choice(
        "Best verdict",
        "Any verdict",
        verdicts()
          .filter((verdict) => joined().bests.has(verdict))
          .map((verdict) => [verdict, capital(verdict)]),
        (value) => {
          wanted.verdict = value;
        },
      ),
      bags.length
        ? choice(
            "Bag",
            "In my kit or not",
            bags.map(([name, words]) => [name, words]),
            (value) => {
              const chosen = bags.find(([name]) => name === value);
              wanted.bag = chosen ? { leads: chosen[2], ports: chosen[3] } : null;
            },
          )
        : null,
    ),
  );
  return el("details", { class: "rf-filters__fold", open: roomy }, el("summary", {}, "Filter"), form);

  function side(name, label, ports, channels) {
    const connectors = unique(ports.map((port) => port.connector)).map((id) => [id, connector(id).name]);
    return el(
      "fieldset",
      {},
      el("legend", {}, label),
      field(label, (value) => {
        wanted[name].text = value;
      }),
      choice(
        `${label}: device`,
        "Any device",
        unique(ports.map((port) => port.device)).map((word) => [word, capital(word)]),
        (value) => {
          wanted[name].device = value;
        },
      ),
      choice(`${label}: connector`, "Any connector", connectors, (value) => {
        wanted[name].connector = value;
      }),
      choice(
        `${label}: kind of signal`,
        "Any kind",
        unique(ports.flatMap((port) => port[channels].map(({ kind }) => kind))).map((word) => [
          word,
          capital(word),
        ]),
        (value) => {
          wanted[name].kind = value;
        },
      ),
    );
  }

  function field(label, set) {
    const input = el("input", {
      type: "search",
      "aria-label": `${label}: name`,
      placeholder: "Name",
      oninput: () => {
        set(input.value.trim());
        onchange(wanted);
      },
    });
    return input;
  }

  function choice(label, any, options, set) {
    const select = el(
      "select",
      {
        "aria-label": label,
        onchange: () => {
          set(select.value);
          onchange(wanted);
        },
      },
      el("option", { value: "" }, any),
      options.map(([value, text]) => el("option", { value }, text)),
    );
    return select;
  }
}

const unique = (items) => [...new Set(items)].sort();
