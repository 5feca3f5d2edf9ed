/* How likely a reading is under a class of readings; the same sums as generator/workshop/likely.py.
   A class is {low, high, moves} in ohm, an answer ohm or one of the words moves, beep, silent. */

const slack = (ohms, rules) => rules.ohm + rules.share * ohms;

const around = ({ low, high }, rules) => [
  low === Infinity ? low : low - slack(low, rules),
  high === Infinity ? high : high + slack(high, rules),
];

/* Can honest readings tell the two classes apart? */
export function apart(one, other, rules) {
  if (one.moves !== other.moves) return true;
  const [low, high] = around(one, rules);
  const [least, most] = around(other, rules);
  return high < least || most < low;
}

function fits(answer, known, rules) {
  const [low, high] = around(known, rules);
  if (answer === "beep") return Number(low <= rules.never);
  if (answer === "silent") return Number(high >= rules.sure);
  if (low <= answer && answer <= high) return 1;
  if (answer === Infinity || (answer < low && low === Infinity)) return 0;
  const edge = answer < low ? known.low : known.high;
  const beyond = (answer < low ? low - answer : answer - high) / slack(edge, rules);
  return Math.exp(-2 * beyond * beyond);
}

/* 1 at best, never below the chance of a wrong reading. */
export function likelihood(answer, known, rules) {
  if (answer === "moves") return known.moves ? rules.caught : rules.wrong;
  const found = fits(answer, known, rules);
  if (!known.moves) return Math.max(rules.wrong, found);
  const broken = Number(answer === Infinity || answer === "silent");
  return Math.max(rules.wrong, (1 - rules.caught) * Math.max(found, broken));
}

/* The answer one would expect of a class. */
export function typical({ low, high, moves }) {
  if (moves) return "moves";
  return high === Infinity ? Infinity : (low + high) / 2;
}
