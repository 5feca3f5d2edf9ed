/* The lead, or chain of leads, that gets one port into another: safest first, then least lost, then shortest. The twin of
   route.py, in steps, so that a page answers to a thumb while it looks. */

import { sideOf } from "./assemble.js";
import { MOST_LEADS, OFFERED, ORDER_COSTS } from "./constants.js";
import { before, glance, plainly } from "./glance.js";
import { judge } from "./judge.js";
import { remembered } from "./kept.js";
import { somethingToHear } from "./kinds.js";
import { fits } from "./mate.js";
import { OPPOSITE } from "./misfit.js";
import { lost as lostOf } from "./rulebook.js";
import { sieve } from "./sieve.js";
import { rank as rankOf, standing } from "./verdict.js";

export const FORMS = ["cable", "adapter", "converter", "splitter"]; // from most to least common in a bag

const LOOKS = [sieve, glance]; // at a chain, each closer and dearer than the one before
const WORTH_OFFERING = rankOf("lossy") + ORDER_COSTS;

/* Looks for the best chains, best first; never one that carries no signal or does not fit, nor one that is dangerous, but for a danger
   while plugging that a switch avoids: it is offered with its order. None either where neither sends what the other hears. A generator: every
   step yields {looked, known} (chains looked at, of those met so far); it returns the published verdicts. */
export function* search(data, rulebook, { from, into }, { offered = OFFERED, most = MOST_LEADS } = {}) {
  if (!somethingToHear(data.ports[from], data.ports[into])) return [];
  const found = [],
    plain = plainly(data),
    queue = [];
  let order = 0,
    looked = 0,
    known = 0;
  const put = (cost, kind, item) => insert(queue, { cost, order: order++, kind, item });
  const look = function (chain, looks) {
    const [rank, lost] = LOOKS[looks](plain, rulebook, from, chain, into);
    if (rank <= WORTH_OFFERING)
      put([rank, 0, lost, ...carried(data, chain, 0)], "chain", { chain, looks: looks + 1 });
  };
  for (let length = 0; length <= most; length++) put([0, 0, 0, length], "length", length);
  while (queue.length && found.length < offered) {
    const { kind, item } = queue.shift();
    if (kind === "verdict") found.push(item);
    else if (kind === "chain") {
      const { chain, looks } = item;
      if (looks < LOOKS.length) look(chain, looks);
      else {
        const judged = judge(data, rulebook, { from, through: chain, into });
        if (standing(judged) <= WORTH_OFFERING) put(cost(data, rulebook, judged), "verdict", judged);
      }
      yield { looked, known };
    } else if (!found.length || found[0].verdict !== "safe") {
      const chains = [...chainsOf(data, from, into, item)];
      known += chains.length;
      for (const chain of chains) {
        looked += 1;
        look(chain, 0);
        yield { looked, known };
      }
    }
  }
  return found;
}

function insert(queue, entry) {
  let low = 0,
    high = queue.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const other = queue[middle];
    // a list is longer than that of a length, which is to be looked into before what has this many leads is taken
    if (before(entry.cost, other.cost) || (!before(other.cost, entry.cost) && entry.order < other.order))
      high = middle;
    else low = middle + 1;
  }
  queue.splice(low, 0, entry);
}

/* What makes one answer worse than another: verdict, while plugging, how much is lost, leads, how rare they are in a bag,
   what to mind, metres, name. */
export function cost(data, rulebook, answer) {
  const { plugging, findings, through } = answer,
    notes = findings.filter(({ severity }) => severity === "note").length,
    lost = lostOf(rulebook, findings);
  return [standing(answer), rankOf(plugging), lost, ...carried(data, through, notes)];
}

/* The part of it that hangs on the leads, but for what there is to mind. */
function carried(data, through, notes) {
  const leads = through.map((id) => data.leads[id]),
    sum = (numbers) => numbers.reduce((all, one) => all + one, 0);
  const rare = sum(leads.map(({ form }) => FORMS.indexOf(form))),
    metres = sum(leads.map(({ length }) => length || 0));
  return [through.length, rare, notes, metres, ...through];
}

/* Every chain of exactly `length` different leads whose halves go into each other, grown from From and pruned towards Into.
   Beside another lead a plain extension changes nothing and is left out. In chains of three every lead leads to a half not
   met before, or has parts. */
function chainsOf(data, from, into, length) {
  const goes = fitting(data),
    goal = halvesTowards(data, goes, data.ports[into], length),
    chains = new Map();
  const useful = Object.values(data.leads).filter((lead) => length < 2 || !extension(data, lead)),
    onward = new Map(); // from a half, as [lead, the halves it leads to]
  grow([], data.ports[from], new Set());
  return chains.values();

  function grow(taken, open, before) {
    const left = length - taken.length;
    if (!goal[left].some((half) => goes(open, half))) return;
    if (!left) {
      chains.set(taken.join(), taken);
      return;
    }
    const met = new Set([...before, name(open)]);
    for (const [lead, halves] of remembered(onward, name(open), () => leadsOn(open))) {
      if (taken.includes(lead.id)) continue;
      for (const half of halves) {
        if (length < MOST_LEADS || !met.has(name(half)) || lead.parts.length)
          grow([...taken, lead.id], half, met);
      }
    }
  }

  function leadsOn(open) {
    const found = useful.map((lead) => [lead, different(farHalves(goes, lead, open))]);
    return found.filter(([, halves]) => halves.length);
  }
}

const name = ({ connector, half }) => `${connector} ${half}`;
const different = (halves) => [...new Map(halves.map((half) => [name(half), half])).values()];

/* Does one half go into another? Asked of the same ones again and again. */
function fitting(data) {
  const known = new Map();
  return (one, two) =>
    remembered(
      remembered(known, name(one), () => new Map()),
      name(two),
      () => fits(sideOf(data, one), sideOf(data, two)),
    );
}

function farHalves(goes, lead, open) {
  const ends = Object.values(lead.ends);
  return ends.filter((near) => goes(open, near)).flatMap((near) => ends.filter((far) => far !== near));
}

/* For each number of leads still to come, the halves a chain may present next. */
function halvesTowards(data, goes, target, length) {
  const reach = [[target]],
    both = (ends) => ends.flatMap((near) => ends.filter((far) => far !== near).map((far) => [near, far]));
  const pairs = Object.values(data.leads).flatMap(({ ends }) => both(Object.values(ends)));
  for (let i = 0; i < length; i++) {
    const going = pairs.filter(([, far]) => reach[i].some((half) => goes(far, half)));
    reach.push(different(going.map(([near]) => near)));
  }
  return reach;
}

/* Does it lead every contact on to the same contact of the same connector, and do nothing else? */
function extension(data, lead) {
  const [near, far, ...others] = Object.values(lead.ends);
  const opposite = far.connector === near.connector && far.half === OPPOSITE[near.half];
  if (lead.parts.length || others.length || !opposite) return false;
  const joined = new Set(lead.joins.map(({ nodes }) => [...new Set(nodes)].sort().join())),
    { contacts } = data.connectors[near.connector];
  const straight = contacts.map((contact) => [`${near.id}.${contact}`, `${far.id}.${contact}`].sort().join());
  return joined.size === straight.length && straight.every((pair) => joined.has(pair));
}

export { chainsOf as chains };
