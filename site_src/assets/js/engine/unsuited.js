"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What the circuit at audio frequencies does not show: leads not made for fast signals or for loudspeakers, and what
   amplifiers are plugged into. The twin of unsuited.py. */
(function (engine) {
  const { ADAPTER_METRES } = Ringfence.constants;
  const reading = (quantity, subject, where, value, unit, words, flags = {}) =>
    engine.reading(quantity, subject, where, value, unit, "signal", { words, flags });
  const leadsOf = ({ places }) => [...places].filter(([, record]) => !engine.isPort(record));
  const named = (here, there) => ({ device: new engine.Named(here), other: new engine.Named(there) });

  /* Leads that do not suit what is sent from `here` to `there`, and timecode that is taken for sound. */
  engine.unsuited = function* (assembly, here, there, pairs) {
    const words = named(here, there), leads = leadsOf(assembly);
    const fast = pairs.find(([o]) => engine.FAST.includes(o.source.kind));
    for (const [place, lead] of fast ? leads : []) {
      const metres = lead.impedance ? 0 : lead.length || ADAPTER_METRES, sent = fast[0].source.kind;
      yield reading("slow-lead", place, "lead", metres, "m", { ...words, lead: new engine.Named(place) }, { sent });
    }
    const open = ([o, i]) => engine.SMALL.includes(o.source.kind) && !(o.source.balanced && i.listener.balanced);
    for (const [place, lead] of pairs.some(open) ? leads : []) {
      const bare = Boolean(lead.cable) && !lead.joins.some(({ screen }) => screen);
      yield reading("bare-lead", place, "lead", Number(bare), "", { ...words, lead: new engine.Named(place) });
    }
    if (pairs.some(([o, i]) => engine.asSound(o.source, i.listener))) {
      yield reading("timecode-as-sound", here, "signal", 1, "", words);
    }
  };

  /* Amplifier outputs that reach anything but a loudspeaker, or go through parts that were not made for them; whatever else
     the two devices are, and whatever the circuit says. */
  engine.amplifiers = function* (assembly) {
    const loudspeaker = ({ kind }) => kind === engine.LOUDSPEAKER;
    for (const [side, other] of [["from", "into"], ["into", "from"]]) {
      const device = assembly.places.get(side), target = assembly.places.get(other), words = named(side, other);
      if (!device.sources.some(loudspeaker)) continue;
      if (!target.listeners.some(loudspeaker)) yield reading("amplifier-into", side, "connection", 1, "", words);
      for (const [place, lead] of leadsOf(assembly)) {
        if (!lead.parts.length || lead.made_for.includes(engine.LOUDSPEAKER)) continue;
        yield reading("amplifier-through", place, "lead", 1, "", { ...words, lead: new engine.Named(place) });
      }
    }
  };
})(Ringfence.engine);
