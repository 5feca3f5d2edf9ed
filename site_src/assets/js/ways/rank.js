/* The ways between two ports, best first: how it ends, what is lost, how common the leads are, how well they match. */

import { FAST, sameKind } from "../engine/kinds.js";
import { lead, port, seldom } from "../ui/catalogue.js";
import { effort } from "../ui/effort.js";
import { mated } from "../ui/fits.js";
import { rows, worth } from "../ui/table.js";

const ORDER = ["worth", "lost", "unmatched", "seldom", "mixed", "effort"];
const SOCKETS = 1.5; // two panel sockets go into each other, and yet one takes a lead: after one that is often met, before one that is not
const SECOND = 1.2; // what needs a second microphone is for another question: after what works, before what does not
const MORE = 3; // how much more seldom every further lead is

const add = (list) => list.reduce((sum, one) => sum + one, 0);

function place({ from, into, through, findings = [], ...way }) {
  const [outlet, inlet, leads] = [port(from), port(into), through.map(lead)],
    kinds = outlet.sources.map(({ kind }) => kind);
  const plugged = outlet.half === "plug" || inlet.half === "plug";
  return {
    worth:
      worth(way) +
      (kinds.includes("microphone") &&
      leads.some(({ ends }) => Object.values(ends).filter((end) => mated(outlet, end)).length > 1)
        ? SECOND
        : 0),
    lost: Ringfence.engine.loss(
      Ringfence.rulebook,
      findings.map((one) => (one.id || one).replaceAll(" ", "-")),
    ),
    unmatched: Number(
      kinds.some((kind) => FAST.includes(kind)) && leads.some(({ impedance }) => impedance === null),
    ),
    seldom: leads.length ? add(leads.map(seldom)) + MORE * (leads.length - 1) : plugged ? -1 : SOCKETS,
    mixed: new Set(
      [outlet, inlet, ...leads.flatMap(({ ends }) => Object.values(ends))].map(({ connector }) => connector),
    ).size,
    effort: effort({ through }),
  };
}

/* A list of ways {from, into, through, verdict, offered, findings} in the order in which one would try them. */
export const ranked = (list) =>
  list
    .map((way) => ({ way, at: place(way) }))
    .sort((a, b) => ORDER.reduce((found, key) => found || a.at[key] - b.at[key], 0))
    .map(({ way }) => way);

/* Does one way end better than another, or as well and lose less? */
export function better(one, other) {
  const [a, b] = [place(one), place(other)];
  return a.worth < b.worth || (a.worth === b.worth && a.lost < b.lost);
}

/* What the table has for two ports, ranked. */
export const of = (from, into) => ranked(rows(from, into));

/* Can anything that one sends be heard by the other? */
export const speak = (from, into) =>
  port(from).sources.some((source) => port(into).listeners.some((listener) => sameKind(source, listener)));
