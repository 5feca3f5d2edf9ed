/* A run searched by swapping and removing: the same sums as generator/workshop/run.py. `table` holds symptoms, costs and how often an answer is wrong. */

const SURE = 0.9,
  WORTH = 0.005;
const entropy = (share) =>
  [share, 1 - share].reduce((bits, p) => (p > 0 ? bits - p * Math.log2(p) : bits), 0);
const seconds = (table, name) => parseFloat(table.costs[name]);
const wrong = (table) => Number(table.answers.chance);

export const symptoms = (table) =>
  Object.entries(table).filter(([name]) => name !== "costs" && name !== "answers");

/* {likely: Map element -> share, names, tries: [{id, says, covers, seconds}]}; `names` {source, leads: [...], input}. */
export function run(table, symptom, { source, leads, input }) {
  const row = table[symptom];
  const names = new Map([
    ["settings", "a switch or a setting"],
    ["source", source],
    ...leads.map((name, i) => [`lead${i + 1}`, name]),
    ["input", input],
  ]);
  const weight = (element) => Number(row.weights[element.startsWith("lead") ? "lead" : element]);
  const total = [...names.keys()].reduce((sum, element) => sum + weight(element), 0);
  return {
    likely: new Map([...names.keys()].map((element) => [element, weight(element) / total])),
    names,
    tries: tries(table, names, row.look),
  };
}

function tries(table, names, look) {
  const leads = [...names.keys()].filter((element) => element.startsWith("lead"));
  const one = (id, says, covers, cost) => ({ id, says, covers, seconds: seconds(table, cost) });
  const found = [
    one("look", look, ["settings"], "settings"),
    ...leads.map((lead) =>
      one(`swap-${lead}`, `Swap ${names.get(lead)} for one you know is good.`, [lead], "swap-lead"),
    ),
  ];
  for (let cut = 2; cut <= leads.length; cut += 1) {
    for (const side of cut === leads.length ? ["first"] : ["first", "last"]) {
      const part = side === "first" ? leads.slice(0, cut) : leads.slice(-cut);
      const words = cut === leads.length ? "all leads" : `the ${side} ${cut} leads`;
      found.push(
        one(
          `bypass-${part[0]}-${part.at(-1)}`,
          `Take ${words} out and put one you know is good in their place.`,
          part,
          "bypass",
        ),
      );
    }
  }
  return [
    ...found,
    one("swap-source", "Put another source in its place.", ["source"], "swap-source"),
    one("swap-input", "Use another input.", ["input"], "swap-input"),
  ];
}

/* Element -> how likely after tries [id, gone]; what is no try of this run is left out. */
export function after(table, known, tried) {
  const w = wrong(table);
  return tried.reduce((likely, [id, gone]) => {
    const one = known.tries.find((other) => other.id === id);
    if (!one) return likely;
    const weighed = [...likely].map(([element, share]) => [
      element,
      share * (one.covers.includes(element) === gone ? 1 - w : w),
    ]);
    const total = weighed.reduce((sum, [, share]) => sum + share, 0);
    return new Map(weighed.map(([element, share]) => [element, share / total]));
  }, known.likely);
}

/* The bits a try is expected to tell. */
export function gain(table, likely, one) {
  const w = wrong(table),
    inside = [...likely].reduce(
      (sum, [element, share]) => (one.covers.includes(element) ? sum + share : sum),
      0,
    );
  return entropy(inside * (1 - w) + (1 - inside) * w) - entropy(w);
}

/* {likely: [[element, share]], state, next, tries}, the best try first by what it tells a second. */
export function traced(table, known, tried) {
  const likely = after(table, known, tried),
    used = new Set(tried.map(([id]) => id));
  const offered = known.tries
    .filter(({ id }) => !used.has(id))
    .map((one) => ({ ...one, bits: gain(table, likely, one) }))
    .sort((a, b) => b.bits / b.seconds - a.bits / a.seconds || (a.id < b.id ? -1 : 1))
    .filter(({ bits }) => bits >= WORTH);
  const order = [...likely].sort((a, b) => b[1] - a[1]);
  const found = order[0][1] >= SURE;
  return {
    likely: order,
    state: found ? "found" : offered.length ? "measuring" : "cannot tell",
    next: found ? null : offered[0] || null,
    tries: offered,
  };
}
