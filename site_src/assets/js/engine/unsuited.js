/* What the circuit at audio frequencies does not show: leads not made for fast signals or for loudspeakers, and what
   amplifiers are plugged into. The twin of unsuited.py. */

import { ADAPTER_METRES } from "./constants.js";
import { AUDIO, asSound, CLOSURE, FAST, LOUDSPEAKER, SMALL, TIMECODE } from "./kinds.js";
import { isPort } from "./network.js";
import { Named, reading as readingOf } from "./readings.js";

const reading = (quantity, subject, where, value, unit, words, flags = {}) =>
  readingOf(quantity, subject, where, value, unit, "signal", { words, flags });
const leadsOf = ({ places }) => [...places].filter(([, record]) => !isPort(record));
const named = (here, there) => ({ device: new Named(here), other: new Named(there) });

/* Leads that do not suit what is sent from `here` to `there`, and timecode that is taken for sound; `beside`: the sound comes
   where timecode is looked for, too. */
export function* unsuited(assembly, here, there, pairs, beside = false) {
  const words = named(here, there),
    leads = leadsOf(assembly);
  const fast = pairs.find(([o]) => FAST.includes(o.source.kind));
  for (const [place, lead] of fast ? leads : []) {
    const sent = fast[0].source.kind,
      slow = Boolean(lead.parts.length) && !lead.impedance && !lead.made_for.includes(sent),
      metres = lead.impedance || slow ? 0 : lead.length || ADAPTER_METRES;
    const named = { ...words, lead: new Named(place) },
      parts = lead.network.couplings.length ? "coil" : "other";
    yield reading("slow-lead", place, "lead", metres, "m", named, { sent });
    yield reading("slow-parts", place, "lead", Number(slow), "", named, { parts });
  }
  const slow = ([o]) => AUDIO.includes(o.source.kind) || o.source.kind === TIMECODE;
  for (const [place, lead] of pairs.some(slow) ? leads : []) {
    if (!lead.impedance || !lead.network.couplings.length) continue;
    yield reading("fast-coil", place, "lead", 1, "", { ...words, lead: new Named(place) });
  }
  for (const [place, lead] of pairs.some(([o]) => o.source.kind === CLOSURE) ? leads : []) {
    const own = lead.network.parts.filter(({ id }) => lead.parts.includes(id));
    const shut = lead.network.couplings.length > 0 || own.some(({ kind }) => kind === "capacitor");
    yield reading("contact-shut", place, "lead", Number(shut), "", { ...words, lead: new Named(place) });
  }
  const open = ([o, i]) => SMALL.includes(o.source.kind) && !(o.source.balanced && i.listener.balanced);
  for (const [place, lead] of pairs.some(open) ? leads : []) {
    const bare = Boolean(lead.cable) && !lead.joins.some(({ screen }) => screen);
    yield reading("bare-lead", place, "lead", Number(bare), "", { ...words, lead: new Named(place) });
  }
  const sound = pairs.find(([o, i]) => asSound(o.source, i.listener));
  if (sound || beside) {
    const track = beside ? "beside" : sound[0].source.kind === TIMECODE ? "into" : "from";
    yield reading("timecode-as-sound", here, "signal", 1, "", words, { track });
  }
}

/* Amplifier outputs that reach anything but a loudspeaker, or go through parts that were not made for them; whatever else
   the two devices are, and whatever the circuit says. */
export function* amplifiers(assembly) {
  const loudspeaker = ({ kind }) => kind === LOUDSPEAKER;
  for (const [side, other] of [
    ["from", "into"],
    ["into", "from"],
  ]) {
    const device = assembly.places.get(side),
      target = assembly.places.get(other),
      words = named(side, other);
    if (!device.sources.some(loudspeaker)) continue;
    if (!target.listeners.some(loudspeaker))
      yield reading("amplifier-into", side, "connection", 1, "", words);
    for (const [place, lead] of leadsOf(assembly)) {
      if (!lead.parts.length || lead.made_for.includes(LOUDSPEAKER)) continue;
      yield reading("amplifier-through", place, "lead", 1, "", { ...words, lead: new Named(place) });
    }
  }
}
