/* What was guessed for a run, so that an answer can show it and a person can put a better number in its place. The twin of guesses.py. */

/* Reads constants for one run; what the run gives itself comes first. `used`: words -> {words, key, values, unit, evidence, cite, reason}. */
export function guesses(run, tables) {
  const used = {};
  function note(row, words, values, unit, key) {
    if (used[words]) return;
    used[words] = {
      words,
      key: key || "",
      values: values || [],
      unit: unit || "",
      evidence: row.evidence,
      cite: row.cite || [],
      reason: row.reason,
    };
  }
  return {
    used,
    note,
    constant(key, end) {
      if (Object.hasOwn(run.assume, key)) return run.assume[key];
      const row = tables.constants[key];
      note(row, row.words, row.values, tables.units[key], key);
      return row.values[end];
    },
    given: (key, otherwise) => (Object.hasOwn(run.assume, key) ? run.assume[key] : otherwise),
  };
}
