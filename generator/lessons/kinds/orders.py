"""Order the steps: some of a procedure's steps, to be put in their one right order."""

from __future__ import annotations

from itertools import combinations
from random import Random

from generator.lessons.facts import Facts
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.lessons.tables import table

from .kind import Kind, mixed

LEAST = 3  # steps; the order of two is a coin's toss


def _draw(facts: Facts, chance: Random) -> str:
    name = chance.choice(sorted(table("orders")))
    count = len(table("orders")[name]["steps"])
    chosen = chance.choice(
        [places for size in range(LEAST, count + 1) for places in combinations(range(1, count + 1), size)]
    )
    return f"{name},{'-'.join(map(str, chosen))}"


def _ask(facts: Facts, subject: str, chance: Random) -> Question:
    name, _, places = subject.partition(",")
    known = table("orders").get(name)
    if known is None or not places.replace("-", "").isdigit():
        raise NoQuestion(
            f"“{subject}” is no procedure with steps; write NAME,1-2-4 with one of "
            f"{', '.join(sorted(table('orders')))}"
        )
    numbers = [int(place) for place in places.split("-") if place]
    if (
        len(numbers) < LEAST
        or numbers != sorted(set(numbers))
        or not 1 <= numbers[0] <= numbers[-1] <= len(known["steps"])
    ):
        raise NoQuestion(f"“{subject}”: name {LEAST} to {len(known['steps'])} steps, each once and in order")
    steps = [
        Choice(str(number), known["steps"][number - 1]["do"], known["steps"][number - 1]["why"])
        for number in numbers
    ]
    told = " ".join(
        f"{place}. {step.text}: {step.why[:1].lower()}{step.why[1:]}" for place, step in enumerate(steps, 1)
    )
    asked = mixed(steps, chance)
    if asked == steps:
        asked = steps[1:] + steps[:1]  # given in order it would be no question
    return Question(
        "order",
        subject,
        "Put the steps in their order.",
        tuple(step.id for step in steps),
        told,
        known["works"],
        level(facts, "order", mistakes=len(steps)),
        known["evidence"],
        form="order",
        choices=tuple(asked),
        given=(("What is done", known["title"]),),
    )


KINDS = (Kind("order", "Order the steps of plugging", _draw, _ask),)
