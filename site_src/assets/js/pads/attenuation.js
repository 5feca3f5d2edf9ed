/* The arithmetic of attenuators, the same sums as generator/workshop/attenuation.py. A ladder is a list of ["series" or "shunt", ohm]
   from the source to the load, both legs of a balanced pad together. */

const BOLTZMANN = 1.380649e-23,
  ROOM = 290,
  BAND = 20e3,
  DBU = Math.sqrt(0.6); // J/K, K, Hz, V
const decibels = (share) => 20 * Math.log10(share);

export const ratio = (loss) => 10 ** (loss / 20);

/* Series at the source, shunt, series at the load of a T both ends see as themselves. */
export function matchedT(loss, source, load) {
  const k = ratio(loss),
    shunt = (2 * Math.sqrt(source * load) * k) / (k * k - 1);
  return [(source * (k * k + 1)) / (k * k - 1) - shunt, shunt, (load * (k * k + 1)) / (k * k - 1) - shunt];
}

/* Shunt at the source, series, shunt at the load. */
export function matchedPi(loss, source, load) {
  const k = ratio(loss),
    series = (Math.sqrt(source * load) * (k * k - 1)) / (2 * k);
  const [one, other] = [source, load].map((z) => 1 / ((k * k + 1) / (z * (k * k - 1)) - 1 / series));
  return [one, series, other];
}

export function leastLoss(source, load) {
  const apart = Math.max(source, load) / Math.min(source, load);
  return decibels(Math.sqrt(apart) + Math.sqrt(apart - 1));
}

export const mismatchLoss = (source, load) => 10 * Math.log10((source + load) ** 2 / (4 * source * load));

export const parallel = (...ohms) =>
  ohms.every(Boolean) ? 1 / ohms.reduce((sum, one) => sum + 1 / one, 0) : 0;

const lookingIn = (ladder, load) =>
  ladder.reduceRight((seen, [way, ohms]) => (way === "series" ? seen + ohms : parallel(seen, ohms)), load);
const lookingBack = (ladder, source) =>
  ladder.reduce((seen, [way, ohms]) => (way === "series" ? seen + ohms : parallel(seen, ohms)), source);

/* Volts at the load for one volt behind the source. */
function gain(ladder, source, load) {
  const rungs = [["series", source], ...ladder];
  return rungs.reduce((found, [way, ohms], i) => {
    if (way !== "series") return found;
    const onward = lookingIn(rungs.slice(i + 1), load);
    return onward === Infinity ? found : (found * onward) / (onward + ohms);
  }, 1);
}

const noise = (ohms) => decibels(Math.sqrt(4 * BOLTZMANN * ROOM * ohms * BAND) / DBU);

/* What a ladder does: dB lost by putting it in and with nothing behind it, what either side sees, its noise and what that costs. */
export function done(ladder, source, load) {
  const out = lookingBack(ladder, source);
  return {
    loss: -decibels(gain(ladder, source, load) / (load / (source + load))),
    unloaded: -decibels(gain(ladder, 0, Infinity)),
    sourceSees: lookingIn(ladder, load),
    loadSees: out,
    noise: noise(out),
    noiseCost: -decibels(gain(ladder, source, Infinity)) + 10 * Math.log10(out / source),
  };
}

/* Hum rejection in dB left by two legs that are off by a fraction in opposite directions. */
export const balanceKept = (series, mismatch, common = 10e3) => decibels(common / (2 * series * mismatch));
