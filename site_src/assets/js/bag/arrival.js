/* A bag that came by link or file, and the two sides of a question to choose from. */

import { filled } from "../ui/bag.js";
import { half, inlets } from "../ui/catalogue.js";
import { button, el } from "../ui/dom.js";
import { fitting } from "../ui/fits.js";
import { count, listed } from "../ui/words.js";
import { joined } from "./exchange.js";

/* `on.use(bag, words)` takes a bag; `on.use(null)` leaves everything as it is. */
export function arrival({ bag: found, unknown }, contents, on) {
  const things = ["leads", "ports", "jobs"].map((name) => found[name].length);
  const told = [
    [things[0], "lead", "leads"],
    [things[1], "device", "devices"],
    [things[2], "connection", "connections"],
  ]
    .filter(([number]) => number)
    .map(([number, one, many]) => count(number, one, many));
  const full = filled(contents) > 0;
  const act = (key, words, next, said) =>
    button(
      { class: "rf-button rf-button--quiet", "data-key": key, onclick: () => on.use(next, said) },
      words,
    );
  return el(
    "div",
    { class: "rf-unknown", role: "status" },
    el(
      "p",
      {},
      told.length ? `Somebody's bag: ${listed(told)}.` : "There is nothing in this bag that is known here.",
    ),
    unknown.length
      ? el(
          "p",
          {},
          "Not understood: ",
          unknown.slice(0, 5).map((text) => el("code", {}, text)),
          unknown.length > 5 ? ` and ${unknown.length - 5} more` : "",
        )
      : null,
    el(
      "div",
      { class: "rf-actions" },
      told.length
        ? act("use", full ? "Use it instead of mine" : "Use it", found, "This bag is now yours")
        : null,
      told.length && full ? act("join", "Add it to mine", joined(contents, found), "Added to the bag") : null,
      act("leave", "Leave it", null, ""),
    ),
  );
}

/* What the picker offers at one side, {fit, not}. */
export function ends(side) {
  if (side === "from") return fitting.from();
  const fit = inlets();
  return {
    fit,
    not: Object.values(Ringfence.data.ports)
      .filter((port) => !fit.includes(port))
      .map((entry) => ({ entry, why: "It only drives; nothing in it listens." })),
  };
}

/* The devices of the bag that can stand at this side, before all others; null when there are none. */
export function mine({ ports }, side, onchoose) {
  const mine = ends(side).fit.filter(({ id }) => ports.includes(id));
  if (!mine.length) return null;
  return el(
    "section",
    { class: "rf-picker__group rf-picker__group--first" },
    el("h3", {}, "In the bag"),
    el(
      "ul",
      {},
      mine.map((port) =>
        el(
          "li",
          {},
          button(
            { class: "rf-option", onclick: () => onchoose(port.id) },
            el("span", { class: "rf-option__name" }, port.name),
            el("span", { class: "rf-option__more" }, half(port)),
          ),
        ),
      ),
    ),
  );
}
