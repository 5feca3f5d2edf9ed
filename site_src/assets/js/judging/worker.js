self.window = self; // what scripts of a page call their global
importScripts("data.js", "circuits.js", "engine.js");

/* The engine in a thread of its own: requests come in, answers go out, the newest first. Between two slices of work it listens, so that what nobody
   waits for any more is left. It says nothing about anything unless all its scripts are of the edition of the page that asks. */

const SLICE = 50; // ms
const open = new Map(),
  { port1: next, port2: now } = new MessageChannel(); // a timer would wait 4 ms each time
let waiting = false;

self.onmessage = ({ data: { id, stop, edition, kind, request } }) => {
  if (stop) {
    open.delete(stop);
    self.postMessage({ stopped: stop });
    return;
  }
  load(Ringfence.judging.NEEDS[kind] || []);
  const told = [];
  open.set(id, {
    edition,
    told,
    steps: Ringfence.judging.worked(kind, request, (value) => told.push(value)),
  });
  soon();
};

now.onmessage = () => {
  waiting = false;
  const [id, one] = [...open].pop() || [];
  if (!one) return;
  const until = Date.now() + SLICE;
  let step = one.steps.next();
  while (!step.done && Date.now() < until) step = one.steps.next();
  if (step.done) open.delete(id);
  self.postMessage(
    of(one.edition)
      ? { id, told: one.told.splice(0), ...(step.done ? { done: step.value } : {}) }
      : { refused: true },
  );
  if (open.size) soon();
};

function soon() {
  if (!waiting) next.postMessage(null);
  waiting = true;
}

function load(scripts) {
  try {
    for (const name of scripts) if (!Ringfence.editions[name]) importScripts(`${name}.js`);
  } catch {
    /* the work itself will break down, and says so */
  }
}

const of = (edition) => Boolean(edition) && Object.values(Ringfence.editions).every((one) => one === edition);

self.postMessage({ ready: true });
