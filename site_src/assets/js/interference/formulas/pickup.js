"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What a changing field induces in a circuit, from areas and strips. */
(function (runs) {
  const FACTOR = runs.MU0 / (2 * Math.PI);

  runs.stripBesidePair = (spacing, near, width) => FACTOR * spacing * (1 / near - 1 / (near + width));
  runs.stripBesideWire = (near, width) => FACTOR * Math.log((near + width) / near);
  runs.stripBesideCable = function (spacing, twist, near, width) {
    const alone = runs.stripBesideWire(near, width);
    return spacing ? Math.min(alone, twist * runs.stripBesidePair(spacing, near, width)) : alone;
  };

  /* What is left when the lead crosses: degrees off a right angle. */
  runs.crossing = (degrees) => Math.abs(Math.sin(degrees * Math.PI / 180));

  runs.untwistedArea = (spacing, along) => spacing * along;
  runs.twistedArea = (spacing, lay, along, uneven) => spacing * lay / Math.PI * Math.sqrt(1 + 2 * along / lay * uneven ** 2);
  runs.coilArea = (turns, across) => turns * Math.PI * (across / 2) ** 2;
  runs.loopBesideDipole = (distance) => 2 * distance ** 2;
})(Ringfence.interference);
