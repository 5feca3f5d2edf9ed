/* A quantity as the catalogue writes it ("48 V +-4 V", "9..52 V", "-10 dBV") -> SI. As quantity.py reads it; levels in decibels too, which the
   bench has no use for. */

const NUMBER = "[+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)(?:[eE][+-]?\\d+)?";
const WHOLE = new RegExp(
  `^(${NUMBER})(?:\\s*\\.\\.\\s*(${NUMBER}))?\\s*([A-Za-z%][A-Za-z/]*)(?:\\s*(?:\\+-|±)\\s*(\\d+(?:\\.\\d+)?|\\.\\d+)\\s*([A-Za-z%][A-Za-z/]*))?$`,
);
const PREFIXES = { p: -12, n: -9, u: -6, m: -3, "": 0, k: 3, M: 6 };
const UNITS = ["V", "A", "W", "ohm"],
  LEVELS = { dBu: Math.sqrt(0.6), dBV: 1 };

/* {nominal, low, high, unit, text}; null for what is unknown, undefined for what is no quantity. */
export function parse(text) {
  if (text === "unknown") return null;
  const match = WHOLE.exec(text);
  const found = match && scale(match[3]);
  if (!found || (match[2] && match[4])) return undefined;
  const [first, last] = [Number(match[1]), Number(match[2] || match[1])],
    spread = match[4] ? spreadOf(match, first, found) : 0;
  const [nominal, low, high] = [match[2] ? (first + last) / 2 : first, first - spread, last + spread].map(
    found.toSi,
  );
  return low <= high && [nominal, low, high].every(Number.isFinite)
    ? { nominal, low, high, unit: found.unit, text }
    : undefined;
}

function scale(written) {
  if (Object.hasOwn(LEVELS, written))
    return { unit: "V", toSi: (value) => LEVELS[written] * 10 ** (value / 20) };
  for (const [prefix, power] of Object.entries(PREFIXES)) {
    if (written.startsWith(prefix) && UNITS.includes(written.slice(prefix.length)))
      return { unit: written.slice(prefix.length), power, toSi: (value) => shifted(value, power) };
  }
  return null;
}

/* A decimal number times a power of ten, rounded once, as decimal arithmetic would. */
function shifted(value, power) {
  const [digits, exponent = "0"] = String(Number(value.toPrecision(15))).split("e");
  return Number(`${digits}e${Number(exponent) + power}`);
}

function spreadOf(match, value, { unit, power }) {
  if (match[5] === "%") return (Math.abs(value) * Number(match[4])) / 100;
  const other = scale(match[5]);
  return other && other.unit === unit ? shifted(Number(match[4]), other.power - power) : NaN;
}
