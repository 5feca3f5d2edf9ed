/* The answers as they stand in the address, in the order they were given: #shape=rod&rings=2&thick=unsure */

/* What names no question or answer, or answers a question again, is left out. */
export function read(hash, questions) {
  const given = [];
  for (const [name, answer] of new URLSearchParams(hash.replace(/^#/, ""))) {
    const question = questions.find(({ id }) => id === name);
    if (!question || given.some((one) => one.question === name)) continue;
    if (["unsure", "other"].includes(answer) || question.answers.some(({ id }) => id === answer))
      given.push({ question: name, answer });
  }
  return given;
}

export const write = (given) =>
  given.length ? `#${new URLSearchParams(given.map(({ question, answer }) => [question, answer]))}` : "#";
