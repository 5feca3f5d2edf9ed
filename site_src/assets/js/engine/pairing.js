"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* Which source should reach which listener, one device on either side or several of a kind. The twin of pairing.py.
   An output is {place, source, name}, an input {place, listener, name, nodes}, the nodes being what it hears between. */
(function (engine) {
  engine.output = (place, source) => ({ place, source, name: `${place}/${source.id}` });

  engine.input = (place, listener) =>
    ({ place, listener, name: `${place}/${listener.id}`, nodes: listener.between.map((node) => `${place}/${node}`) });

  /* Every source on one side of the question. */
  engine.outputs = (assembly, side) => engine.group(assembly, side)
    .flatMap((place) => assembly.places.get(place).sources.map((source) => engine.output(place, source)));

  /* Every listener on one side of the question. */
  engine.inputs = (assembly, side) => engine.group(assembly, side)
    .flatMap((place) => assembly.places.get(place).listeners.map((listener) => engine.input(place, listener)));

  const every = (sent, heard) => sent.flatMap((o) => heard.map((i) => [o, i]));

  /* What is asked about in one direction: the same channel where both sides have it, else everything a source meets; or
     every pair where nothing belongs together. */
  engine.askedPairs = function (sent, heard) {
    const channels = new Set(sent.map(({ source }) => source.channel));
    const wanted = new Set(heard.map(({ listener }) => listener.channel));
    const lone = ([o, i]) => !wanted.has(o.source.channel) && !channels.has(i.listener.channel);
    const pairs = every(sent, heard).filter((pair) => engine.matched(...pair) || lone(pair));
    return pairs.length ? pairs : every(sent, heard);
  };

  /* Are both the same channel? */
  engine.matched = (o, i) => o.source.channel === i.listener.channel;

  /* All pairs of one kind of signal: channels that have changed places are heard, if on the wrong side; the sound on a
     picture's input is not. Timecode counts as sound where neither of the two has a partner of its own kind. */
  engine.comparable = function (sent, heard) {
    const own = ([o, i]) => engine.oneFamily(o.source, i.listener), met = new Set(every(sent, heard).filter(own).flat());
    return every(sent, heard).filter((pair) => own(pair)
      || (engine.asSound(pair[0].source, pair[1].listener) && !pair.some((each) => met.has(each))));
  };
})(Ringfence.engine);
