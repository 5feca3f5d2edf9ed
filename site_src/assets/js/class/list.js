/* The list of stops on the page "Make a lesson". */

import { button, el } from "../ui/dom.js";
import { find, said } from "./bank.js";
import { connection, drawn, guides } from "./stops.js";

const connected = (given) =>
  [
    given
      .slice(0, 3)
      .map(([, value]) => value)
      .join(" → "),
    ...given.slice(3).map(([name, value]) => `${name} ${value}`),
  ].join(", ");
const words = {
  say: () => "Own words",
  draw: ({ of }) => drawn(of).name,
  guide: ({ of }) => `Guide: ${guides().find(([name]) => name === of)[1]}`,
  check: ({ of }) => connected(connection(of).given),
  ask: ({ of }) => `Question: ${find(of).asks} ${said(find(of))}`,
};

/* The stops of a lesson, each to be reworded, moved and taken out; `change(words)` is told what was done. */
export function list(lesson, change) {
  if (!lesson.stops.length)
    return el("p", {}, "No stops yet. Add the first below; a good lesson begins with a question.");
  const move = (from, to) => {
    lesson.stops.splice(to, 0, ...lesson.stops.splice(from, 1));
    change(`Now stop ${to + 1}.`);
  };
  return el(
    "ol",
    { class: "rf-class__stops" },
    lesson.stops.map((stop, at) => {
      const name = words[stop.kind](stop),
        say = el("input", {
          value: stop.say,
          maxlength: "600",
          "aria-label": `Your words at stop ${at + 1}`,
          onchange: () => {
            stop.say = say.value.trim();
            if (stop.kind === "say" && !stop.say) lesson.stops.splice(at, 1);
            change("Kept.");
          },
        });
      return el(
        "li",
        {},
        el("span", {}, name),
        say,
        el(
          "span",
          { class: "rf-actions" },
          button(
            {
              class: "rf-button rf-button--quiet",
              disabled: at === 0,
              "aria-label": `Stop ${at + 1} up`,
              onclick: () => move(at, at - 1),
            },
            "Up",
          ),
          button(
            {
              class: "rf-button rf-button--quiet",
              disabled: at === lesson.stops.length - 1,
              "aria-label": `Stop ${at + 1} down`,
              onclick: () => move(at, at + 1),
            },
            "Down",
          ),
          button(
            {
              class: "rf-button rf-button--quiet",
              "aria-label": `Take stop ${at + 1} out`,
              onclick: () => {
                lesson.stops.splice(at, 1);
                change("Taken out.");
              },
            },
            "Out",
          ),
        ),
      );
    }),
  );
}
