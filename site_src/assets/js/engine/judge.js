/* From readings to a verdict: the worst finding of a setting, the worst setting of a way, the ways that count. The twin of
   judge.py. */

import { assemble, placed, portsOf, ways } from "./assemble.js";
import { CircuitError } from "./circuit.js";
import { ALIKE, MOST_WAYS, SLACK } from "./constants.js";
import { directReadings } from "./direct.js";
import { dischargeReadings } from "./discharge.js";
import { findingsOf, notSolved, STATES } from "./findings.js";
import { signalReadings } from "./hearing.js";
import { hold } from "./held.js";
import { misfit } from "./misfit.js";
import { short } from "./readings.js";
import { lowerIsWorse } from "./rulebook.js";
import { solveSignals } from "./signal.js";
import { settings as settingsOf, supplySwitches } from "./switches.js";
import { publishedVerdict, rank, severest, worstOf } from "./verdict.js";
import { settingWords, within } from "./words.js";

const DEAD = ["not-powered", "switched-off"];
const WEAK = [...DEAD, "barely-powered"];

/* Judge one connection. `data` is the published catalogue, `rulebook` the list of rules, `from` and `into` port ids,
   `through` lead ids. Gives the published form of a verdict. Throws RangeError for an unknown id. */
export function judge(data, rulebook, question) {
  const answer = answerOf(data, rulebook, question);
  return hold(publishedVerdict(question, answer), answer);
}

/* The same with everything that is known of each finding. */
function answerOf(data, rulebook, { from, through = [], into }) {
  const { outlet, leads, inlet } = asked(data, from, through, into);
  const possible = ways(data, outlet, leads, inlet),
    count = possible.length;
  const answer = function () {
    if (!count) return outright(misfit(data, outlet, leads, inlet));
    const tooMany = `it can be plugged in ${count} ways, and no more than ${MOST_WAYS} are worked out`;
    if (count > MOST_WAYS) return outright(notSolved(tooMany), possible.slice(0, 1));
    const judged = possible.map((way) => judgeWay(data, rulebook, outlet, leads, inlet, way));
    return combine(rulebook, leads, judged, data.ports);
  };
  return { from, through: [...through], into, ...answer() };
}

/* An answer that one finding gives without any circuit. */
const outright = (finding, ways = []) => ({
  verdict: finding.severity,
  settings: [],
  moments: [],
  group: [],
  beside: [],
  names: new Map(),
  plugging: finding.severity,
  plugs: [],
  findings: [finding],
  figures: [],
  ways: ways.map((way) => [way, finding.severity]),
});

/* The records a question is about. */
export const asked = (data, from, through, into) => ({
  outlet: known(data.ports, from, "port"),
  inlet: known(data.ports, into, "port"),
  leads: through.map((id) => known(data.leads, id, "lead")),
});

function known(records, id, kind) {
  if (!Object.hasOwn(records, id)) throw new RangeError(`no ${kind} '${id}' in the catalogue`);
  return records[id];
}

/* All readings of one way. */
const readOf = (data, outlet, leads, inlet, way) => readingsOf(assemble(data, outlet, leads, inlet, way));

/* Everything there is to read from an assembly. Throws CircuitError for what is no number. */
export function readingsOf(assembly) {
  const signals = solveSignals(assembly);
  const found = [
    ...directReadings(assembly, signals),
    ...dischargeReadings(assembly),
    ...signalReadings(assembly, signals),
  ];
  const numbers = found.every(({ value, limit }) => Number.isFinite(value) && Number.isFinite(limit || 0));
  if (!numbers) throw new CircuitError("a reading or its limit is not a number");
  return found;
}

