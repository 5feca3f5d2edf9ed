/* "Show the working": a button under a finding that a circuit decides. Opened, it works the case out and shows what a teacher would put on the
   board: the case, the circuit, the voltages, the currents and their sum, the number and its limit. Nothing is worked out before that. */

import { explains } from "../engine/held.js";
import { fixed, quantity } from "../engine/words.js";
import { ask, request } from "../judging/ask.js";
import { button, el } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { asking } from "./by-own.js";
import { flows, keyed } from "./ladder.js";
import { netsInWords } from "./nets.js";
import { schematic } from "./schematic.js";

const STATES = {
  settled: "settled, fully plugged",
  plugging: "while plugging",
  switching: "when a supply is switched, fully plugged",
  signal: "with signal, fully plugged",
};
const NATURE = {
  instant: "; the first instant, large capacitors hold their voltage",
  test: "; all sources quiet, a test current instead",
};
const say = (value, unit) => quantity(value, unit);
let count = 0;

/* The button with what it opens, or null where no circuit decides; `finding` null asks how the signal arrives. */
export function worked(question, finding) {
  if (finding && !explains(finding)) return null;
  const id = `rf-working-${++count}`,
    panel = el("div", { class: "rf-working__panel", id, hidden: true });
  const open = button(
    { class: "rf-working__open", "aria-expanded": "false", "aria-controls": id, onclick: toggle },
    "Show the working",
  );
  return el("div", { class: "rf-working" }, open, panel);

  function toggle() {
    panel.hidden = !panel.hidden;
    open.setAttribute("aria-expanded", String(!panel.hidden));
    open.textContent = panel.hidden ? "Show the working" : "Hide the working";
    if (!panel.childElementCount) fill();
  }

  async function fill() {
    panel.append(el("p", { role: "status" }, "Working it out …"));
    panel.replaceChildren(...(await filled(question, finding, id)));
  }
}

async function filled(question, finding, lane) {
  try {
    return told(await ask("explain", { ...request(asking(question, Ringfence.data)), finding }, { lane }));
  } catch (fault) {
    console.error(fault);
    return [
      el(
        "p",
        {},
        "The working could not be shown: the calculation broke down. The finding itself is not changed by that.",
      ),
    ];
  }
}

function told(worked) {
  const w = netsInWords(worked);
  if (w.nature === "rule") return [el("p", {}, w.note), number(w)].filter(Boolean);
  const parts = keyed(w);
  return [
    theCase(w),
    block("The circuit that decides", schematic(w, parts), legend(w, parts)),
    nets(w),
    partsOf(w, parts),
    sum(w),
    number(w),
    w.note ? el("p", {}, w.note) : null,
  ].filter(Boolean);
}

const block = (title, ...inside) =>
  el("section", { class: "rf-working__block" }, el("h4", {}, title), inside);

function legend(w, parts) {
  const marked = parts.some((part) => part.decides) ? "The marked part decides. " : "";
  const arrows = parts.some((part) => flows(part, w)) ? "Arrows show which way current flows. " : "";
  return el(
    "p",
    { class: "rf-working__quiet" },
    `${marked}${arrows}Each level line is one net: everything on it has the same voltage.`,
  );
}

function theCase(w) {
  const supplies = Object.entries(w.setting)
    .map(([name, state]) => `${name} ${state}`)
    .join(", ");
  const fact = (name, ...inside) => el("div", {}, el("dt", {}, name), el("dd", {}, inside));
  return block(
    "The case",
    el(
      "dl",
      { class: "rf-finding__facts" },
      fact("Plugged", w.way),
      fact("Supplies", supplies || "none that matters"),
      fact("State", (STATES[w.state] || w.state) + (NATURE[w.nature] || "")),
      fact("Tolerances", w.corner),
      w.nature === "signal"
        ? fact("Source", `${w.source}, ${say(w.level, "V")} open-circuit at ${say(w.hertz, "Hz")}`)
        : null,
      fact(
        "Contacts",
        w.touching.length
          ? el(
              "ul",
              { class: "rf-working__contacts" },
              w.touching.map((words) => el("li", {}, words)),
            )
          : "none meet",
      ),
    ),
  );
}

