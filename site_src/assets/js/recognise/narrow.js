/* Which plugs the answers leave, and which question to ask next. `given` is a list of {question, answer}, ids; an answer is one of the
   question's own, "unsure", which rules nothing out, or "other", which rules out all that any answer names. */

const answer = (question, id) => question.answers.find((one) => one.id === id);

function fits(question, id, { looks }) {
  if (id === "unsure") return true;
  if (id === "other") return question.answers.every((one) => one.fits(looks)); // only what does not tell
  return answer(question, id).fits(looks);
}

const asked = (questions, given) =>
  given.map((one) => [questions.find(({ id }) => id === one.question), one.answer]);

const leftOf = (plugs, questions, given) =>
  plugs.filter((plug) => asked(questions, given).every(([question, id]) => fits(question, id, plug)));

/* Plugs that a single answer rules out, with the question it answers: a person may have seen one thing wrongly. A picture one tapped rules out most of the rest and is no such question. */
export function near(plugs, questions, given) {
  return plugs.flatMap((plug) => {
    const against = asked(questions, given).filter(([question, id]) => !fits(question, id, plug));
    return against.length === 1 && !against[0][0].pictured ? [{ plug, question: against[0][0] }] : [];
  });
}

/* How many plugs are left after the answer to a question, on average over the plugs in hand, each as likely as another. */
function expected(answers, plugs) {
  const kept = new Map(answers.map((one) => [one, plugs.filter(({ looks }) => one.fits(looks)).length]));
  const each = plugs.map(({ looks }) => {
    const right = answers.filter((one) => one.fits(looks));
    return right.reduce((sum, one) => sum + kept.get(one), 0) / right.length;
  });
  return each.reduce((sum, count) => sum + count, 0) / plugs.length;
}

/* The question that leaves the fewest plugs, with those of its answers that some plug in hand gives; null when none splits them. */
export function next(plugs, questions, given) {
  const left = leftOf(plugs, questions, given);
  if (left.length < 2) return null;
  const open = questions.filter(
    ({ id, when }) => !given.some(({ question }) => question === id) && (!when || when(left)),
  );
  const worth = open
    .map((question) => {
      const answers = question.answers.filter((one) => left.some(({ looks }) => one.fits(looks)));
      return { ...question, answers, leaves: expected(answers, left) };
    })
    .filter(({ leaves }) => leaves < left.length);
  const usual = worth.filter(({ last }) => !last);
  return (usual.length ? usual : worth).reduce(
    (best, one) => (best && best.leaves <= one.leaves ? best : one),
    null,
  );
}

export { leftOf as left };
