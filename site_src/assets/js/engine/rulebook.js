/* What the rulebook holds beside its sentences. The twin of the last part of rulebook.py; a rulebook is the published list
   of rules. */

/* What findings cost together, by id; the same thing lost on both channels is one loss. */
export const loss = (rulebook, ids) =>
  [...new Set(ids)].reduce(
    (sum, id) => sum + (rulebook.find((rule) => rule.id === id && rule.weighs) || { weighs: 0 }).weighs,
    0,
  );

/* What findings of an answer that lose something cost. */
export const lost = (rulebook, findings) =>
  loss(
    rulebook,
    findings.filter(({ severity }) => severity === "lossy").map(({ id }) => id),
  );

/* Which way the numbers of a rule get worse. */
export const lowerIsWorse = (rulebook, id) => rulebook.find((rule) => rule.id === id).compare === "below";
