/* The supply switches under the verdict. Turning one shows how that setting ends; the verdict over all of them stands above and stays. */

import { el, mark, button as plainButton, slug } from "../ui/dom.js";
import { capital } from "../ui/words.js";
import { sentence } from "./judged.js";
import { asSet, ends as endsOf, setting, switches as switchesOf } from "./settings.js";

/* {element, show(number)}, or null where nothing can be switched. `onturn(set)` is told what an address then holds. */
export function switchboard(judged, question, onturn) {
  const switches = switchesOf(judged, question),
    told = el("div", { class: "rf-set" });
  if (!switches.length) return null;
  let supplies = null;
  const knobs = switches.map((one) => (one.states.length === 2 ? flip(one) : choice(one)));
  const element = el(
    "section",
    { class: "rf-switches", "aria-label": "Supply switches" },
    knobs.map((knob) => knob.element),
    told,
  );
  return { element, show };

  function turn(key, state) {
    onturn(asSet({ ...supplies, [key]: state }));
  }

  function show(number) {
    supplies = judged.settings[number].supplies;
    for (const knob of knobs) knob.show();
    told.replaceChildren(...outcome(judged, question, number).filter(Boolean));
  }

  function label({ name, owner }) {
    return [
      el("span", { class: "rf-knob__name" }, capital(name)),
      owner ? el("span", { class: "rf-knob__owner" }, owner) : null,
    ];
  }

  /* The first position is the one that is on. */
  function flip(one) {
    const [on, off] = one.states,
      word = el("span", { class: "rf-knob__state", "aria-hidden": "true" });
    const button = plainButton(
      {
        class: "rf-knob",
        role: "switch",
        "data-switch": one.key,
        onclick: () => turn(one.key, supplies[one.key] === on ? off : on),
      },
      el("span", { class: "rf-knob__label" }, label(one)),
      word,
      el("span", { class: "rf-knob__track", "aria-hidden": "true" }),
    );
    return {
      element: button,
      show() {
        button.setAttribute("aria-checked", String(supplies[one.key] === on));
        word.textContent = supplies[one.key];
      },
    };
  }

  /* More than two positions. */
  function choice(one) {
    const list = el(
      "select",
      { class: "rf-knob__list", "data-switch": one.key, onchange: () => turn(one.key, list.value) },
      one.states.map((state) => el("option", { value: state }, state)),
    );
    return {
      element: el("label", { class: "rf-knob" }, el("span", { class: "rf-knob__label" }, label(one)), list),
      show() {
        list.value = supplies[one.key];
      },
    };
  }
}

/* How one setting ends: mark, verdict and sentence. */
export function outcome(judged, question, number) {
  const { supplies, verdict } = judged.settings[number],
    ends = endsOf(judged, number);
  const says = sentence(inSetting(judged, number));
  return [
    el(
      "p",
      { class: `rf-set__head rf-set__head--${slug(verdict)}`, "data-verdict": verdict },
      mark(verdict),
      el("span", {}, `With ${setting(supplies, judged, question)}: `, el("strong", {}, ends)),
    ),
    says === sentence(judged) ? null : el("p", { class: "rf-set__says" }, says), // the banner has said it
  ];
}

/* One setting in the form of an answer: its verdict and the findings that hold in it. */
export const inSetting = (judged, number) => ({
  verdict: judged.settings[number].verdict,
  findings: Ringfence.engine.inSetting(judged, number).map(({ finding }) => finding),
});

/* What is said aloud when a switch was turned. */
export function turned(judged, question, number) {
  const { supplies } = judged.settings[number];
  return `With ${setting(supplies, judged, question)}: ${endsOf(judged, number)}. ${sentence(inSetting(judged, number))} Verdict over all settings: ${judged.verdict}.`;
}
