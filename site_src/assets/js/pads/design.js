/* Pads to a wanted loss with parts one can buy, and phantom blockers: the same choice as generator/workshop/pads.py and blockers.py.
   What cannot be built is {fault: words}. */

import { amount } from "../ui/words.js";
import { done, leastLoss, matchedPi, matchedT, mismatchLoss, parallel, ratio } from "./attenuation.js";

const E6 = [1, 1.5, 2.2, 3.3, 4.7, 6.8];
const E24 = [
  1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2,
  9.1,
];
const SERIES = { E6, E24, E96: Array.from({ length: 96 }, (_, i) => Math.round(10 ** (i / 96) * 100) / 100) };
const LEAST = 1,
  MOST = 80,
  FEED = 6810,
  PHANTOM = 48,
  HUNGRY = 5e-3; // dB, ohm, V, A
const six = (value) => Number(value.toPrecision(6));
const ohm = (value) => amount(value, "ohm");

export function nearest(value, series) {
  const decade = 10 ** Math.floor(Math.log10(value));
  const far = (step) => Math.abs(Math.log10((step * decade) / value));
  return six([...SERIES[series], 10].reduce((best, step) => (far(step) < far(best) ? step : best)) * decade);
}

export function upwards(low, high, series) {
  const found = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.floor(Math.log10(high)); power += 1) {
    found.push(...SERIES[series].map((step) => six(step * 10 ** power)));
  }
  return found.filter((value) => low <= value && value <= high);
}

export function designed({ loss, source, load, form, series = "E24", matched = false }) {
  if (!(loss >= LEAST && loss <= MOST))
    return { fault: `A loss of ${loss} dB is not built as one pad; ask for ${LEAST} to ${MOST} dB.` };
  return form === "H" || (matched && form === "O")
    ? asMatched(loss, source, load, form, series)
    : divider(loss, source, load, form, series);
}

function asMatched(loss, source, load, form, series) {
  const unmatched = mismatchLoss(source, load),
    least = leastLoss(source, load) - unmatched;
  if (loss < least + 0.01)
    return {
      fault: `A matched pad from ${ohm(source)} to ${ohm(load)} loses at least ${least.toFixed(1)} dB, not ${loss} dB.`,
    };
  const [one, two, three] = (form === "H" ? matchedT : matchedPi)(loss + unmatched, source, load);
  return made(
    form,
    near(
      form === "H"
        ? [
            ["source leg", one / 2],
            ["across", two],
            ["load leg", three / 2],
          ]
        : [
            ["across the source", one],
            ["leg", two / 2],
            ["across the load", three],
          ],
      series,
    ),
    source,
    load,
  );
}

const near = (resistors, series) => resistors.map(([name, ohms]) => [name, nearest(ohms, series)]);

/* Of all values within half a decibel those that leave both ends most as they were. */
function divider(loss, source, load, form, series) {
  const tried = upwards(source / 4, 4 * source, series)
    .map((across) => exact(loss, source, load, form, across))
    .filter(Boolean)
    .map((resistors) => made(form, near(resistors, series), source, load));
  if (!tried.length) {
    return {
      fault: `A loss of ${loss} dB is too little for ${form === "U" ? "a" : "an"} ${form}-pad between ${ohm(source)} and ${ohm(load)}.${form === "O" ? " Build a U-pad." : ""}`,
    };
  }
  const close = tried.filter(({ does }) => Math.abs(does.loss - loss) <= 0.5);
  const cost = ({ does }) => Math.abs(Math.log2(does.loadSees / source)) + Math.abs(does.loss - loss);
  return (close.length ? close : tried).reduce((best, one) => (cost(one) < cost(best) ? one : best));
}

function exact(loss, source, load, form, across) {
  const k = ratio(loss),
    end = parallel(across, load);
  if (form === "O") {
    const seen = k * end;
    return seen > 1.02 * load
      ? [
          ["across the source", (seen * load) / (seen - load)],
          ["leg", (seen - end) / 2],
          ["across the load", across],
        ]
      : null;
  }
  const leg = ((k * end * (source + load)) / load - end - source) / (form === "L" ? 1 : 2);
  return leg >= 1
    ? [
        ["leg", leg],
        ["across", across],
      ]
    : null;
}

function made(form, resistors, source, load) {
  const [first, second, third] = resistors.map(([, ohms]) => ohms),
    legs = form === "L" ? 1 : 2;
  const ladder =
    form === "H"
      ? [
          ["series", 2 * first],
          ["shunt", second],
          ["series", 2 * third],
        ]
      : form === "O"
        ? [
            ["shunt", first],
            ["series", 2 * second],
            ["shunt", third],
          ]
        : [
            ["series", legs * first],
            ["shunt", second],
          ];
  const series = ladder.filter(([way]) => way === "series").reduce((sum, [, ohms]) => sum + ohms, 0);
  return { form, resistors, does: done(ladder, source, load), leg: series / legs };
}

/* What a microphone of 5 mA finds behind a pad, and what a leg takes: V, W, W with a fault behind it. */
export const phantom = (leg) => ({
  left: PHANTOM - (HUNGRY * (FEED + leg)) / 2,
  watts: [(HUNGRY / 2) ** 2 * leg, (PHANTOM / (FEED + leg)) ** 2 * leg],
});

/* The smallest capacitor one can buy whose corner is not above `hertz` in a circuit of `ohms`. */
export function blocker(hertz, ohms) {
  const corner = (farad) => 1 / (Math.PI * ohms * farad);
  const farad = upwards(1e-7, 1e-2, "E6").find((one) => corner(one) <= hertz);
  if (farad === undefined)
    return {
      fault: `No capacitor one can buy reaches ${hertz} Hz in ${ohm(ohms)}. Ask for a higher corner.`,
    };
  return { farad, corner: corner(farad), charging: 3 * (220e3 + FEED) * farad };
}
