/* Where a chain first fails to mate, and what would go in there: the twin of misfit.py. */

import { sideOf } from "./assemble.js";
import { notMating } from "./findings.js";
import { fits } from "./mate.js";

export const OPPOSITE = { plug: "jack", jack: "plug", male: "female", female: "male" };

export function misfit(data, outlet, leads, inlet) {
  let reach = [outlet],
    name = outlet.name;
  for (const lead of leads) {
    const ends = Object.values(lead.ends);
    const goes = (half, end) => fits(sideOf(data, half), sideOf(data, end));
    const onward = ends
      .filter((near) => reach.some((half) => goes(half, near)))
      .flatMap((near) => ends.filter((far) => far !== near));
    if (!onward.length) return told(data, reach[0], name, lead.name);
    reach = onward;
    name = lead.name;
  }
  return told(data, reach[0], name, inlet.name);
}

function told(data, half, name, other) {
  const family = data.connectors[half.connector],
    partner = OPPOSITE[half.half];
  const own = { connector: family, half: half.half };
  const takes = Object.values(data.connectors)
    .filter((one) => Object.hasOwn(one.halves, partner) && fits(own, { connector: one, half: partner }))
    .map((one) => one.name)
    .sort();
  const ends = `${name} ends in ${family.name}, ${half.half}; ${other} does not go in there.`;
  return notMating(name, `${ends} It takes the ${partner} of: ${takes.join("; ")}.`);
}