/* A table that scrolls sideways by itself where a phone is too narrow. */
function table(heads, rows, last = null) {
  const row = ([first, ...rest], name = null) =>
    el(
      "tr",
      { class: name },
      el("th", { scope: "row" }, first),
      rest.map((cell) => el("td", {}, cell)),
    );
  return el(
    "div",
    { class: "rf-working__table" },
    el(
      "table",
      { class: "rf-numbers" },
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          heads.map((head) => el("th", { scope: "col" }, head)),
        ),
      ),
      el(
        "tbody",
        {},
        rows.map(([name, cells]) => row(cells, name)),
        last ? row(last, "rf-working__sum") : null,
      ),
    ),
  );
}

function nets(w) {
  const gains = w.nets.some((net) => net.gains.length),
    volts = (net) => (net.zero ? "0 V" : say(net.volts, "V"));
  const name = (net) => [
    el("strong", {}, net.name),
    el("span", { class: "rf-working__quiet" }, net.nodes.join(", ")),
  ];
  const heads = ["Net, and what it joins", gains ? `At ${say(w.hertz, "Hz")}` : "Volts"];
  const shown = block(
    "Voltages, against the 0 V line",
    table(
      heads,
      [...w.nets].sort((one, two) => two.volts - one.volts).map((net) => [null, [name(net), volts(net)]]),
    ),
  );
  if (gains) {
    shown.append(
      el(
        "p",
        { class: "rf-working__quiet" },
        "The same for a source of 1 V, at three frequencies; below zero is upside down:",
      ),
      table(
        ["Net", "20 Hz", "1 kHz", "20 kHz"],
        w.nets
          .filter((net) => !net.zero)
          .map((net) => [null, [net.name, ...net.gains.map((gain) => say(gain, "V"))]]),
      ),
    );
  }
  return shown;
}

function partsOf(w, parts) {
  const name = (part) => [
    el("strong", {}, `${part.key} `),
    `${part.name}${part.decides ? " (decides)" : ""}`,
    part.owner ? el("span", { class: "rf-working__quiet" }, part.owner) : null,
  ];
  const amps = (part) => (part.kind === "meter" && w.nature !== "test" ? "" : say(Math.abs(part.amps), "A"));
  const rows = parts.map((part) => [
    part.decides ? "rf-working__decides" : null,
    [name(part), part.value, say(Math.abs(part.volts), "V"), amps(part)],
  ]);
  return block(
    `Parts that matter${w.left_out ? ` (${w.left_out} more left out)` : ""}`,
    table(["Part", "Value", "Volts", "Current"], rows),
  );
}

/* The currents that leave the deciding net, and that they come to nothing. */
function sum({ equation, nature }) {
  if (!equation) return null;
  const { net, parts, amps, across } = equation,
    turned = nature === "signal" && across.some((one) => Math.abs(one) >= 1e-9);
  if (!equation.says.startsWith("Currents")) return block(`Currents at ${net}`, el("p", {}, equation.says));
  const cells = (name, one, two) => [name, say(one, "A"), ...(turned ? [say(two, "A")] : [])],
    added = (list) => list.reduce((all, one) => all + one, 0);
  const still = (list) =>
    Math.abs(added(list)) > 1e-3 * Math.max(...amps.map(Math.abs), ...across.map(Math.abs)) ? added(list) : 0;
  return block(
    `Currents that leave ${net}`,
    table(
      ["Through", turned ? "In step" : "Current", ...(turned ? ["A quarter turn ahead"] : [])],
      parts.map((part, i) => [null, cells(part, amps[i], across[i])]),
      cells("Sum", still(amps), still(across)),
    ),
    el(
      "p",
      { class: "rf-working__quiet" },
      "What flows in is below zero. What flows in must flow out: the sum is nothing.",
    ),
  );
}

/* The terms, the number against its limit, and where the limit comes from. */
function number(w) {
  if (!w.quantity) return null;
  const limit =
    w.limit === null
      ? ""
      : `; ${w.compare === "above" ? "no more" : "no less"} than ${say(w.limit, w.unit)} is wanted`;
  const said =
    w.quantity === "polarity"
      ? `In step with the source (+1) or upside down (−1): ${fixed(w.value, 3)}; limit ${fixed(w.limit, 0)}`
      : `${say(w.value, w.unit)}${limit}`;
  const proof = [w.evidence, ...w.titles].filter(Boolean).join("; ");
  return block(
    "The number",
    w.terms.length
      ? el(
          "ul",
          {},
          w.terms.map(({ words, value, unit }) => el("li", {}, `${capital(words)}: ${say(value, unit)}`)),
        )
      : null,
    el("p", { class: "rf-working__number" }, said),
    w.limit_from ? el("p", { class: "rf-working__quiet" }, `Limit: ${w.limit_from} (${proof})`) : null,
  );
}
