/* Length, powering and what lies beside, as switches of an answer: what one hears then, what helps most, and what is left of the treble. */

import { writeAddress } from "../interference/address.js";
import { answer, totalHeard } from "../interference/answer.js";
import { DIMMER, heard, inASentence, ofLength, saysOf } from "../interference/apart.js";
import { cure, ranked } from "../interference/remedies.js";
import { headline, metres as metresOf, ofRemedy, worthTelling } from "../interference/words.js";
import { port } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { seen, slices } from "../ui/slices.js";
import { styled, treble } from "./plot.js";

const LENGTHS = [1, 3, 10, 30, 100];
const POWERED = { earthed: "earthed mains", insulated: "two-pin mains", battery: "a battery" };
const SOCKETS = {
  unknown: "not known",
  "same strip": "the same strip",
  "same room": "the same room",
  "other circuit": "another circuit",
};
const BESIDE = {
  nothing: ["nothing", []],
  mains: [
    "lamp lead, 10 cm",
    [{ cable: "flex", load: "lamp", amps: 0, distance: 0.1, along: 0, lies: "alongside" }],
  ],
  dimmer: ["dimmer feeder, 10 cm", [DIMMER]],
  apart: ["dimmer feeder, 1 m", [{ ...DIMMER, distance: 1 }]],
};

const next = () => new Promise(seen); // not all in one breath

/* From which length on hum is heard between two, in the few words that stand after "Works, but". */
function cost(run, tables) {
  const hums = (metres, beside) => heard(answer(ofLength(run, metres, beside), tables)),
    from = LENGTHS.find((metres) => hums(metres));
  const surely = (step, words) => (step > 1 ? words : `perhaps ${words}`);
  if (from) return surely(hums(from), from <= 3 ? "hum even on short runs" : `hum from ${metresOf(from)} on`);
  const beside = hums(30, [DIMMER]);
  return beside ? surely(beside, "hum beside a dimmer") : "unbalanced, yet no hum heard";
}

/* Resolves to the section of a question, or null where sound does not pass on wires alone. `say(short, whole, cost)` is told what it comes to, now
   and with every turn of a switch. */
export async function section(question, root, say) {
  const { from, into } = question;
  const tables = Ringfence.tables,
    known = (table, id) => Object.hasOwn(table, id);
  if (!known(tables.sources, from) || !known(tables.inputs, into)) return null;
  const first = await Ringfence.judging.ask(
    "run",
    Ringfence.judging.request({ data: Ringfence.data, question }),
  );
  if (!first) return null;
  const own = first.leads[0].length,
    said = el("div", { class: "rf-hum__said", "aria-live": "polite" }),
    usual = [first.source, first.input].map(({ powered }) => POWERED[powered]);
  // The verdict counts the worst powering; this sentence one, so it says which.
  const apart = inASentence(first, tables),
    sentence = `${apart} That is with ${usual[0]} at one end and ${usual[1]} at the other; other powering may hum more.`;
  await next();
  const costs = cost(first, tables);
  await next();
  let run = first,
    beside = "nothing",
    stop = () => null;

  function change(edit) {
    run = structuredClone(run);
    edit(run);
    const earthed = run.source.powered === "earthed" && run.input.powered === "earthed";
    if (!earthed) run.sockets = "unknown";
    sockets.hidden = !earthed;
    show(asSet);
  }

  /* What the switches come to, in one sentence. */
  function asSet(found) {
    const near = beside === "nothing" ? "" : ` beside a ${BESIDE[beside][0].replace(",", "")} away,`;
    return `As you set it: on ${metresOf(run.leads[0].length)}${near} ${saysOf(found)}.`;
  }

  function show(says) {
    const found = answer(run, tables),
      short = says(found),
      told = [el("p", { class: "rf-hum__head" }, el("strong", {}, headline(found)))];
    if (found.dominant && found.worst !== "inaudible")
      told.push(el("p", {}, `Most of it: ${tables.formulas[found.dominant].words}`));
    const help = el("div", {});
    say(short, short === apart ? sentence : `${short} ${apart}`, costs);
    cures(found, help);
    said.replaceChildren(
      ...told,
      help,
      el(
        "p",
        {},
        el(
          "a",
          { href: `${root}run/${writeAddress(run)}` },
          "This run in full: every way in, every cure, your meter's reading",
        ),
      ),
      treble(run, tables),
    );
  }

  /* One cure after the other in slices, so that the page never stands still. */
  function cures(found, place) {
    stop();
    if (found.worst === "inaudible") return;
    const heard = totalHeard(run, tables),
      made = [],
      asked = run;
    stop = slices(
      Object.keys(tables.remedies),
      (id) => made.push(cure(id, asked, tables, heard)),
      () => {
        const best = worthTelling(found, ranked(made, asked, tables)).slice(0, 2);
        if (best.length)
          place.append(
            el("p", {}, "What helps most:"),
            el(
              "ul",
              {},
              best.map((one) => el("li", {}, ofRemedy(one, tables))),
            ),
          );
      },
    );
  }

  const option =
    (value) =>
    ([one, words]) =>
      el("option", { value: one, selected: String(one) === String(value) }, words);
  const knob = (name, owner, options, value, put) =>
    el(
      "label",
      { class: "rf-knob" },
      el(
        "span",
        { class: "rf-knob__label" },
        el("span", { class: "rf-knob__name" }, name),
        owner ? el("span", { class: "rf-knob__owner" }, owner) : null,
      ),
      el(
        "select",
        { class: "rf-knob__list", onchange: (event) => put(event.target.value) },
        options.map(option(value)),
      ),
    );
  const lengths = [...new Set([...LENGTHS, own])]
    .sort((one, other) => one - other)
    .map((metres) => [metres, metresOf(metres)]);
  const powered = (side, id) =>
    knob("Powered by", port(id).name.split(",")[0], Object.entries(POWERED), run[side].powered, (value) =>
      change((it) => {
        it[side].powered = value;
      }),
    );
  const sockets = knob("Both plugged into", "", Object.entries(SOCKETS), "unknown", (value) =>
    change((it) => {
      it.sockets = value;
    }),
  );
  const element = el(
    "section",
    { class: "rf-hum", "aria-label": "Hum and length" },
    el("p", {}, sentence),
    el(
      "div",
      { class: "rf-switches rf-hum__knobs" },
      knob("Length", tables.cables[run.leads[0].cable].name, lengths, own, (value) =>
        change((it) => {
          it.leads[0].length = Number(value);
        }),
      ),
      powered("source", from),
      powered("input", into),
      sockets,
      knob(
        "Beside the lead",
        "",
        Object.entries(BESIDE).map(([key, [words]]) => [key, words]),
        "nothing",
        (value) =>
          change((it) => {
            beside = value;
            it.beside = structuredClone(BESIDE[value][1]);
          }),
      ),
    ),
    said,
  );
  styled(root);
  sockets.hidden = first.source.powered !== "earthed" || first.input.powered !== "earthed";
  show(() => apart);
  return element;
}
