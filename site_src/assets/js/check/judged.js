/* Asking the engine, and saying its answer in one line. When it cannot answer, the page says so; it never guesses. */

import { ask, request, stop } from "../judging/ask.js";
import { port } from "../ui/catalogue.js";
import { mixed } from "../ui/editions.js";
import { rank, row as rowOf, worth } from "../ui/table.js";
import { sentence as asSentence, listed } from "../ui/words.js";
import { asking } from "./by-own.js";
import { setting as settingOf } from "./settings.js";

const MEANING = {
  safe: "The signal arrives on every channel, no limit is passed, and nothing that was asked for is lost.",
  lossy: "It works, and something is lost.",
  "no signal": "It will not work.",
  dangerous: "Do not connect this.",
  "does not fit": "These do not go into each other.",
};

const POWERED = "Power arrives the right way round, there is enough of it, and no limit is passed.";

const broken = (fault) => {
  console.error(fault);
  return { failed: "The calculation broke down." };
};

/* Resolves to {judged, unguarded} or {failed: words, mixed}. `data` is the catalogue, or one with a lead more. Two calculations guard each other, this
   one and that of the generator: nothing milder than the table of the catalogue's own connections is ever shown; `unguarded` is a connection the
   table would hold, while it is not at hand. Where parts of two versions met on this page, nothing is judged. A newer question in the same lane makes
   the older one void: it is never answered. */
export async function judge(question, { data = Ringfence.data, lane = "judge" } = {}) {
  stop(lane);
  const asked = prepared(question, data);
  if (asked.failed) return asked;
  const found = await ask("judge", asked.request, { lane }).catch((fault) => ({ fault }));
  return guarded(question, data, asked, found);
}

/* The same for one question after the other: `work(found, question, number from 1)` for each, and `ondone()` after the last. Returns a function that
   stops it. */
export function judgeAll(questions, work, ondone, { data = Ringfence.data, lane = "each" } = {}) {
  const asked = questions.map((question) => prepared(question, data)),
    requests = asked.map(({ request }) => request || null);
  let place = 0;
  const tell = (found) => {
    const one = asked[place],
      question = questions[place++];
    work(one.failed ? one : guarded(question, data, one, found), question, place);
  };
  const rest = (fault) => {
    while (place < questions.length) tell({ fault });
    ondone();
  };
  (requests.some(Boolean) ? ask("each", { requests }, { lane, onstep: tell }) : Promise.resolve()).then(
    rest,
    rest,
  );
  return () => stop(lane);
}

/* What the engine is asked, {request, own}, or why it is not. */
function prepared(question, data) {
  if (mixed())
    return {
      failed: "This page was put together from two versions of the site. Load it again.",
      mixed: true,
    };
  if (typeof Ringfence.engine?.judge !== "function") return { failed: "The calculation did not load." };
  try {
    const asked = asking(question, data);
    return asked
      ? { request: request(asked), own: asked.question !== question }
      : { failed: "Your own numbers did not load, so this is not the answer for them." };
  } catch (fault) {
    return broken(fault);
  }
}

function guarded(question, data, { own }, { judged, made, fault }) {
  if (fault) return broken(fault);
  if (made) Ringfence.engine.hold(judged, made);
  if (own)
    return {
      judged: Object.assign(judged, {
        from: question.from,
        into: question.into,
        own: Ringfence.own.words(question),
      }),
    };
  if (rank(judged.verdict) < 0) return { failed: "The calculation gave no verdict." };
  const row = data === Ringfence.data ? rowOf(question.from, question.through, question.into) : null;
  return row && (row.rank > rank(judged.verdict) || worth(row) > worth(judged))
    ? { failed: "The calculation in this browser came out milder than it should." }
    : { judged, unguarded: data === Ringfence.data && !Ringfence.table && question.through.length < 2 };
}

export const deciding = (judged) => judged.findings.filter((finding) => finding.severity === judged.verdict);

/* One plain sentence: what decided it, or what the verdict means when nothing stands against it. */
export function sentence(judged) {
  const [first] = deciding(judged);
  return first && first.says
    ? asSentence(first.says)
    : judged.verdict === "safe" && powers(judged)
      ? POWERED
      : MEANING[judged.verdict];
}

/* Is it power that goes from one to the other? */
export const powers = ({ from }) =>
  (port(from) ? port(from).sources : []).some(({ kind }) => kind === "power");

/* The condition line, unless it only repeats the verdict. */
export function condition(judged) {
  const line = judged.conditions || "";
  return line.replace(/\.$/, "").toLowerCase() === judged.verdict ? "" : line;
}

/* Which plugs to take, where the verdict holds for them only. */
export const marked = ({ plugs = [] }) =>
  plugs.length
    ? `Use the plug${plugs.length > 1 ? "s" : ""} marked ${listed(plugs.map((label) => `“${label}”`))}.`
    : "";

/* What to switch so that it ends better than its worst: a sentence, or nothing; nothing where the answer itself offers an order. Of equally good settings the one with most switched off:
   nobody should switch a supply on that is not needed. */
const lit = ({ supplies }) => Object.values(supplies).filter((position) => position !== "off").length;

export function better(judged, question) {
  if (judged.verdict === "does not fit" || judged.offer) return "";
  const best = [...judged.settings].sort((a, b) => rank(a.verdict) - rank(b.verdict) || lit(a) - lit(b))[0];
  if (!best || rank(best.verdict) >= rank(judged.verdict)) return "";
  const setting = settingOf(best.supplies, judged, question);
  if (best.verdict === "no signal") return `With ${setting} nothing is harmed, but it will not work.`;
  return `Before plugging, set ${setting}: then it is ${best.verdict}.`;
}
