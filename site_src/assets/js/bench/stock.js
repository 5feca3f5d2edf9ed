/* The cables there are, per metre: read back from the leads made of them, whose parts say "84 mohm/m x 3 m". A test holds every figure
   against the cable's own file. */

import { leads } from "../ui/catalogue.js";
import { quantity } from "../ui/quantity.js";
import { capital } from "../ui/words.js";

let known = null,
  from = null;

/* {id: {id, name, core, screen, core_to_core, core_to_screen (quantities or null), amps, evidence, impedance}} */
export function stock() {
  if (known && from === Ringfence.data) return known;
  from = Ringfence.data;
  known = {};
  for (const lead of leads().filter(({ cable, mine, ends }) => cable && !mine && !lit(ends))) {
    const cable = (known[lead.cable] = known[lead.cable] || {
      id: lead.cable,
      name: capital(lead.cable.replaceAll("-", " ")),
      core: null,
      screen: null,
      core_to_core: null,
      core_to_screen: null,
      amps: null,
      evidence: null,
      impedance: lead.impedance,
    });
    const screens = lead.joins.filter(({ screen }) => screen).map(({ id }) => id);
    for (const part of lead.network.parts)
      if (!lead.parts.includes(part.id) && part.kind !== "wire") learn(cable, part, screens);
    const rated = lead.network.limits.find(
      ({ where, part }) => where === "cable" && part.startsWith("cable."),
    );
    if (rated) Object.assign(cable, { amps: rated.settled, evidence: rated.evidence });
  }
  return known;
}

/* Is there a fibre in it? Nobody makes such a lead at a bench. */
function lit(ends) {
  return Object.values(ends).some(({ connector }) => Ringfence.data.connectors[connector].light.length);
}

function learn(cable, { id, kind, value }, screens) {
  const name = id.slice("cable.".length);
  const per = value.text.split(" x ")[0];
  const ofScreen = screens.some((screen) => name === screen || name.startsWith(`${screen}.`));
  const toScreen = screens.some(
    (screen) => name.startsWith(`${screen}-`) || name.endsWith(`-${screen}`) || name.includes(`-${screen}.`),
  );
  const figure =
    kind === "resistor" ? (ofScreen ? "screen" : "core") : toScreen ? "core_to_screen" : "core_to_core";
  cable[figure] = cable[figure] || quantity(per, kind === "resistor" ? "ohm/m" : "F/m").value;
}
