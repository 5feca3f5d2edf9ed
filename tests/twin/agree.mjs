/* When two answers are the same one: every field alike, and numbers within what rounding allows. Both engines
eliminate in double precision, in a different order; numbers may differ by that and by nothing else. How far is
data, `within`, and comes with the questions (contract.py). Runs in node and in a page. */

/** Every field in which two answers differ, in words. The largest differences that are allowed go into `worst`:
unit -> [share of what is allowed, words]. */
export function differences(own, other, within, worst = {}, where = "", unit = "") {
  if (isMap(own) && isMap(other)) {
    const inside = Object.hasOwn(own, "unit") ? own.unit : unit;
    return [...new Set([...Object.keys(own), ...Object.keys(other)])].flatMap((key) => {
      const place = `${where}.${key}`;
      if (!Object.hasOwn(other, key)) return [`${place}: only in Python: ${shown(own[key])}`];
      if (!Object.hasOwn(own, key)) return [`${place}: only in the scripts: ${shown(other[key])}`];
      return differences(own[key], other[key], within, worst, place, inside);
    });
  }
  if (Array.isArray(own) && Array.isArray(other)) {
    if (own.length !== other.length)
      return [
        `${where}: Python has ${own.length} (${names(own)}), the scripts ${other.length} (${names(other)})`,
      ];
    return own.flatMap((one, i) => differences(one, other[i], within, worst, `${where}[${i}]`, unit));
  }
  if (own === other) return [];
  const both = `Python has ${shown(own)} ${unit ?? ""}`.trimEnd();
  if (typeof own !== "number" || typeof other !== "number")
    return [`${where}: ${both}, the scripts ${shown(other)}`];
  const share = Math.abs(own - other) / allowed(own, other, unit, within);
  if (!(share <= 1))
    return [
      `${where}: ${both}, the scripts ${`${other} ${unit ?? ""}`.trimEnd()}, ${share.toPrecision(3)} times what rounding allows`,
    ];
  if (share > (worst[unit]?.[0] ?? 0)) worst[unit] = [share, `${own} and ${other} ${unit ?? ""}`.trimEnd()];
  return [];
}

/** How far apart two numbers may be and still be the same one. Decibels are compared as the ratios they stand
for; where both are silent they say no more than that. */
function allowed(own, other, unit, within) {
  const size = Math.max(Math.abs(own), Math.abs(other));
  if (unit === "dB") {
    if (Math.max(own, other) < within.silent) return Infinity;
    return within.decibels + within.decibelsPerNeper * within.gain * 10 ** (size / 20);
  }
  const leaked = { ohm: within.leak * size, s: within.leak * within.largest }[unit] ?? 0;
  return (within.relative + leaked) * size + (within.floors[unit] ?? within.floor);
}

/** Did an engine not trust its own answer? It then calls the connection dangerous. */
export function gaveUp(answer) {
  return (
    answer.verdict === "dangerous" && answer.findings.length === 1 && answer.findings[0].id === "not-solved"
  );
}

/** Gives both the same words where they agree how long the slowest capacitor takes and not which of several it
is. How often that was. */
export function settleTies(own, other, within) {
  const tied = own.findings.filter((one, i) => {
    const two = other.findings[i];
    return (
      one.id === "wait-for-capacitors" &&
      two?.id === one.id &&
      one.where !== two.where &&
      Math.abs(one.value - two.value) <= within.relative * Math.max(Math.abs(one.value), Math.abs(two.value))
    );
  });
  for (const one of tied) {
    const { where, says } = one;
    Object.assign(other.findings[own.findings.indexOf(one)], { where, says });
  }
  return tied.length;
}

function isMap(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function shown(value) {
  return JSON.stringify(value);
}

function names(items) {
  return items.map((item) => String(item?.id ?? item)).join(", ");
}
