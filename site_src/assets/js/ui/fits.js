/* What goes into what: the pickers' question. The table of matings comes from the generator; nothing is worked out here. */

import { ends, half, lead, leads } from "./catalogue.js";
import { own } from "./dom.js";
import { listed } from "./words.js";

const key = (place) => `${place.connector}/${place.half}`;

/* The ways two halves touch fully home, each a list of [contact, contact]; undefined when they do not fit. */
export const mated = (one, two) => own(own(Ringfence.mated, key(one)), key(two));

const mates = (places, other) => places.some((place) => mated(place, other));

/* Where the far side of a lead may come out when any of `places` goes into it; none when nothing fits. */
function beyond(places, lead) {
  const ends = Object.values(lead.ends);
  return ends.filter((far) => ends.some((near) => near !== far && mates(places, near)));
}

export const OTHER_KIND = "Takes another kind of signal";
export const ONLY_TAKES = "Only takes, sends nothing";

/* The halves left open after the leads, starting from a port. */
export const reach = (from, through) => through.reduce((places, id) => beyond(places, lead(id)), [from]);

const sayPlaces = (places) => listed([...new Set(places.map(half))], "or");

/* {fit, not: [{entry, why}]} of a list of entries. */
function sorted(entries, fits, why) {
  const result = { fit: [], not: [] };
  for (const entry of entries) {
    if (fits(entry)) result.fit.push(entry);
    else result.not.push({ entry, why: why(entry) });
  }
  return result;
}

const drives = (port) => port.sources.length > 0;

export const fitting = {
  from: () =>
    sorted(Object.values(Ringfence.data.ports), drives, () => "It only listens, so nothing comes out of it."),

  /* What somebody has, whichever end it will be: what sends first, then what only takes. */
  either: () => {
    const all = Object.values(Ringfence.data.ports);
    return {
      fit: [...all.filter(drives), ...all.filter((port) => !drives(port))],
      not: [],
      apart: (port) => (drives(port) ? null : ONLY_TAKES),
    };
  },

  through: (from, before) => {
    const open = reach(from, before);
    return sorted(
      leads(),
      (lead) => beyond(open, lead).length > 0,
      (lead) => `Its ends are ${ends(lead)}; none goes with ${sayPlaces(open)}.`,
    );
  },

  /* Where no lead is asked about, everything that listens: first what hears what is sent. */
  any: (from) => {
    const hears = (port) =>
      !from ||
      from.sources.some((source) =>
        port.listeners.some((listener) => Ringfence.engine.sameKind(source, listener)),
      );
    const { fit, not } = sorted(
      Object.values(Ringfence.data.ports),
      (port) => port.listeners.length > 0,
      () => "It only drives; nothing in it listens.",
    );
    return {
      fit: [...fit.filter(hears), ...fit.filter((port) => !hears(port))],
      not,
      apart: (port) => (hears(port) ? null : OTHER_KIND),
    };
  },

  into: (from, through) => {
    const open = reach(from, through);
    return sorted(
      Object.values(Ringfence.data.ports),
      (port) => port.listeners.length > 0 && mates(open, port),
      (port) =>
        port.listeners.length === 0
          ? "It only drives; nothing in it listens."
          : open.length === 0
            ? "The lead before it does not fit."
            : `Its ${half(port)} does not go with ${sayPlaces(open)}.`,
    );
  },
};
