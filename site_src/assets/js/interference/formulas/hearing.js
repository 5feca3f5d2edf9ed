/* How much of it is heard: A-weighting, threshold of hearing, volts of a microphone. */

const known = new Map();

export function weighting(hertz) {
  if (!known.has(hertz)) {
    const f = hertz * hertz;
    const share =
      (12194 ** 2 * f * f) /
      ((f + 20.6 ** 2) * (f + 12194 ** 2) * Math.sqrt((f + 107.7 ** 2) * (f + 737.9 ** 2)));
    known.set(hertz, 20 * Math.log10(share) + 2);
  }
  return known.get(hertz);
}

/* dB SPL, between third octaves by the logarithm of frequency; outside the table its end. */
export function threshold(hertz, points) {
  const at = points.filter((point) => point[0] <= hertz).length;
  if (at === 0 || at === points.length) return points[Math.min(at, points.length - 1)][1];
  const [[f0, t0], [f1, t1]] = [points[at - 1], points[at]];
  return t0 + ((t1 - t0) * Math.log(hertz / f0)) / Math.log(f1 / f0);
}

export const microphoneVolts = (sensitivity, spl) => sensitivity * 10 ** ((spl - 94) / 20);
