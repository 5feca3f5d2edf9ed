/* Quantities as people type them: the strict grammar is the catalogue's own (the twin of quantity.py), with a tidying step before it. */

const NUMBER = "[+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)(?:[eE][+-]?\\d+)?";
const SPREAD = "(?:\\d+(?:\\.\\d+)?|\\.\\d+)";
const UNIT = "[A-Za-z%][A-Za-z/]*";
const WHOLE = new RegExp(
  `^(${NUMBER})(?:\\s*\\.\\.\\s*(${NUMBER}))?\\s*(${UNIT})(?:\\s*(?:\\+-|±)\\s*(${SPREAD})\\s*(${UNIT}))?$`,
);
const UNITS = ["ohm/m", "F/m", "ohm", "F", "H", "V", "A", "W", "m"];
const PREFIXES = { p: -12, n: -9, u: -6, m: -3, "": 0, k: 3, M: 6 };
const EXAMPLES = { ohm: "4.7 kohm", F: "10 uF", V: "63 V", W: "0.25 W", m: "3 m" };
const LONGEST = 60; // characters; nobody writes a value longer than that

/* [SI unit, power of ten] of a written unit, or null. */
function scale(written) {
  for (const [prefix, power] of Object.entries(PREFIXES)) {
    const base = written.slice(prefix.length);
    if (written.startsWith(prefix) && UNITS.includes(base)) return [base, power];
  }
  return null;
}

/* A decimal number times a power of ten, rounded once, as decimal arithmetic would. */
function shifted(value, power) {
  const [digits, exponent = "0"] = String(Number(value.toPrecision(15))).split("e");
  return Number(`${digits}e${Number(exponent) + power}`);
}

/* {value: {nominal, low, high, unit, text}} in SI units, or {fault: words}. `unit` is the SI unit wanted. */
export function quantity(text, unit) {
  const told = { fault: `Write a number and a unit, such as ${EXAMPLES[unit] || "4.7 kohm"}.` };
  const match = text.length > LONGEST ? null : WHOLE.exec(text.trim());
  const found = match && scale(match[3]);
  if (!found || found[0] !== unit || (match[2] && match[4])) return told;
  const [first, last] = [Number(match[1]), Number(match[2] || match[1])];
  const spread = match[4] ? spreadOf(match, first, found) : 0;
  if (spread === null) return told;
  const [nominal, low, high] = [(first + last) / 2, first - spread, last + spread].map((value) =>
    shifted(value, found[1]),
  );
  if (![nominal, low, high].every(Number.isFinite) || low > high) return told;
  if (low <= 0) return { fault: "It must be more than nothing." };
  return { value: { nominal, low, high, unit, text: text.trim() } };
}

/* A tolerance in the written unit of the value; null when it is in another. */
function spreadOf(match, value, [unit, power]) {
  if (match[5] === "%") return (Math.abs(value) * Number(match[4])) / 100;
  const other = scale(match[5]);
  return other && other[0] === unit ? shifted(Number(match[4]), other[1] - power) : null;
}

/* What people type, made into the catalogue's way of writing: "4k7" and "4,7 kΩ" become "4.7 kohm", "10µ" becomes "10 uF".
   A bare number gets the unit only where nobody could mean another. */
export function tidied(text, unit) {
  let said = text
    .trim()
    .replace(/[Ωω\u2126]/g, "ohm")
    .replace(/[µμ]/g, "u")
    .replace(/(\d),(?=\d)/g, "$1.")
    .replace(/±/g, "+-");
  said = said.replace(/ohms?\b/i, "ohm");
  if (unit === "ohm")
    said = said
      .replace(/^(\d+)([kKMR])(\d+)\s*(?:ohm)?$/, "$1.$3 $2")
      .replace(/K/g, "k")
      .replace(/\s*R$/, " ohm");
  if (unit === "F") said = said.replace(/([pnum])f\b/i, "$1F");
  if (unit !== "m") said = said.replace(/^([\d.]+)\s*([pnumkM])$/, `$1 $2${unit}`); // "3m" is three metres
  if (unit !== "F") said = said.replace(/^([\d.]+)$/, `$1 ${unit}`);
  return said.replace(/^([\d.]+)\s*([A-Za-z])/, "$1 $2").replace(/\s+/g, " ");
}
