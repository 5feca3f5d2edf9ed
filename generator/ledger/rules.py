"""Which pairings a change of the rulebook bears on: those with a reading that meets other
rules now than it did."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from itertools import islice

import numpy as np

from generator.engine.findings import SLACK
from generator.engine.rulebook import loss, lower_is_worse, rules

from .form import NUMBER, VALUE, Damaged, parted
from .memory import Memory

Told = Callable[[Mapping], tuple | None]
Book = Mapping[str, Sequence[Mapping]]  # the rules about each quantity, in order
# what a rule that is met brings into a verdict, beside its limit; the rest says whether it is met
MET = ("id", "severity", "loss", "lower_is_worse")
TYPES = f"u{NUMBER}", f"f{VALUE}", f"f{VALUE}"
AT_ONCE = 4096  # pairings looked at together


def book() -> Book:
    """Today's rules, in what decides."""
    found: dict[str, list[Mapping]] = {}
    for rule in rules():
        found.setdefault(rule.quantity, []).append(
            {
                "id": rule.id,
                "severity": rule.severity,
                "limit": rule.limit,
                "compare": rule.compare,
                "only": dict(rule.only),
                "margin": rule.margin,
                "until": rule.until,
                "loss": loss([rule.id]),
                "lower_is_worse": lower_is_worse(rule.id),
            }
        )
    return found


def standing(memory: Memory, before: Book, now: Book, asked: Mapping[str, str | None]) -> Iterator[str]:
    """Of the pairings with these digests those that are remembered and whose readings meet the same rules in
    both books. `asked` has for each the rule whose number alone is told of it, or "", where rows are asked
    about: they have no figures and no other limit. None asks about everything."""
    limits = [
        {
            rule["id"]: [one["limit"] for rules in book.values() for one in rules if one["id"] == rule["id"]]
            for rules in book.values()
            for rule in rules
        }
        for book in (before, now)
    ]
    moved = {
        name for name in limits[0].keys() | limits[1].keys() if limits[0].get(name) != limits[1].get(name)
    }
    for every in (True, False):
        wanted = [digest for digest, told in asked.items() if (told is None) == every and told not in moved]
        yield from _standing(memory, before, now, wanted, every)


def _standing(memory: Memory, before: Book, now: Book, digests: Iterable[str], every: bool) -> Iterator[str]:
    quantities = [name for name in before.keys() | now.keys() if before.get(name) != now.get(name)]
    weighed = _graded(before) | _graded(now)
    try:
        kinds, kind_of = _kinds(memory, quantities)
    except Damaged:
        return
    held = _held(memory, digests)

    def told(rule: Mapping) -> tuple | None:
        """What is seen of a rule that is met."""
        if every:
            return *(rule[name] for name in MET), rule["limit"]
        return (
            None
            if rule["severity"] == "figure"
            else (*(rule[name] for name in MET), rule["limit"] if rule["id"] in weighed else None)
        )

    while some := list(islice(held, AT_ONCE)):
        numbers, values, limits = (
            np.frombuffer(b"".join(column), kind)
            for column, kind in zip(zip(*(parts for _, parts in some)), TYPES)
        )
        owner = np.repeat(np.arange(len(some)), [len(parts[0]) // NUMBER for _, parts in some])
        kind, other = kind_of[np.minimum(numbers, len(kind_of) - 1)], np.zeros(len(some), bool)
        for number, (quantity, flags, later) in enumerate(kinds, 1):
            here = np.flatnonzero(kind == number)
            books = before.get(quantity, ()), now.get(quantity, ())
            old, new = (_met(rules, flags, later, values[here], limits[here]) for rules in books)
            other[owner[here[_differ(old, new, *books, told)]]] = True
        yield from (digest for (digest, _), changed in zip(some, other) if not changed)


def _graded(book: Book) -> set[str]:
    """Rules of one name and several severities: which of them is told hangs on how far
    beyond its limit each is."""
    rules = [rule for rules in book.values() for rule in rules]
    return {
        rule["id"]
        for rule in rules
        if any(other["severity"] != rule["severity"] for other in rules if other["id"] == rule["id"])
    }


def _held(memory: Memory, digests: Iterable[str]) -> Iterator[tuple[str, tuple[bytes, bytes, bytes]]]:
    """The readings of those of these pairings that can be read."""
    for digest in digests:
        with suppress(Damaged):
            if told := memory.packed(digest):
                yield digest, parted(told)[1:]


def _kinds(memory: Memory, quantities: Iterable[str]) -> tuple[list[tuple[str, Mapping, bool]], np.ndarray]:
    """All that a rule asks of an outline, once each: quantity, flags, and whether it is of a
    later setting than the first; and which outline, by number, is of which of these, counted from
    1, or 0. Raises Damaged."""
    kinds: dict[tuple, int] = {}
    found = {
        number: kinds.setdefault((quantity, tuple(flags.items()), bool(setting)), len(kinds) + 1)
        for quantity in quantities
        for number, (_, flags, setting, *_) in memory.outlines(quantity).items()
    }
    kind_of = np.zeros(max(found, default=0) + 2, int)
    kind_of[list(found)] = list(found.values())
    return [(quantity, dict(flags), later) for quantity, flags, later in kinds], kind_of


def _met(
    rules: Sequence[Mapping], flags: Mapping[str, str], later: bool, values: np.ndarray, limits: np.ndarray
) -> np.ndarray:
    """Which readings of one kind meet which rules, (rules, readings), as `findings_of` has it."""
    met = np.zeros((len(rules), len(values)), bool)
    for number, rule in enumerate(rules):
        if (
            rule["severity"] == "figure"
            and later
            or any(flags.get(key) != want for key, want in rule["only"].items())
        ):
            continue
        limit = limits if rule["limit"] == "own" else np.full_like(values, float(rule["limit"]))
        slack = np.maximum(
            SLACK * np.maximum(np.maximum(abs(limit), abs(values)), 1e-6), rule["margin"] * abs(limit)
        )
        met[number] = values > limit + slack if rule["compare"] == "above" else values < limit - slack
        if rule["until"] is not None:
            met[number] &= values <= rule["until"]
    return met


def _differ(
    old: np.ndarray, new: np.ndarray, before: Sequence[Mapping], now: Sequence[Mapping], told: Told
) -> np.ndarray:
    """Which readings meet other rules now."""
    different = np.zeros(old.shape[1], bool)
    both = np.vstack([old, new])
    for case in {one.tobytes() for one in np.unique(both, axis=1).T}:
        met = np.frombuffer(case, bool)
        one, other = (
            [seen for rule, is_met in zip(rules, part) if is_met and (seen := told(rule))]
            for rules, part in ((before, met[: len(old)]), (now, met[len(old) :]))
        )
        if one != other:
            different |= (both == met[:, None]).all(axis=0)
    return different
