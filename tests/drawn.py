"""Which of many are tried where not all can be: a lot drawn by a digest of everything the answer rests on, so
that it is the same on every machine and another with every change of what is judged."""

from __future__ import annotations

import os
from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import TypeVar
from zlib import crc32

from generator.catalogue import Catalogue
from generator.ledger.fingerprint import Fingerprints, Pairing

Row = TypeVar("Row")
WHOLE = bool(os.environ.get("RINGFENCE_WHOLE"))  # all of them are wanted


def one_in(every: int, pairings: Sequence[Pairing], catalogue: Catalogue) -> list[Pairing]:
    """One in so many of some pairings or chains; all where the whole is wanted."""
    if WHOLE:
        return list(pairings)
    prints = Fingerprints(catalogue, words=False)
    return [one for one in pairings if lot(prints.of(one), one) % every == 0]


def lot(*what) -> int:
    """The same number for the same things."""
    return crc32(" ".join(map(str, what)).encode())


def complete(
    chosen: Iterable[Row], all: Sequence[Row], has: Callable[[Row], Iterable[Hashable]]
) -> list[Row]:
    """The chosen and as few others as a greedy choice needs, so that everything that any of all has is met
    at least once. In the order of all."""
    holders: dict[Hashable, list[int]] = {}
    for number, one in enumerate(all):
        for thing in has(one):
            holders.setdefault(thing, []).append(number)
    wanted = {id(one) for one in chosen}
    taken = {number for number, one in enumerate(all) if id(one) in wanted}
    missing = {thing for thing, found in holders.items() if taken.isdisjoint(found)}
    for thing, found in holders.items():
        if thing in missing:
            best = max(found, key=lambda number: len(missing.intersection(has(all[number]))))
            taken.add(best)
            missing.difference_update(has(all[best]))
    return [one for number, one in enumerate(all) if number in taken]
