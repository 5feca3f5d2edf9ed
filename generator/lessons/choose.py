"""How the reviewed core was chosen. `python -m generator.lessons.choose` writes it anew; what a person took
out stays out (`LEFT_OUT`).

The rule: every kind gives its share of 300, three of them (contact, verdict, lead) half as much again, for
they are asked most. Of a few hundred drawn by one seed those come first that need no memory; levels have
their shares; nothing is asked about more than twice by one kind, and no answer is right more often than a
third of the time, so that the core is broad.
"""

from __future__ import annotations

from collections import Counter
from itertools import islice

from .bank import CORE, drawn
from .facts import Facts
from .kinds import KINDS
from .question import LEVELS, Question

AIM, SEED, POOL = 300, "core", 240
MORE = ("contact", "verdict", "lead")
SHARES = {LEVELS[0]: 0.45, LEVELS[1]: 0.4, LEVELS[2]: 0.15}
EACH = 2  # questions of one kind that begin with the same thing
LEFT_OUT = ("midi", "loudspeaker,console", "loudspeaker,mixer")  # leads nobody would try: they teach nothing
HEAD = (
    "# The reviewed core: addresses of questions, KIND:SUBJECT. Chosen by generator/lessons/choose.py, then "
    "read by a person.\n"
)


def chosen(facts: Facts) -> list[Question]:
    """The core, kind by kind, easier ones first."""
    weights = {kind: 1.5 if kind in MORE else 1.0 for kind in KINDS}
    room = {kind: round(AIM * weight / sum(weights.values())) for kind, weight in weights.items()}
    return [one for kind in KINDS for one in _of(facts, kind, room[kind])]


def _of(facts: Facts, kind: str, count: int) -> list[Question]:
    pool = sorted(islice(drawn(facts, [kind], SEED), POOL), key=lambda one: bool(one.note))
    found: list[Question] = []
    begun: Counter[str] = Counter()
    answers: Counter[tuple] = Counter()
    levels: Counter[str] = Counter()
    for strict in (True, False):  # levels by their shares first, then whatever is left
        for one in pool:
            start = one.subject.split(",")[0]
            if len(found) == count or one in found or any(word in one.id for word in LEFT_OUT):
                continue
            if (
                begun[start] >= EACH
                or one.answer
                and answers[one.answer] >= _most(one, count)
                or strict
                and levels[one.level] >= SHARES[one.level] * count
            ):
                continue
            found.append(one)
            begun[start] += 1
            answers[one.answer] += 1
            levels[one.level] += 1
    return sorted(found, key=lambda one: (LEVELS.index(one.level), one.id))


def _most(one: Question, count: int) -> int:
    """How often one answer may be right; where an answer is a place and no thing, the place is
    drawn by lot already."""
    return count if one.kind in ("meter", "switch") else max(2, count // 3)


if __name__ == "__main__":
    from generator.catalogue import default_directory

    from .command import facts

    CORE.write_text(HEAD + "".join(f"{one.id}\n" for one in chosen(facts(default_directory()))), "utf-8")
