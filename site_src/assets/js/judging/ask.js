/* Asking the engine without holding the page: in a worker; where none may start (a page from a disc, an old browser, a policy), or where its scripts do
   not come or are of another edition, in the page itself, in slices. Who asks cannot tell which. What takes long has a worker of its own, so that no
   verdict waits for it: within one connection a worker cannot listen. */

import { beside, later } from "../ui/later.js";
import { seen, steps as stepsOf } from "../ui/slices.js";

export const PATIENCE = {
  coming: 8000, // ms for its scripts to load; they are those of this page, and at hand. After that the page answers until they are here
  grace: 1000, // ms a worker may go on with what nobody waits for
  idle: 20000, // ms the second one stays with nothing to do, for it takes memory
};
const LONG = ["each", "search", "missing"]; // kinds that judge many connections
const open = new Map(), // id -> what was asked and is not answered
  able = Boolean(beside) && typeof Worker === "function",
  near = { able, worker: null, state: "" },
  far = { ...near };
let count = 0;

/* Starts the worker ahead of the first question. */
export const begin = () => void started(near);

/* Is there a worker, or can there be? */
function started(at) {
  clearTimeout(at.idle);
  if (at.worker || !at.able) return at.able;
  try {
    at.worker = new Worker(new URL("worker.js", beside));
  } catch {
    at.able = false;
    return false;
  }
  const mine = at.worker;
  at.state = "coming";
  at.late = setTimeout(() => {
    at.state = "late";
    again(at);
  }, PATIENCE.coming);
  mine.onmessage = ({ data }) => {
    if (mine !== at.worker) return;
    clearTimeout(at.late);
    at.state = "here";
    if (data.stopped) clearTimeout(at.overdue);
    else if (data.refused) without(at);
    else if (data.id) heard(data);
    rest(at);
  };
  mine.onerror = (event) => {
    event.preventDefault();
    if (mine === at.worker) without(at);
  };
  return true;
}

/* Resolves to the answer to a request of a kind (kinds.js); `onstep(value)` is told on the way; rejects where it breaks down. A newer request in the
   same lane makes the older one void: nothing comes of that any more. */
export function ask(kind, request, { lane = kind, onstep = () => null } = {}) {
  stop(lane);
  return new Promise((done, failed) => {
    const one = { kind, request, lane, onstep, done, failed, steps: 0, halt: () => null };
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
  one.at = LONG.includes(one.kind) && started(far) ? far : near;
  if (started(one.at) && one.at.state !== "late") there(one);
  else here(one);
}

function there(one) {
  const { id, kind, request, steps, at } = one,
    edition = document.querySelector("meta[name=edition]"),
    to = at.worker;
  one.halt = () => {
    if (to !== at.worker) return;
    to.postMessage({ stop: id });
    clearTimeout(at.overdue);
    if (at.state === "here") at.overdue = setTimeout(anew, PATIENCE.grace, at);
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
function anew(at) {
  lose(at);
  if (at === near) begin();
  again(at);
}

/* Without the second the first does all; without that the page. */
function without(at) {
  for (const one of at === near ? [near, far] : [far]) {
    one.able = false;
    lose(one);
    again(one);
  }
}

const waiting = (at) => [...open.values()].filter((one) => one.at === at);

const again = (at) => waiting(at).forEach(put);

/* The second worker ends when nothing is asked of it for a while. */
function rest(at) {
  clearTimeout(at.idle);
  if (at === far && at.worker && !waiting(at).length) at.idle = setTimeout(lose, PATIENCE.idle, at);
}

function lose(at) {
  clearTimeout(at.late);
  clearTimeout(at.overdue);
  at.worker?.terminate();
  at.worker = null;
}
