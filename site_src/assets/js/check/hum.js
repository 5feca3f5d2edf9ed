/* Hum, length and powering of what works, folded beside the supplies: their scripts are asked for when the verdict stands. What they say stands
   in the fold's own heading and in the findings about balance, and follows the switches; the verdict's few words name the length. */

import { connector, lead } from "../ui/catalogue.js";
import { el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { seen } from "../ui/slices.js";
import { powers } from "./judged.js";

const SCRIPTS = ["interference", "runs", "hum"],
  BALANCE = ["unbalanced", "balance-lost", "hum-on-earthed"];
const WORKS = ["safe", "lossy"],
  NONE =
    "Not worked out here: sound does not pass by wires or a transformer alone, a pad lies between, or it is no sound.";
const NO_METAL =
  "No current crosses a fibre, so no earth loop closes over it, whatever the two devices are powered by and however long it is.";

/* The fold, or null where nothing lies between, no setting works, or it is power. Its heading keeps room for what it will say, so that nothing moves. */
export function hum(question, judged, root) {
  if (
    ![judged, ...judged.settings].some(({ verdict }) => WORKS.includes(verdict)) ||
    !question.through.length ||
    powers(question)
  )
    return null;
  const says = el("span", { class: "rf-hum__both" }, "…"),
    place = el("div", { class: "rf-hum" });
  const fold = el(
    "details",
    { class: "rf-more rf-folded rf-hum-fold" },
    el("summary", {}, el("strong", {}, "Hum: length and powering"), says),
    place,
  );
  if (question.through.some(isLight)) {
    told(place, says, "none: light joins no metal", NO_METAL);
    return fold;
  }
  seen(async () => {
    for (const name of SCRIPTS)
      if (!(await later(name))) {
        none(place, says, "The sum for hum did not load.");
        return;
      }
    const answer = fold.closest(".rf-answer"),
      made = answer && (await Ringfence.hum.section(question, root, said).catch(console.error));
    if (made) place.replaceWith(made);
    else none(place, says, NONE);

    function said(short, whole, cost) {
      const means = answer.querySelector(".rf-banner__means");
      says.textContent = short;
      answer.dataset.hum = whole;
      if (means) means.textContent = means.textContent.replace(Ringfence.ways.LOSSES["balance-lost"], cost);
      balance(answer);
    }
  });
  return fold;
}

/* Is every contact of it a fibre's? */
const isLight = (id) =>
  Object.values(lead(id).ends).every((end) => {
    const { light, contacts } = connector(end.connector);
    return light.length === contacts.length;
  });

const none = (place, says, words) => told(place, says, "not worked out for this one", words);

function told(place, says, short, words) {
  says.textContent = short;
  place.replaceChildren(el("p", {}, words));
}

/* Once the sentence is known, the findings about balance tell it; it changes with the switches. */
export function balance(answer) {
  for (const item of answer.dataset.hum ? answer.querySelectorAll(".rf-finding") : []) {
    if (!BALANCE.includes(item.dataset.finding)) continue;
    const told =
      item.querySelector(".rf-hum__finding") || el("p", { class: "rf-finding__says rf-hum__finding" });
    told.textContent = answer.dataset.hum;
    item.querySelector(".rf-finding__head").after(told);
  }
}
