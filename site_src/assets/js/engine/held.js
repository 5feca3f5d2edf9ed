/* What a published answer was made from, held apart from it. */

const made = new WeakMap();

export function hold(published, answer) {
  made.set(published, answer);
  published.findings.forEach((finding, i) => made.set(finding, answer.findings[i]));
  return published;
}

/* What an answer was made from, for another thread to hold it by. */
export const held = (published) => made.get(published);

/* Does a circuit decide this finding of an answer? */
export const explains = (finding) => (made.get(finding) || finding).at !== null;

/* What every switch of an answer is called, key -> name; undefined for an answer this engine did not give. */
export const switchNames = (published) => made.get(published)?.names;