/* Judge one way of plugging by what `read` finds. */
export function judgeWay(data, rulebook, outlet, leads, inlet, way, read = readOf) {
  const places = placed(data, outlet, leads, inlet, way),
    ports = portsOf(places);
  const switches = settingsOf(ports),
    count = switches.length;
  const names = new Map(supplySwitches(ports).map(({ key, name }) => [key, name]));
  const told = switches.map((setting) => settingWords(setting, names));
  const every = solved(() =>
    read(data, outlet, leads, inlet, way).flatMap((reading) => findingsOf(rulebook, reading, told, places)),
  );
  const findings = every.filter(({ severity }) => severity !== "figure");
  const figures = every.filter(({ severity }) => severity === "figure");
  const here = switches.map((_, i) => findings.filter(({ setting }) => setting === null || setting === i));
  const settings = switches.map((setting, i) => [setting, severest(here[i])]);
  const moving = ({ state }) => state === "plugging",
    still = ({ state }) => state !== "plugging";
  const moments = here.map((found) => [severest(found.filter(still)), severest(found.filter(moving))]);
  const decide = settings.filter((_, i) => !onlyUnpowered(here[i], findings, count));
  const verdict = worstOf(decide.map(([, found]) => found));
  return {
    verdict,
    settings,
    moments,
    names,
    plugging: severest(findings.filter(moving)),
    plugs: [],
    findings: toldOnce(findings, count),
    every: findings,
    figures: worstFigures(rulebook, verdict, figures),
    ways: [[way, verdict]],
  };
}

/* Findings, or the one that says there are none: what cannot be worked out is never called safe. */
function solved(findings) {
  try {
    return findings();
  } catch (error) {
    if (error instanceof CircuitError) return [notSolved(error.message)];
    throw error;
  }
}

const wayOf = ({ ways: [[way]] }) => way;

/* One answer from all ways of plugging. `ports` are those of the catalogue, by id. */
export function combine(rulebook, leads, judged, ports) {
  const meant = judged.filter((one) => wayOf(one).meant),
    others = judged.filter((one) => !wayOf(one).meant);
  const { group, plugs } = decisive(leads, meant),
    kept = new Map();
  const fullest = group.reduce((best, one) => (one.settings.length > best.settings.length ? one : best));
  const parts = fullest.settings.map(([setting]) =>
    group.flatMap((one) =>
      one.settings.flatMap(([part, found], i) => (within(part, setting) ? [[found, ...one.moments[i]]] : [])),
    ),
  );
  const worst = (of, which) => worstOf(of.map((one) => one[which]));
  const answer = {
    verdict: worstOf(group.map((one) => one.verdict)),
    group,
    plugs,
    names: fullest.names,
    settings: fullest.settings.map(([setting], i) => [setting, worst(parts[i], 0)]),
    moments: parts.map((of) => [worst(of, 1), worst(of, 2)]),
    plugging: worstOf(group.map((one) => one.plugging)),
  };
  for (const finding of group.flatMap((one) => one.findings)) keepWorse(kept, finding);
  const beside = []; // what another use of the lead brings, as told, the setting it hangs on, and that use
  for (const other of others) {
    const { plugged } = wayOf(other),
      dangers = other.findings.filter(({ severity }) => severity === "dangerous");
    const partners = plugged.map(({ port }) => (Object.hasOwn(ports, port) ? short(ports[port]) : port));
    for (const danger of dangers) {
      keepWorse(kept, plugged.length ? atSpareEnd(danger, partners) : danger);
      const setting = danger.setting === null ? new Map() : other.settings[danger.setting][0];
      // With the other tail in nothing, every setting counts as dangerous.
      beside.push(
        plugged.length
          ? { finding: atSpareEnd(danger, partners), setting, other }
          : { finding: { ...danger, when: STATES[danger.state] }, setting: new Map(), other },
      );
    }
    if (!dangers.length || plugged.length) continue;
    answer.verdict = "dangerous"; // nobody has to plug the other tail in
    answer.settings = answer.settings.map(([setting]) => [setting, "dangerous"]);
    answer.moments = answer.moments.map(([, plugging]) => ["dangerous", plugging]);
  }
  const figures = worstFigures(
    rulebook,
    answer.verdict,
    group.flatMap((one) => one.figures),
  );
  const findings = worstFirst([...kept.values()]),
    ways = judged.flatMap((one) => one.ways);
  return { ...answer, beside, findings, figures, ways };
}

/* A danger that hangs on what somebody else plugs into the spare end: told with its name, and no part of the verdict. */
function atSpareEnd(finding, partners) {
  const { subject, says } = finding,
    begun = says[0].toLowerCase() + says.slice(1);
  const told = `With ${partners.join(" and ")} in the spare end: ${begun}`;
  return { ...finding, severity: "note", subject: `spare:${subject}`, says: told, at: null };
}

