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
from .likely import Edges, all_apart, edges
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
    def edges(self) -> Edges:
        """The classes as arrays."""
        return edges(self.classes)

    @cached_property
    def weights(self) -> np.ndarray:
        """How likely each fault is before anything has been read; the sum is 1."""
        found = np.array([fault.weight for fault in self.faults])
        return found / found.sum()

    @cached_property
    def alike(self) -> np.ndarray:
        """For every two faults whether no measurement tells them apart: (faults, faults)."""
        differ = all_apart(self.edges)
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
    read = _reader(specimen, measurements)
    good, bounds = _snapped(read(Fault(GOOD))), _snapped(np.array([read(fault) for fault in tried]))
    loose = np.array([fault.kind == "loose" for fault in tried])
    moves = loose[:, None] & (np.isinf(bounds[..., 1]) != np.isinf(good[None, :, 1]))
    bounds = np.where(loose[:, None, None], good[None], bounds)
    windows, which = _classes(moves, bounds[..., 0], bounds[..., 1])
    return Dictionary(tried, measurements, windows, which)


def _classes(moves: np.ndarray, low: np.ndarray, high: np.ndarray) -> tuple[tuple[Window, ...], np.ndarray]:
    """The different windows in order, and the number of each cell's. Sorting numbers is many times
    faster than sorting rows."""
    lows, low_of = np.unique(low, return_inverse=True)
    highs, high_of = np.unique(high, return_inverse=True)
    cell = (moves * len(lows) + low_of.reshape(low.shape)) * len(highs) + high_of.reshape(high.shape)
    codes, which = np.unique(cell, return_inverse=True)
    of_both, of_high = np.divmod(codes, len(highs))
    moving, of_low = np.divmod(of_both, len(lows))
    windows = tuple(
        Window(float(lows[i]), float(highs[j]), bool(m)) for m, i, j in zip(moving, of_low, of_high)
    )
    return windows, which.reshape(low.shape).astype(np.uint16)


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


def _reader(specimen: Specimen, measurements: Sequence[Measurement]) -> Callable[[Fault], np.ndarray]:
    """What reads the bounds of every measurement under a fault: (measurements, 2). Groups are bounded: not
    above their best pair, not below all pairs in parallel."""
    at = {terminal: i for i, terminal in enumerate(specimen.terminals)}
    single = [m for m in measurements if len(m[0]) == len(m[1]) == 1]
    i, j = (np.array([at[m[side][0]] for m in single], dtype=int) for side in (0, 1))
    strapped = [
        np.ix_([at[t] for t in red], [at[t] for t in black]) for red, black in measurements[len(single) :]
    ]

    def read(fault: Fault) -> np.ndarray:
        low, high = resistances(injected(specimen, fault))
        found = [np.stack([low[i, j], high[i, j]], axis=-1)]
        for between in strapped:
            with np.errstate(divide="ignore"):
                least = 1 / np.sum(1 / np.maximum(low[between], MERE))
            found.append(np.array([[least, high[between].min()]]))
        return np.concatenate(found)

    return read


def _snapped(bounds: np.ndarray) -> np.ndarray:
    """Bounds in steps a meter can show, the low one down and the high one up, so that like readings share a
    class."""
    return np.stack([_stepped(bounds[..., 0], np.floor), _stepped(bounds[..., 1], np.ceil)], axis=-1)


def _stepped(ohms: np.ndarray, rounded: Callable[[np.ndarray], np.ndarray]) -> np.ndarray:
    within = np.where(ohms > TOP, 1.0, ohms)
    step = np.where(within < 10, 0.1, 10 ** (np.floor(np.log10(np.maximum(within, MERE))) - 1) / 2)
    return np.where(ohms > TOP, np.inf, np.round(rounded(np.round(within / step, 6)) * step, 9))
