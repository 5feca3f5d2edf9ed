"""Leads that look alike, told apart: a dictionary whose `faults` are the leads it could be."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from generator.catalogue.records import Catalogue, Lead

from .dictionary import Dictionary, Window, dictionary
from .faulty import GOOD, Fault
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
