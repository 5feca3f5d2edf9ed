/* Which questions decide an answer: those that set the limit a finding was held against, and those that set the level or supply behind it. */

import { inSetting } from "../engine/each.js";
import { asksOf } from "./apply.js";

const SUPPLIES = [
  "phantom-voltage",
  "plug-in-voltage",
  "parallel-voltage",
  "supply-voltage",
  "second-supply-voltage",
  "resting-volts",
];
const LEVELS = {
  // finding: questions of the outlet, questions of the inlet
  "too-hot": [["maximum-output-level"], ["maximum-input-level"]],
  "too-quiet": [["nominal-output-level", "microphone-sensitivity"], ["input-sensitivity"]],
  "level-not-known": [
    ["maximum-output-level", "nominal-output-level", "microphone-sensitivity"],
    ["maximum-input-level", "input-sensitivity"],
  ],
  "loaded-down": [
    ["output-impedance", "least-load", "winding-resistance", "line-termination"],
    ["input-impedance"],
  ],
};
const POWER = ["not-powered", "starved", "part-unpowered", "talkback-unpowered"];
const POWERED = ["lowest-supply", "full-supply", "current-drawn", "internal-resistance"];

/* Keys "side.ask" of what decides `judged`, those of the worst findings first. */
export function deciding(judged, question) {
  const keys = new Set();
  for (const { finding } of worst(judged)) {
    const [place, ...rest] = String(finding.subject).split("/"),
      side = sideOf(place);
    for (const at of ["from", "into"]) {
      for (const ask of asksOf(question[at])) {
        const limits = Object.values(ask.feeds)
          .flat()
          .filter(({ kind }) => kind === "limits" || kind === "needs");
        if (at === side && limits.some(({ id }) => id === rest.join("/"))) keys.add(`${at}.${ask.id}`);
      }
    }
    for (const at of ["from", "into"]) {
      const [out, into] = Object.hasOwn(LEVELS, finding.id) ? LEVELS[finding.id] : [[], []],
        power = POWER.includes(finding.id) ? [...POWERED, ...SUPPLIES] : [];
      const supplies =
        finding.unit === "V" &&
        ["over-volts", "rating-not-known", "reversed-capacitor", "supply-reversed"].includes(finding.id)
          ? SUPPLIES
          : [];
      const wanted = [...(at === "from" ? out : into), ...power, ...supplies];
      for (const ask of asksOf(question[at])) if (wanted.includes(ask.question)) keys.add(`${at}.${ask.id}`);
    }
  }
  return [...keys];
}

/* The findings that make the verdict, in the setting that is worst; notes too where nothing stands against it. */
function worst(judged) {
  const each = judged.settings.map((_, number) => inSetting(judged, number)),
    found = each.flat();
  return found.filter(({ finding }) => finding.severity === judged.verdict);
}

const sideOf = (place) => ({ outlet: "from", from: "from", inlet: "into", into: "into" })[place] || place;
