/* Devices of one's own among the ports of the catalogue: made from a class by what differs, and known to every page by an id of their own. */

import { keepBag, bag as theBag } from "../ui/bag.js";
import { port as portOf } from "../ui/catalogue.js";
import { changed } from "./apply.js";
import { asDevice, keep, kept } from "./keep.js";

const JUDGED = [
  "connector",
  "half",
  "contacts",
  "network",
  "sources",
  "listeners",
  "supplies",
  "needs",
  "earthed",
  "powered_by",
  "follows",
];

export const device = (id) => kept().devices.find((one) => one.id === id) || null;
export const baseOf = (id) => {
  const found = device(id);
  return found ? found.base : id;
};
export const base = (id) => portOf(baseOf(id));

/* A short name for all of a class that a verdict rests on: it changes when the class does. */
export function stamp(base) {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(JSON.stringify(JUDGED.map((name) => portOf(base)[name]))))
    hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return hash.toString(36);
}

/* Has the class changed since the numbers were typed? */
export const outdated = (device) => Boolean(device.stamp) && device.stamp !== stamp(device.base);

/* Puts all devices among the ports; those that are gone leave. */
export function register() {
  for (const id of Object.keys(Ringfence.data.ports))
    if (id.startsWith("my.")) delete Ringfence.data.ports[id];
  for (const device of kept().devices) {
    const base = portOf(device.base),
      { port } = changed(base, device.answers);
    Ringfence.data.ports[device.id] = {
      ...port,
      id: device.id,
      name: device.name,
      also_called: [base.name, ...(base.also_called || [])],
      mine: true,
    };
  }
}

const anId = () =>
  `my.${Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => (byte % 36).toString(36)).join("")}`;

/* {device, fault}: a new one, kept and registered. */
export function add({ name, base, answers }) {
  const device = asDevice({ id: anId(), name, base, answers, stamp: stamp(base) });
  const fault = keep({ devices: [...kept().devices, device] });
  register();
  return { device, fault };
}

export function change(id, changes) {
  const fault = keep({
    devices: kept().devices.map((one) =>
      one.id === id ? { ...one, ...changes, stamp: stamp(one.base) } : one,
    ),
  });
  register();
  return fault;
}

/* Gone from the store, the ports, and the bag: {fault, back}, a function that puts all of it back. */
export function remove(id) {
  const { devices } = kept(),
    bag = theBag ? theBag() : null,
    fault = keep({ devices: devices.filter((one) => one.id !== id) });
  if (bag)
    keepBag({
      ...bag,
      ports: bag.ports.filter((port) => port !== id),
      jobs: bag.jobs.filter((job) => !job.includes(id)),
    });
  register();
  return { fault, back };

  function back() {
    const fault = keep({ devices });
    if (bag) keepBag(bag);
    register();
    return fault;
  }
}
