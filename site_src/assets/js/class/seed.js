/* Chance that can be repeated: the same words give the same numbers, on every device. */

/* A 32-bit digest of a text (FNV-1a over its UTF-16 units). */
export function digest(text) {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  hash ^= hash >>> 16; // the last units reach the low bits only; stir
  hash = Math.imul(hash, 0x85ebca6b);
  return (hash ^ (hash >>> 13)) >>> 0;
}

/* A function that gives numbers from 0 up to, not including, 1. */
export function chance(seed) {
  let state = digest(String(seed));
  return function () {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/* A copy in random order (Fisher and Yates). */
export function mixed(items, chance) {
  const found = [...items];
  for (let i = found.length - 1; i > 0; i -= 1) {
    const j = Math.floor(chance() * (i + 1));
    [found[i], found[j]] = [found[j], found[i]];
  }
  return found;
}
