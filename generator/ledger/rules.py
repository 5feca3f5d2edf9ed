"""Which pairings a change of the rulebook bears on: those with a reading that meets other rules now than it did."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from itertools import islice

import numpy as np

from generator.engine.findings import SLACK
from generator.engine.rulebook import loss, lower_is_worse, rules

from .form import NUMBER, VALUE, Damaged, parted
from .memory import Memory

Book = Mapping[str, Sequence[Mapping]]  # the rules about each quantity, in order
TOLD = ("id", "severity", "limit", "loss", "lower_is_worse")  # what a rule that is met brings into a verdict; the rest says whether it is met
TYPES = f"u{NUMBER}", f"f{VALUE}", f"f{VALUE}"
AT_ONCE = 4096  # pairings looked at together


def book() -> Book:
    """Today's rules, in what decides."""
    found: dict[str, list[Mapping]] = {}
    for rule in rules():
        found.setdefault(rule.quantity, []).append({
            "id": rule.id, "severity": rule.severity, "limit": rule.limit, "compare": rule.compare, "only": dict(rule.only), "margin": rule.margin,
            "until": rule.until, "loss": loss([rule.id]), "lower_is_worse": lower_is_worse(rule.id)})
    return found


def standing(memory: Memory, before: Book, now: Book, digests: Iterable[str], figures: bool) -> Iterator[str]:
    """Of the pairings with these digests those that are remembered and meet the same rules in both books; `figures` count or do not."""
    quantities = [name for name in before.keys() | now.keys() if before.get(name) != now.get(name)]
    try:
        kinds, kind_of = _kinds(memory, quantities)
    except Damaged:
        return
    held = _held(memory, digests)
    while some := list(islice(held, AT_ONCE)):
        numbers, values, limits = (np.frombuffer(b"".join(column), kind) for column, kind in zip(zip(*(parts for _, parts in some)), TYPES))
        owner = np.repeat(np.arange(len(some)), [len(parts[0]) // NUMBER for _, parts in some])
        kind, other = kind_of[np.minimum(numbers, len(kind_of) - 1)], np.zeros(len(some), bool)
        for number, (quantity, flags, later) in enumerate(kinds, 1):
            here = np.flatnonzero(kind == number)
            books = before.get(quantity, ()), now.get(quantity, ())
            old, new = (_met(rules, flags, later, values[here], limits[here]) for rules in books)
            other[owner[here[_differ(old, new, *books, figures)]]] = True
        yield from (digest for (digest, _), changed in zip(some, other) if not changed)


def _held(memory: Memory, digests: Iterable[str]) -> Iterator[tuple[str, tuple[bytes, bytes, bytes]]]:
    """The readings of those of these pairings that can be read."""
    for digest in digests:
        with suppress(Damaged):
            if told := memory.packed(digest):
                yield digest, parted(told)[1:]


def _kinds(memory: Memory, quantities: Iterable[str]) -> tuple[list[tuple[str, Mapping, bool]], np.ndarray]:
    """All that a rule asks of an outline, once each: quantity, flags, and whether it is of a later setting than the first; and which outline, by
    number, is of which of these, counted from 1, or 0. Raises Damaged."""
    kinds: dict[tuple, int] = {}
    found = {number: kinds.setdefault((quantity, tuple(flags.items()), bool(setting)), len(kinds) + 1)
             for quantity in quantities for number, (_, flags, setting, *_) in memory.outlines(quantity).items()}
    kind_of = np.zeros(max(found, default=0) + 2, int)
    kind_of[list(found)] = list(found.values())
    return [(quantity, dict(flags), later) for quantity, flags, later in kinds], kind_of


def _met(rules: Sequence[Mapping], flags: Mapping[str, str], later: bool, values: np.ndarray, limits: np.ndarray) -> np.ndarray:
    """Which readings of one kind meet which rules, (rules, readings), as `findings_of` has it."""
    met = np.zeros((len(rules), len(values)), bool)
    for number, rule in enumerate(rules):
        if rule["severity"] == "figure" and later or any(flags.get(key) != want for key, want in rule["only"].items()):
            continue
        limit = limits if rule["limit"] == "own" else np.full_like(values, float(rule["limit"]))
        slack = np.maximum(SLACK * np.maximum(np.maximum(abs(limit), abs(values)), 1e-6), rule["margin"] * abs(limit))
        met[number] = values > limit + slack if rule["compare"] == "above" else values < limit - slack
        if rule["until"] is not None:
            met[number] &= values <= rule["until"]
    return met


def _differ(old: np.ndarray, new: np.ndarray, before: Sequence[Mapping], now: Sequence[Mapping], figures: bool) -> np.ndarray:
    """Which readings meet other rules now."""
    different = np.zeros(old.shape[1], bool)
    both = np.vstack([old, new])
    for case in {one.tobytes() for one in np.unique(both, axis=1).T}:
        met = np.frombuffer(case, bool)
        if _told(met[:len(old)], before, figures) != _told(met[len(old):], now, figures):
            different |= (both == met[:, None]).all(axis=0)
    return different


def _told(met: np.ndarray, rules: Sequence[Mapping], figures: bool) -> list[tuple]:
    return [tuple(rule[name] for name in TOLD) for rule, one in zip(rules, met) if one and (figures or rule["severity"] != "figure")]
