"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.own = Ringfence.own || {};

/* Devices of one's own among the ports of the catalogue: made from a class by what differs, and known to every page by an id of their own. */
(function (own, ui) {
  const JUDGED = ["connector", "half", "contacts", "network", "sources", "listeners", "supplies", "needs", "earthed", "powered_by", "follows"];

  own.device = (id) => own.kept().devices.find((one) => one.id === id) || null;
  own.baseOf = (id) => { const found = own.device(id); return found ? found.base : id; };
  own.base = (id) => ui.port(own.baseOf(id));

  /* A short name for all of a class that a verdict rests on: it changes when the class does. */
  own.stamp = function (base) {
    let hash = 0x811c9dc5;
    for (const byte of new TextEncoder().encode(JSON.stringify(JUDGED.map((name) => ui.port(base)[name])))) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
    return hash.toString(36);
  };

  /* Has the class changed since the numbers were typed? */
  own.outdated = (device) => Boolean(device.stamp) && device.stamp !== own.stamp(device.base);

  /* Puts all devices among the ports; those that are gone leave. */
  own.register = function () {
    for (const id of Object.keys(Ringfence.data.ports)) if (id.startsWith("my.")) delete Ringfence.data.ports[id];
    for (const device of own.kept().devices) {
      const base = ui.port(device.base), { port } = own.changed(base, device.answers);
      Ringfence.data.ports[device.id] = { ...port, id: device.id, name: device.name, also_called: [base.name, ...(base.also_called || [])], mine: true };
    }
  };

  const anId = () => `my.${Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => (byte % 36).toString(36)).join("")}`;

  /* {device, fault}: a new one, kept and registered. */
  own.add = function ({ name, base, answers }) {
    const device = own.asDevice({ id: anId(), name, base, answers, stamp: own.stamp(base) });
    const fault = own.keep({ devices: [...own.kept().devices, device] });
    own.register();
    return { device, fault };
  };

  own.change = function (id, changes) {
    const fault = own.keep({ devices: own.kept().devices.map((one) => (one.id === id ? { ...one, ...changes, stamp: own.stamp(one.base) } : one)) });
    own.register();
    return fault;
  };

  /* Gone from the store, the ports, and the bag. */
  own.remove = function (id) {
    const fault = own.keep({ devices: own.kept().devices.filter((one) => one.id !== id) });
    const bag = ui.bag ? ui.bag() : null;
    if (bag) ui.keepBag({ ...bag, ports: bag.ports.filter((port) => port !== id), jobs: bag.jobs.filter((job) => !job.includes(id)) });
    own.register();
    return fault;
  };
})(Ringfence.own, Ringfence.ui);
