/* What can be asked of the engine, by kind. Each is a generator: what it yields is told on the way, what it returns is the answer. The same table
   answers in the worker and, where none may start, in the page. A request is plain data: records that are not the catalogue's own travel with it. */

export const NEEDS = { explain: ["explain"], run: ["interference", "runs"] }; // scripts that a kind takes besides

const among = ({ ports, leads, only }) => {
  const { data } = Ringfence,
    all = { ...data.leads, ...leads };
  return {
    ...data,
    ports: { ...data.ports, ...ports },
    leads: only ? Object.fromEntries(only.map((id) => [id, all[id]])) : all,
  };
};

/* The published verdict, with what it was made from: a copy in another thread would else not know what holds in each setting. */
function judged(request) {
  const found = Ringfence.engine.judge(among(request), Ringfence.rulebook, request.question);
  return { judged: found, made: Ringfence.engine.held?.(found) };
}

/* One connection that breaks down leaves the others standing. */
function tried(request) {
  const { inPassing = (work) => work() } = Ringfence.engine;
  try {
    return inPassing(() => judged(request));
  } catch (fault) {
    return { fault: String(fault) };
  }
}

export const KINDS = {
  *judge(request) {
    return judged(request);
  },
  *each({ requests, after }) {
    for (const request of requests.slice(after)) yield request && tried(request);
  },
  *search(request) {
    return yield* Ringfence.engine.search(among(request), Ringfence.rulebook, request.question);
  },
  *missing(request) {
    return Ringfence.engine.missing(among(request), Ringfence.rulebook, request.question);
  },
  *run(request) {
    const data = among(request),
      { from, through, into } = request.question;
    return Ringfence.interference.runOf(
      data,
      Ringfence.tables,
      data.ports[from],
      through.map((id) => data.leads[id]),
      data.ports[into],
    );
  },
  *explain(request) {
    return Ringfence.engine.explain(among(request), Ringfence.rulebook, request.question, request.finding);
  },
};

/* Works a request out step by step, `tell(value)` on the way. Returns {answer}, or {fault} in words. */
export function* worked(kind, request, tell) {
  try {
    const steps = KINDS[kind](request);
    let step = steps.next();
    for (; !step.done; step = steps.next()) {
      tell(step.value);
      yield;
    }
    return { answer: step.value };
  } catch (fault) {
    return { fault: String(fault) };
  }
}
