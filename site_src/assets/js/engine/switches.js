"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* The switchable supplies of a connection and what each setting of them drives. The twin of direct.py up to `drive_values`. */
(function (engine) {
  const SIDES = engine.SIDES = { from: "at the outlet", into: "at the inlet", extra1: "at the spare end", extra2: "at the second spare end" };

  /* The place a part of a circuit belongs to. */
  engine.placeOf = (part) => part.id.split("/")[0];

  /* Every switchable supply of the connection, in order of place; `key` and `name` are what answers call it, with its
     side where two supplies share an id. */
  engine.supplySwitches = function (ports) {
    const found = ports.flatMap(([place, port]) => port.supplies.map((supply) => ({ place, supply })));
    // Spare ends always name their side, so that a switch has one name whether or not they are plugged.
    const spare = ({ place }) => place !== "from" && place !== "into";
    const shared = ({ supply }) => found.filter((other) => !spare(other) && other.supply.id === supply.id).length > 1;
    return found.map((one) => {
      const side = spare(one) || shared(one) ? ` ${SIDES[one.place] || one.place}` : "";
      return { ...one, key: one.supply.id + side, name: one.supply.name + side };
    });
  };

  /* Every combination of supply switches, all on first, each a Map of key -> state. */
  engine.settings = function (ports) {
    const switches = engine.supplySwitches(ports);
    return engine.product(switches.map(({ supply }) => supply.states)).map((states) => new Map(switches.map(({ key }, i) => [key, states[i]])));
  };

  /* The ids of the emfs that this setting has switched off. */
  engine.switchedOff = function (circuit, ports, setting) {
    const off = engine.supplySwitches(ports).filter(({ key, supply }) => setting.get(key) !== supply.states[0]);
    const dead = (part) => off.some(({ place, supply }) => place === engine.placeOf(part) && supply.id === part.supply);
    return new Set(circuit.parts.filter((part) => part.kind === "emf" && dead(part)).map((part) => part.id));
  };

  /* Values of all parts at a corner, with the emfs that are off at 0 V. */
  engine.driveValues = (circuit, off, corner) => Float64Array.from(circuit.parts, (part) => (off.has(part.id) ? 0 : engine.valueAt(part, corner)));
})(Ringfence.engine);
