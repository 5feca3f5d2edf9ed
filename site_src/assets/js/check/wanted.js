/* The lead that would do it, as a wiring to start from on the bench: what leaves hot arrives hot, what leaves cold arrives cold, screens meet. The
   bench judges it and has its build sheet. */

import { OPPOSITE } from "../engine/misfit.js";
import { port } from "../ui/catalogue.js";

const SOUND = ["microphone", "line", "instrument", "headphone"],
  FARAD = 1e-7;

/* The contact a node of a port is at, by wire or through a coupling capacitor; undefined where none is. */
function contactAt(port, node) {
  const seen = new Set([node]);
  for (const one of seen) {
    for (const { kind, a, b, value } of port.network.parts) {
      const through = kind === "wire" || (kind === "capacitor" && value.nominal >= FARAD);
      if (through && (a === one || b === one)) seen.add(a === one ? b : a);
    }
  }
  return Object.keys(port.contacts).find((contact) => seen.has(port.contacts[contact]));
}

/* The end of an address of the bench, or null where the two have nothing in common. */
export function laidOut({ from, into }) {
  const outlet = port(from),
    inlet = port(into),
    alike = (one, other) => one === other || (SOUND.includes(one) && SOUND.includes(other));
  const sources = outlet.sources.filter(({ kind }) =>
    inlet.listeners.some((other) => alike(kind, other.kind)),
  );
  const listeners = inlet.listeners.filter(({ kind }) => sources.some((other) => alike(other.kind, kind)));
  if (!sources.length) return null;
  const near = { screen: contactAt(outlet, "chassis") },
    far = { screen: contactAt(inlet, "chassis") },
    nets = [];
  const join = (...nodes) => {
    const known = nodes.filter((node) => !node.endsWith(".undefined")),
      met = nets.filter((net) => net.some((node) => known.includes(node)));
    for (const one of met) nets.splice(nets.indexOf(one), 1);
    nets.push([...new Set([...met.flat(), ...known])]);
  };
  listeners.forEach(({ between }, i) => {
    const { output, kind } = sources[i] || sources[0];
    const [hot, cold] = output.map((node) => contactAt(outlet, node)),
      [loud, quiet = far.screen] = between.map((node) => contactAt(inlet, node));
    join(`a.${hot}`, `b.${loud}`);
    // A floating source has its second wire tied to the screen where the input takes no difference; an active one keeps it free.
    if (quiet !== far.screen || cold === near.screen || kind === "microphone")
      join(`a.${cold}`, `b.${quiet}`);
  });
  join(`a.${near.screen}`, `b.${far.screen}`);
  const half = (port) => `${port.connector}/${OPPOSITE[port.half]}`;
  const joins = nets.filter((net) => net.length > 1).map((net) => net.sort().join("_"));
  return joins.length ? `#ends=${half(outlet)},${half(inlet)}&joins=${joins.join(",")}` : null;
}
