/* What length costs in treble. */

export function treble(sourceOhm, farad, hertz) {
  const corner = sourceOhm && farad ? 1 / (2 * Math.PI * sourceOhm * farad) : Infinity;
  return -10 * Math.log10(1 + (hertz / corner) ** 2);
}
