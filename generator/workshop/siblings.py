"""Leads that look alike, told apart: a dictionary whose `faults` are the leads it could be."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

import numpy as np

from generator.catalogue.records import Catalogue, Lead

from .dictionary import Dictionary, Window, dictionary
from .faulty import GOOD, Fault
from .likely import all_apart
from .specimen import end_of, on_bench


def alike(catalogue: Catalogue, lead: Lead) -> list[Lead]:
    """The lead and its look-alikes, the lead first."""
    return [lead, *(catalogue.leads[other] for other in lead.looks_like)]


def apart(catalogue: Catalogue, leads: Sequence[Lead]) -> Dictionary:
    """One dictionary for all: measurements with the terminals of the first, and what each of the leads
    reads there."""
    first = on_bench(catalogue, leads[0])
    own = dictionary(first, [Fault(GOOD)])
    rows = []
    for lead in leads:
        names = _names(leads[0], lead)
        other = dictionary(on_bench(catalogue, lead), [Fault(GOOD)])
        read = {
            tuple(map(frozenset, m)): other.classes[other.which[0, i]]
            for i, m in enumerate(other.measurements)
        }
        rows.append([_window(read, names, measurement) for measurement in own.measurements])
    classes = sorted({window for row in rows for window in row}, key=lambda w: (w.low, w.high))
    number = {window: i for i, window in enumerate(classes)}
    which = np.array([[number[window] for window in row] for row in rows], dtype=np.uint16)
    return Dictionary(
        tuple(Fault("lead", (lead.id,)) for lead in leads), own.measurements, tuple(classes), which
    )


def _names(first: Lead, other: Lead) -> dict[str, str]:
    """End of the first lead -> end of the other with the same plug; like ends in their order."""
    left, found = list(other.ends.values()), {}
    for end in first.ends.values():
        match = next(one for one in left if (one.connector, one.half) == (end.connector, end.half))
        left.remove(match)
        found[end.id] = match.id
    return found


def _window(read: dict, names: dict[str, str], measurement) -> Window:
    sides = tuple(
        frozenset(f"{names[end_of(t)]}.{t.partition('.')[2]}" for t in side) for side in measurement
    )
    return read[sides] if sides in read else read[sides[1], sides[0]]


def shortest(known: Dictionary) -> dict[str, Any]:
    """The measurements that part the leads of a dictionary in the fewest readings on average, equally likely,
    and of those the fewest at worst: what is left as `leads` (their places), and unless that is told no
    further the measurement `m` and its `answers`, each with the classes that lead to it and what it leaves.
    Tried exhaustively: there are at most nine look-alikes."""
    differ = all_apart(known.edges)
    _, columns = np.unique(known.which, axis=1, return_index=True)

    def split(left: frozenset[int], m: int) -> list[frozenset[int]]:
        """The leads that read alike, together; what overlaps is alike."""
        groups: list[set[int]] = []
        for lead in sorted(left):
            touching = [
                g
                for g in groups
                if any(not differ[known.which[lead, m], known.which[other, m]] for other in g)
            ]
            groups = [g for g in groups if g not in touching] + [{lead}.union(*touching)]
        return [frozenset(group) for group in groups]

    @cache
    def best(left: frozenset[int]) -> tuple[int, int, int]:
        """Readings of all leads together, at worst, and the measurement that leads there; -1 for none."""
        found = []
        for m in sorted(columns) if len(left) > 1 else ():
            parts = split(left, m)
            if len(parts) > 1:
                after = [best(part) for part in parts]
                found.append((len(left) + sum(a[0] for a in after), 1 + max(a[1] for a in after), int(m)))
        return min(found, default=(0, 0, -1))

    def told(left: frozenset[int]) -> dict[str, Any]:
        m = best(left)[2]
        found: dict[str, Any] = {"leads": sorted(left)}
        if m >= 0:
            answers = [
                {"classes": sorted({int(known.which[lead, m]) for lead in part}), "then": told(part)}
                for part in split(left, m)
            ]
            found |= {"m": m, "answers": sorted(answers, key=lambda answer: answer["classes"])}
        return found

    return told(frozenset(range(len(known.faults))))
