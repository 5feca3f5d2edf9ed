/* Asking the engine without holding the page: in a worker; where none may start (a page from a disc, an old browser, a policy), or where its scripts do
   not come or are of another edition, in the page itself, in slices. Who asks cannot tell which. */

import { beside, later } from "../ui/later.js";
import { seen, steps as stepsOf } from "../ui/slices.js";

export const PATIENCE = {
  coming: 8000, // ms for its scripts to load; they are those of this page, and at hand. After that the page answers until they are here
  grace: 1000, // ms a worker may go on with what nobody waits for; within one connection it cannot listen
};
const open = new Map(); // id -> what was asked and is not answered
let worker = null,
  able = Boolean(beside) && typeof Worker === "function",
  state = "",
  count = 0,
  late = 0,
  overdue = 0;

/* Starts the worker ahead of the first question. */
export function begin() {
  if (worker || !able) return;
  try {
    worker = new Worker(new URL("worker.js", beside));
  } catch {
    able = false;
    return;
  }
  const mine = worker;
  state = "coming";
  late = setTimeout(meanwhile, PATIENCE.coming);
  worker.onmessage = ({ data }) => {
    if (mine !== worker) return;
    clearTimeout(late);
    state = "here";
    if (data.stopped) clearTimeout(overdue);
    else if (data.refused) without();
    else if (data.id) heard(data);
  };
  worker.onerror = (event) => {
    event.preventDefault();
    if (mine === worker) without();
  };
}

/* Resolves to the answer to a request of a kind (kinds.js); `onstep(value)` is told on the way; rejects where it breaks down. A newer request in the
   same lane makes the older one void: nothing comes of that any more. */
export function ask(kind, request, { lane = kind, onstep = () => null } = {}) {
  stop(lane);
  return new Promise((done, failed) => {
    const one = { kind, request, lane, onstep, done, failed, steps: 0, halt: () => null };
    begin();
    put(one);
  });
}

/* Nobody waits for what was asked in this lane, or in any, where none is named. */
export function stop(lane) {
  for (const one of [...open.values()]) {
    if (lane !== undefined && one.lane !== lane) continue;
    open.delete(one.id);
    one.halt();
  }
}

/* A question about `data` as a request: with those of its records that are not the catalogue's own, which the worker does not know. `leads` are what
   a search may take besides. */
export function request({ data, question: { from, through = [], into } }, leads = []) {
  const strange = (kind, ids) =>
    Object.fromEntries(
      ids
        .map((id) => [id, data[kind][id]])
        .filter(([id, record]) => record && (record.mine || record !== Ringfence.data[kind][id])),
    );
  return {
    question: { from, through, into },
    ports: strange("ports", [from, into]),
    leads: strange("leads", [...through, ...leads]),
  };
}

/* Under a number of its own each time: what was asked elsewhere before is not listened to any more. */
function put(one) {
  open.delete(one.id);
  one.halt();
  one.id = ++count;
  open.set(one.id, one);
  if (able && state !== "late") there(one);
  else here(one);
}

function there(one) {
  const { id, kind, request, steps } = one,
    edition = document.querySelector("meta[name=edition]"),
    to = worker;
  one.halt = () => {
    if (to !== worker) return;
    to.postMessage({ stop: id });
    clearTimeout(overdue);
    if (state === "here") overdue = setTimeout(anew, PATIENCE.grace);
  };
  to.postMessage({
    id,
    kind,
    request: { ...request, after: steps },
    edition: edition ? edition.content : "",
  });
}

function here(one) {
  const { id, kind, request, steps } = one;
  let gone = false;
  one.halt = () => {
    gone = true;
  };
  (beside ? seen : setTimeout)(async () => {
    for (const name of Ringfence.judging.NEEDS[kind] || []) await later(name);
    const work = Ringfence.judging.worked(kind, { ...request, after: steps }, (value) =>
      heard({ id, told: [value] }),
    );
    stepsOf(
      { next: () => (gone ? { done: true } : work.next()) },
      () => null,
      (done) => heard({ id, told: [], done }),
    );
  });
}

function heard({ id, told, done }) {
  const one = open.get(id);
  for (const value of told) {
    if (!open.has(id)) return;
    one.steps += 1;
    one.onstep(value);
  }
  if (!done || !open.delete(id)) return;
  if (done.fault) one.failed(new Error(done.fault));
  else one.done(done.answer);
}

/* The worker is deep in what nobody waits for: a new one goes on with the rest. */
function anew() {
  lose();
  begin();
  for (const one of [...open.values()]) put(one);
}

function meanwhile() {
  state = "late";
  for (const one of [...open.values()]) put(one);
}

function without() {
  able = false;
  lose();
  for (const one of [...open.values()]) put(one);
}

function lose() {
  clearTimeout(late);
  clearTimeout(overdue);
  if (worker) worker.terminate();
  worker = null;
}
