/* What a changing field induces in a circuit, from areas and strips. */

import { MU0 } from "./basics.js";

const FACTOR = MU0 / (2 * Math.PI);

export const stripBesidePair = (spacing, near, width) => FACTOR * spacing * (1 / near - 1 / (near + width));
export const stripBesideWire = (near, width) => FACTOR * Math.log((near + width) / near);
export function stripBesideCable(spacing, twist, near, width) {
  const alone = stripBesideWire(near, width);
  return spacing ? Math.min(alone, twist * stripBesidePair(spacing, near, width)) : alone;
}

/* What is left when the lead crosses: degrees off a right angle. */
export const crossing = (degrees) => Math.abs(Math.sin((degrees * Math.PI) / 180));

export const untwistedArea = (spacing, along) => spacing * along;
export const twistedArea = (spacing, lay, along, uneven) =>
  ((spacing * lay) / Math.PI) * Math.sqrt(1 + ((2 * along) / lay) * uneven ** 2);
export const coilArea = (turns, across) => turns * Math.PI * (across / 2) ** 2;
export const loopBesideDipole = (distance) => 2 * distance ** 2;
