/* Which source should reach which listener, one device on either side or several of a kind. The twin of pairing.py.
   An output is {place, source, name}, an input {place, listener, name, nodes}, the nodes being what it hears between. */

import { group } from "./assemble.js";
import { AUDIO, asSound, oneFamily, TIMECODE } from "./kinds.js";

export const output = (place, source) => ({ place, source, name: `${place}/${source.id}` });

export const input = (place, listener) => ({
  place,
  listener,
  name: `${place}/${listener.id}`,
  nodes: listener.between.map((node) => `${place}/${node}`),
});

/* Every source on one side of the question. */
export const outputs = (assembly, side) =>
  group(assembly, side).flatMap((place) =>
    assembly.places.get(place).sources.map((source) => output(place, source)),
  );

/* Every listener on one side of the question. */
export const inputs = (assembly, side) =>
  group(assembly, side).flatMap((place) =>
    assembly.places.get(place).listeners.map((listener) => input(place, listener)),
  );

const every = (sent, heard) => sent.flatMap((o) => heard.map((i) => [o, i]));

/* What is asked about in one direction: the same channel where both sides have it, else everything a source meets; or
   every pair where nothing belongs together. */
export function askedPairs(sent, heard) {
  const channels = new Set(sent.map(({ source }) => source.channel));
  const wanted = new Set(heard.map(({ listener }) => listener.channel));
  const lone = ([o, i]) => !wanted.has(o.source.channel) && !channels.has(i.listener.channel);
  const pairs = every(sent, heard).filter((pair) => matched(...pair) || lone(pair));
  return pairs.length ? pairs : every(sent, heard);
}

/* Of these pairs the sound that meets an input kept for timecode, where another input hears sound: nobody asked for it
   there. What may be a track of timecode played back is asked for, unless it is heard itself. */
export function spilled(pairs, arrives) {
  const sound = ([o]) => AUDIO.includes(o.source.kind);
  const heard = pairs.filter(
    (pair) => sound(pair) && oneFamily(pair[0].source, pair[1].listener) && arrives(pair),
  );
  const itself = (o) => heard.some(([other]) => other === o);
  return pairs.filter(
    ([o, i]) =>
      sound([o]) &&
      i.listener.kind === TIMECODE &&
      (itself(o) || (heard.length > 0 && !asSound(o.source, i.listener))),
  );
}

/* Are both the same channel? */
export const matched = (o, i) => o.source.channel === i.listener.channel;

/* All pairs of one kind of signal: channels that have changed places are heard, if on the wrong side; the sound on a
   picture's input is not. Timecode counts as sound where neither of the two has a partner of its own kind. */
export function comparable(sent, heard) {
  const own = ([o, i]) => oneFamily(o.source, i.listener),
    met = new Set(every(sent, heard).filter(own).flat());
  return every(sent, heard).filter(
    (pair) => own(pair) || (asSound(pair[0].source, pair[1].listener) && !pair.some((each) => met.has(each))),
  );
}
