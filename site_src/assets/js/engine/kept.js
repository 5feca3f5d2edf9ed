/* What rests on the circuit of a connection alone is worked out once: a number out of a manual is mostly a rating, a level or a need, and leaves the
   circuit as it was. All that a circuit is made from is compared; what is kept is only read. */

export const ROOM = { most: 4e6 }; // numbers kept, some 32 MB: a few connections, or one with many contacts

/* What is compared with what a circuit does, and is no part of it. */
const COMPARED = {
  limits: ["settled", "momentary", "seconds", "evidence"],
  sources: ["nominal", "maximum", "least_load"],
  listeners: ["sensitivity", "maximum"],
  needs: ["least", "full", "evidence"],
};
const NAMED = ["id", "name", "asks", "evidence", "cautions", "also_called"]; // nor are these
const known = new Map(), // the longest unused first
  texts = new WeakMap();
let weight = 0,
  passing = false;

/* What `work` gives; what it works out anew is not kept, for nobody is going to change a number of it. */
export function inPassing(work) {
  passing = true;
  try {
    return work();
  } finally {
    passing = false;
  }
}

/* What `make` gives, or gave before for the same records at the same places and the same connectors. */
export function keptFor(connectors, places, use, make) {
  const key = [...[...places].map(([place, record]) => `${place} ${textOf(record)}`), use].join("\n"),
    before = known.get(key);
  if (before && before.connectors === connectors) {
    known.delete(key);
    known.set(key, before);
    return before.made;
  }
  const one = { connectors, weight: 1, made: { ...make(), once: new Map() } };
  one.made.weigh = (more) => {
    if (known.get(key) !== one) return;
    one.weight += more;
    weight += more;
    trim();
  };
  if (passing) return one.made;
  if (before) forget(key);
  known.set(key, one);
  weight += one.weight;
  trim();
  return one.made;
}

/* What `work` gives, or gave before for this circuit; `numbers` are as many as it has. */
export function once(assembly, name, work, numbers = 1) {
  if (!assembly.once.has(name)) {
    assembly.once.set(name, work());
    assembly.weigh(numbers);
  }
  return assembly.once.get(name);
}

/* The same of what is worked out for one setting or instant, in a Map of its own. */
export function remembered(map, name, work) {
  if (!map.has(name)) map.set(name, work());
  return map.get(name);
}

function trim() {
  for (const [oldest] of known) {
    if (weight <= ROOM.most) break;
    forget(oldest);
  }
}

function forget(key) {
  weight -= known.get(key).weight;
  known.delete(key);
}

/* All of a record that a circuit is made from. */
function textOf(record) {
  if (!texts.has(record)) {
    const { limits, ...network } = record.network,
      kept = without(record, NAMED);
    for (const name of ["sources", "listeners", "needs"])
      if (record[name]) kept[name] = record[name].map((one) => without(one, COMPARED[name]));
    const bare = limits.map((one) => without(one, COMPARED.limits));
    texts.set(record, JSON.stringify({ ...kept, network, limits: bare }));
  }
  return texts.get(record);
}

const without = (record, names) =>
  Object.fromEntries(Object.entries(record).filter(([name]) => !names.includes(name)));
