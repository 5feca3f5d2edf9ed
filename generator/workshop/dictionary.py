"""The fault dictionary of a lead: what every measurement reads under every fault, worked out before the
first probe is put on.

A measurement is a pair of terminals, or two groups of contacts of one end, each group joined under one
probe: with many contacts that finds a short in a few steps. Readings fall into few classes, so the
dictionary is a table of small numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .faulty import GOOD, Fault, faults, injected
from .likely import apart
from .paths import resistances
from .readings import pairs
from .specimen import SHELL, Specimen, contact_of

MANY = 5  # contacts at one end from which joining them under a probe pays
MERE = 1e-3  # ohm; less is nothing
TOP = 20e6  # ohm; above the highest range there is no reading


@dataclass(frozen=True)
class Window:
    """A class of readings: bounds in ohm (infinite: no reading), and whether the reading comes and goes
    when the lead is flexed."""

    low: float
    high: float
    moves: bool = False


Measurement = tuple[tuple[str, ...], tuple[str, ...]]  # the terminals under either probe


@dataclass(frozen=True)
class Dictionary:
    """`classes[which[f, m]]` is what measurement m reads under fault f."""

    faults: tuple[Fault, ...]
    measurements: tuple[Measurement, ...]
    classes: tuple[Window, ...]
    which: np.ndarray

    @cached_property
    def weights(self) -> np.ndarray:
        """How likely each fault is before anything has been read; the sum is 1."""
        found = np.array([fault.weight for fault in self.faults])
        return found / found.sum()

    @cached_property
    def alike(self) -> np.ndarray:
        """For every two faults whether no measurement tells them apart: (faults, faults)."""
        differ = np.array([[apart(one, other) for other in self.classes] for one in self.classes])
        rows, back = np.unique(self.which, axis=0, return_inverse=True)
        told = np.zeros((len(rows), len(rows)), dtype=bool)
        for column in np.unique(rows, axis=1).T:
            told |= differ[column][:, column]
        return ~told[np.ix_(back.ravel(), back.ravel())]

    def place(self, fault: str) -> int:
        """The number of a fault."""
        return [known.id for known in self.faults].index(fault)


def written(measurement: Measurement) -> str:
    """As it is typed: `a.1-b.1`; contacts joined under one probe as `a.1&a.3-a.2`."""
    return "-".join("&".join(terminals) for terminals in measurement)


def dictionary(specimen: Specimen, among: Sequence[Fault] | None = None) -> Dictionary:
    """The dictionary of a lead, for all its single faults or some of them."""
    tried = tuple(faults(specimen) if among is None else among)
    measurements = (*(((a,), (b,)) for a, b in pairs(specimen)), *_straps(specimen))
    good = _read(specimen, Fault(GOOD), measurements)
    bounds = np.array([_read(specimen, fault, measurements) for fault in tried])
    loose = np.array([fault.kind == "loose" for fault in tried])
    moves = loose[:, None] & (np.isinf(bounds[..., 1]) != np.isinf(good[None, :, 1]))
    bounds = np.where(moves[..., None] | loose[:, None, None], good[None], bounds)
    table = np.concatenate([moves[..., None], bounds], axis=-1).reshape(-1, 3)
    classes, which = np.unique(table, axis=0, return_inverse=True)
    windows = tuple(Window(float(low), float(high), bool(moving)) for moving, low, high in classes)
    return Dictionary(tried, measurements, windows, which.reshape(len(tried), -1).astype(np.uint16))


def _straps(specimen: Specimen) -> list[Measurement]:
    """With many contacts at an end: those whose number has a bit set joined under one probe, the others
    under the other."""
    found = []
    for terminals in specimen.ends.values():
        contacts = [terminal for terminal in terminals if contact_of(terminal) != SHELL]
        for bit in range((len(contacts) - 1).bit_length() if len(contacts) >= MANY else 0):
            sides = [
                tuple(t for i, t in enumerate(contacts) if bool(i >> bit & 1) == side)
                for side in (True, False)
            ]
            found.append((sides[0], sides[1]))
    return found


def _read(specimen: Specimen, fault: Fault, measurements: Sequence[Measurement]) -> np.ndarray:
    """The bounds of every measurement: (measurements, 2). Groups are bounded: not above their best pair,
    not below all pairs in parallel."""
    low, high = resistances(injected(specimen, fault))
    at = {terminal: i for i, terminal in enumerate(specimen.terminals)}
    single = [m for m in measurements if len(m[0]) == len(m[1]) == 1]
    i, j = ([at[m[side][0]] for m in single] for side in (0, 1))
    found = [np.stack([low[i, j], high[i, j]], axis=-1)]
    for red, black in measurements[len(single) :]:
        between = np.ix_([at[t] for t in red], [at[t] for t in black])
        with np.errstate(divide="ignore"):
            least = 1 / np.sum(1 / np.maximum(low[between], MERE))
        found.append(np.array([[least, high[between].min()]]))
    both = np.concatenate(found)
    return np.stack([_snapped(both[:, 0], np.floor), _snapped(both[:, 1], np.ceil)], axis=-1)


def _snapped(ohms: np.ndarray, rounded: Callable[[np.ndarray], np.ndarray]) -> np.ndarray:
    """Bounds in steps a meter can show, so that like readings share a class."""
    within = np.where(ohms > TOP, 1.0, ohms)
    step = np.where(within < 10, 0.1, 10 ** (np.floor(np.log10(np.maximum(within, MERE))) - 1) / 2)
    return np.where(ohms > TOP, np.inf, np.round(rounded(np.round(within / step, 6)) * step, 9))
