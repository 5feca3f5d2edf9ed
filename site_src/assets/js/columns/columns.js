/* The reader of columns.py: gives back what was packed. What was written once for many is one object for them all; nobody changes what is inside. */

const READ = [
  (values) => values,
  (value, count) => Array(count).fill(value),
  (distinct, places) => {
    const values = column(distinct);
    return places.map((place) => values[place]);
  },
  (fields, columns, count) => {
    const read = columns.map(column);
    return Array.from({ length: count }, (_, row) =>
      Object.fromEntries(fields.map((field, at) => [field, read[at][row]])),
    );
  },
  (lengths, items) => {
    const read = column(items);
    let at = 0;
    return lengths.map((length) => read.slice(at, (at += length)));
  },
  (keys, items, lengths) => {
    const names = column(keys),
      read = column(items);
    let at = 0;
    return lengths.map((length) =>
      Object.fromEntries(names.slice(at, at + length).map((name) => [name, read[at++]])),
    );
  },
  (kinds, columns) => {
    const read = columns.map(column),
      at = [0, 0, 0];
    return kinds.map((kind) => read[kind][at[kind]++]);
  },
];

const column = ([kind, ...inside]) => READ[kind](...inside);

/* An object of packed values; each is read when it is first asked for. */
export function unpacked(packed) {
  const data = {},
    shown = { enumerable: true, configurable: true };
  for (const [name, values] of Object.entries(packed)) {
    const get = () => {
      const [value] = column(values);
      Object.defineProperty(data, name, { ...shown, value, writable: true });
      return value;
    };
    Object.defineProperty(data, name, { ...shown, get });
  }
  return data;
}

/* Puts fields that came later to the records they belong to, and records that came later to their kind. */
export function complete(data, later) {
  for (const [kind, records] of Object.entries(later)) {
    data[kind] = data[kind] || {};
    for (const [id, fields] of Object.entries(records)) data[kind][id] = { ...data[kind][id], ...fields };
  }
}