/* The ways of plugging that count, and the labels to look for where the choice of an end matters: {group, plugs}. Ends
   with different labels are chosen on purpose, so the best such choice counts (of equals the one with the least to say
   against it), unless another is dangerous; what a person cannot choose (which of two like ends, whether spare ends are
   used) counts at its worst. */
export function decisive(leads, judged) {
  const choices = new Map();
  for (const one of judged) {
    const labels = labelsOf(leads, wayOf(one)),
      key = JSON.stringify(labels);
    if (!choices.has(key)) choices.set(key, { labels, group: [] });
    choices.get(key).group.push(one);
  }
  const all = [...choices.values()],
    worst = (choice) => rank(worstOf(choice.group.map((one) => one.verdict)));
  const ranks = all.map(worst),
    dangerous = Math.max(...ranks) === rank("dangerous");
  const counts = dangerous ? rank("dangerous") : Math.min(...ranks);
  const most = (choice) => Math.max(...choice.group.map(faults));
  const best = all
    .filter((_, i) => ranks[i] === counts)
    .reduce((one, other) => (most(other) < most(one) ? other : one));
  const worse = all.filter((_, i) => ranks[i] > counts);
  const plugs = best.labels.filter((label, k) => worse.some(({ labels }) => labels[k] !== label));
  return { group: best.group, plugs };
}

/* What a person reads on the ends of this way. */
const labelsOf = (leads, way) => leads.flatMap((lead, i) => way.ends[i].map((end) => lead.ends[end].label));

const faults = ({ findings }) => findings.filter(({ severity }) => severity !== "note").length;

/* A setting that merely leaves a device without its supply, or short of it, while another setting powers it better, does not
   decide the headline. `here` are the findings of that setting. */
function onlyUnpowered(here, findings, count) {
  const dead = here.some(({ id }) => DEAD.includes(id));
  const lacks = ({ id }) => (dead ? DEAD : WEAK).includes(id);
  const rest = severest(here.filter((finding) => !lacks(finding)));
  if (!here.some(lacks) || rank(rest) > rank("lossy")) return false;
  return new Set(findings.filter(lacks).map(({ setting }) => setting)).size < count;
}

/* What several settings share is told once, where it is worst; a setting is only named when it matters. */
function toldOnce(findings, count) {
  const kept = new Map(),
    seen = new Map();
  for (const finding of findings) {
    seen.set(sameness(finding), (seen.get(sameness(finding)) || new Set()).add(finding.setting));
    keepWorse(kept, finding);
  }
  const everywhere = (finding) => ({ ...finding, when: STATES[finding.state] });
  return worstFirst(
    [...kept].map(([key, finding]) => (seen.get(key).size === count ? everywhere(finding) : finding)),
  );
}

export const sameness = ({ id, subject, state }) => JSON.stringify([id, subject, state]);

function keepWorse(kept, finding) {
  const key = sameness(finding),
    best = kept.get(key),
    beyond = ({ value, limit }) => Math.abs(value - (limit || 0));
  if (!best || beyond(finding) > beyond(best) * (1 + SLACK) + SLACK) kept.set(key, finding);
}

/* Each finding once, where it is worst; worst first. */
export function gathered(findings) {
  const kept = new Map();
  for (const finding of findings) keepWorse(kept, finding);
  return worstFirst([...kept.values()]);
}

/* Of each figure, in each case it is told for, the worst of all channels and ways; none where nothing works. */
function worstFigures(rulebook, verdict, figures) {
  const kept = new Map();
  for (const figure of rank(verdict) <= rank("lossy") ? figures : []) {
    const key = JSON.stringify([figure.id, figure.case]),
      best = kept.get(key);
    const sign = lowerIsWorse(rulebook, figure.id) ? -1 : 1;
    const worse = () => sign * (figure.value - best.value) > ALIKE * Math.max(1, Math.abs(best.value));
    if (!best || worse()) kept.set(key, figure);
  }
  return [...kept.values()];
}

/* By severity, losses by what they weigh, notes last; a stable sort keeps the order of the rest. */
const worstFirst = (findings) =>
  [...findings].sort(
    (a, b) =>
      rank(b.severity) - rank(a.severity) ||
      (a.severity === "note") - (b.severity === "note") ||
      (a.severity === "note" ? 0 : b.weighs - a.weighs),
  );

export { answerOf as answer, labelsOf as labels, readOf as read };
