"""What a kind of question is, and what all of them share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from random import Random

from generator.lessons.facts import Facts
from generator.lessons.question import Choice, NoQuestion, Question

MOST = 4  # choices; three good ones are enough


@dataclass(frozen=True)
class Kind:
    """`draw` gives the subject of a random question; `ask` the question about a subject, its
    choices drawn by `chance`. NoQuestion where a subject is none of this kind, or nobody listed
    enough wrong answers for it."""

    name: str
    about: str
    draw: Callable[[Facts, Random], str]
    ask: Callable[[Facts, str, Random], Question]


def shuffled(
    right: Choice, wrong: Iterable[Choice], chance: Random, most: int = MOST, least: int = 3
) -> tuple[Choice, ...]:
    """The right choice among some wrong ones, first come first taken, in random order. NoQuestion
    where too few differ."""
    found, texts, ids = [right], {right.text}, {right.id}
    for choice in wrong:
        if len(found) < most and choice.text not in texts and choice.id not in ids:
            found.append(choice)
            texts.add(choice.text)
            ids.add(choice.id)
    if len(found) < least:
        raise NoQuestion(f"there are not enough wrong answers beside “{right.text}”")
    chance.shuffle(found)
    return tuple(found)


def parts(subject: str, count: int, form: str) -> list[str]:
    """The parts of a subject. NoQuestion where it has not so many."""
    found = subject.split(",")
    if len(found) != count or not all(found):
        raise NoQuestion(f"“{subject}” is not a subject of this kind; write {form}")
    return found


def mixed(items: Sequence, chance: Random) -> list:
    """A copy in random order."""
    return chance.sample(list(items), len(items))
