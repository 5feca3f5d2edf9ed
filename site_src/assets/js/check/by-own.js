/* Does a question rest on somebody's own numbers, and what is the engine asked then? */

/* Does this question rest on somebody's own numbers? */
export const byOwn = (question) =>
  Boolean(question.own) ||
  ["from", "into"].some((side) => (Ringfence.data.local || []).includes(question[side]));

/* {data, question} for the engine; null where the numbers cannot be put in. */
export const asking = (question, data) =>
  !byOwn(question) ? { data, question } : Ringfence.own ? Ringfence.own.asked(question) : null;
