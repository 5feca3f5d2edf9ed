"""Questions by seed, by address, and the reviewed core."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches
from pathlib import Path
from random import Random

from .facts import Facts
from .kinds import KINDS
from .question import LEVELS, NoQuestion, Question

TRIES = 400  # subjects drawn before a seed gives up
CORE = Path(__file__).with_name("core.txt")


def question(facts: Facts, id: str) -> Question:
    """The question at an address, `KIND:SUBJECT`; its choices are always the same. NoQuestion where there is
    none, naming the nearest."""
    kind, colon, subject = id.partition(":")
    if not colon:
        raise NoQuestion(f"“{id}” is no address of a question; write KIND:SUBJECT, for example {example()}")
    return KINDS[known_kind(kind)].ask(facts, subject, Random(id))


def example() -> str:
    """The address of the first question of the core."""
    return next(iter(core()), "contact:xlr-3-balanced,2")


def known_kind(name: str) -> str:
    """The name itself. NoQuestion with the nearest where no kind has it."""
    return known(name, KINDS, "kind of question")


def known_level(name: str) -> str:
    """The name itself. NoQuestion with the nearest where no level has it."""
    return known(name, LEVELS, "level")


def known(name: str, names: Iterable[str], what: str) -> str:
    """The name itself. NoQuestion with the nearest where it is not among them."""
    if name in names:
        return name
    near = get_close_matches(name, names, n=1, cutoff=0.4)
    raise NoQuestion(
        f"“{name}” is no {what}{f'; did you mean {near[0]}?' if near else '.'} There are {', '.join(names)}."
    )


def drawn(facts: Facts, kinds: Sequence[str], seed: str, level: str | None = None) -> Iterator[Question]:
    """Questions of some kinds in turn, each once, the same for the same seed and catalogue. It ends where
    nothing new is found."""
    chance, told, left = Random(seed), set(), list(kinds)
    while left:
        for kind in list(left):
            found = _one(facts, kind, chance, level, told)
            if found:
                told.add(found.id)
                yield found
            else:
                left.remove(kind)


def _one(facts: Facts, kind: str, chance: Random, level: str | None, told: set[str]) -> Question | None:
    for _ in range(TRIES):
        id = f"{kind}:{KINDS[kind].draw(facts, chance)}"
        if id in told:
            continue
        try:
            found = question(facts, id)
        except NoQuestion:
            continue
        if level is None or found.level == level:
            return found
    return None


def core() -> list[str]:
    """The addresses of the reviewed core, in their order."""
    lines = CORE.read_text("utf-8").splitlines() if CORE.is_file() else []
    return [line for line in lines if line and not line.startswith("#")]
