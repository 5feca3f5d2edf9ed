/* Show the working: the case behind a verdict's number, with its nets, parts and currents. The twin of explain.py; the answer
   has the fields of Working in working.py. */

import { assemble, placed, ways } from "./assemble.js";
import { CircuitError } from "./circuit.js";
import { limitOf, met } from "./findings.js";
import { asked, combine, judgeWay, read } from "./judge.js";
import { owner } from "./naming.js";
import { shownCase } from "./shown.js";
import { caseOf } from "./slices.js";
import { settings, supplySwitches } from "./switches.js";

const ASKED = "path-gain"; // what is shown when nothing is wrong
const NO_CASE = "No voltage or current decides this; it follows from what the two devices are.";

/* The working behind the verdict's deciding finding, or behind `wanted`, a finding of the published answer or an id (its
   worst finding); of a connection without findings, how the signal arrives. Throws RangeError for an unknown id, or when
   there is nothing to work out. */
export function explain(data, rulebook, { from, through = [], into }, wanted = null) {
  const { outlet, leads, inlet } = asked(data, from, through, into);
  const possible = ways(data, outlet, leads, inlet);
  if (!possible.length)
    throw new RangeError("The halves do not go into each other: there is no circuit to work out.");
  const judged = possible.map((way) => judgeWay(data, rulebook, outlet, leads, inlet, way));
  const verdict = combine(rulebook, leads, judged, data.ports),
    { group } = verdict,
    chosen = choose(verdict, wanted);
  const found = (one) => one.findings.includes(chosen) || one.every.includes(chosen);
  const decides = (one) => one.verdict === verdict.verdict;
  const aside = verdict.beside.find(({ finding }) => finding === chosen);
  const [[way]] = (
    group.find(found) ||
    (aside && aside.other) ||
    judged.find(found) ||
    group.find(decides) ||
    group[0]
  ).ways;
  const places = placed(data, outlet, leads, inlet, way);
  const question = { start: from, through: [...through], target: into, verdict: verdict.verdict };
  const base = { ...question, way: wayWords(places, leads, way), ...EMPTY };
  const [rule, reading] = readingOf(rulebook, chosen, () => read(data, outlet, leads, inlet, way));
  const numbered = (note) => withNumber({ ...base, note }, data, rule, reading, chosen);
  if (typeof reading === "string") return withNumber({ ...base, note: reading }, data, null, null, chosen);
  if (!reading || reading.at === null) return numbered(NO_CASE);
  const assembly = assemble(data, outlet, leads, inlet, way);
  base.setting = settingOf(assembly, reading);
  return shownCase(numbered(""), assembly, caseOf(assembly, reading));
}

const EMPTY = {
  finding: "",
  severity: "",
  says: "",
  nature: "rule",
  setting: {},
  state: "",
  corner: "",
  touching: [],
  hertz: null,
  level: null,
  source: "",
  quantity: "",
  where: "",
  value: 0,
  unit: "",
  compare: "",
  limit: null,
  limit_from: "",
  evidence: "",
  cite: [],
  titles: [],
  terms: [],
  nets: [],
  parts: [],
  left_out: 0,
  equation: null,
  note: "",
};

function choose(verdict, wanted) {
  if (wanted === null)
    return verdict.findings.find((finding) => finding.severity === verdict.verdict) || null;
  const same =
    typeof wanted === "string"
      ? (finding) => finding.id === wanted
      : (finding) =>
          ["id", "where", "when", "says", "value", "limit"].every((name) => finding[name] === wanted[name]);
  // The page may ask about one setting.
  const all = [
    ...verdict.findings,
    ...verdict.group.flatMap((one) => one.every),
    ...verdict.beside.map(({ finding }) => finding),
  ];
  const found = all.find(same);
  const name = typeof wanted === "string" ? wanted : wanted.id;
  if (!found) throw new RangeError(`'${name}' is not a finding of this connection`);
  return found;
}

function wayWords(places, leads, { ends, plugged }) {
  const label = (i, end) => leads[i].ends[end].label;
  const steps = ends.map(
    ([near, far], i) => `${label(i, near)} to the outlet's side, ${label(i, far)} to the inlet's`,
  );
  const spare = plugged.map(({ lead, end, place }) => `${label(lead, end)} in ${owner(places, place)}`);
  return [...steps, ...spare].join("; ") || "plugged straight in";
}

/* The rule that made a finding, and the reading it was made from; in its place the words for why nothing could be read. */
function readingOf(rulebook, chosen, read) {
  let readings;
  try {
    readings = read();
  } catch (error) {
    if (error instanceof CircuitError) return [null, error.message];
    throw error;
  }
  if (!chosen) {
    const asked = ({ quantity }) => quantity === ASKED,
      louder = (best, one) => (best && best.value >= one.value ? best : one);
    return [rulebook.find(asked), readings.filter(asked).reduce(louder, null)];
  }
  const alike = (one) => ["subject", "state", "setting", "value"].every((name) => one[name] === chosen[name]);
  const same = (rule) => (one) =>
    one.quantity === rule.quantity && alike(one) && met(rule, one.value, limitOf(rule, one));
  for (const rule of rulebook.filter(({ id }) => id === chosen.id)) {
    const found = readings.find(same(rule));
    if (found) return [rule, found];
  }
  return [null, null];
}

function settingOf({ ports }, { setting }) {
  if (setting === null) return {};
  const names = new Map(supplySwitches(ports).map(({ key, name }) => [key, name]));
  return Object.fromEntries([...settings(ports)[setting]].map(([key, state]) => [names.get(key), state]));
}

/* The number, its limit and where that comes from. */
function withNumber(base, data, rule, reading, chosen) {
  if (!chosen && !reading) return base;
  const own = rule !== null && rule.limit === "own",
    told = chosen || reading,
    { evidence, cite } = chosen || rule;
  const remark = own && reading.evidence ? reading.evidence.note : null;
  const from = [
    own ? "The part's own rating." : "The rulebook.",
    remark || (rule && !own ? rule.reason : ""),
  ];
  const sources = cite.filter((name) => Object.hasOwn(data.sources, name));
  return {
    ...base,
    finding: chosen ? chosen.id : "",
    severity: chosen ? chosen.severity : "safe",
    says: chosen ? chosen.says : "Nothing speaks against it; this is how the signal arrives.",
    quantity: reading ? reading.quantity : "",
    where: told.where,
    state: told.state,
    value: told.value,
    unit: told.unit,
    compare: rule ? rule.compare : "",
    limit: chosen ? chosen.limit : limitOf(rule, reading),
    limit_from: from.filter(Boolean).join(" "),
    evidence,
    cite: [...cite],
    titles: sources.map((name) => data.sources[name].title),
  };
}
