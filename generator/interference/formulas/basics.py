"""Constants of physics and the few sums every formula needs."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot, log10, pi, sqrt

MU0 = 4e-7 * pi  # H/m
E0 = 8.854187817e-12  # F/m
LIGHT = 299792458.0  # m/s
COPPER = 5.8e7  # S/m, annealed copper at 20 degrees
DBU = sqrt(0.6)  # V; 0 dBu is 1 mW in 600 ohm


def omega(hertz: float) -> float:
    """Radians per second."""
    return 2 * pi * hertz


def db(ratio: float) -> float | None:
    """A ratio of volts in dB; None where there is nothing to compare, which is not the same as a small
    number.
    """
    return 20 * log10(ratio) if ratio > 0 else None


def from_db(value: float) -> float:
    """The ratio of volts of so many dB."""
    return 10 ** (value / 20)


def together(values: Iterable[float], worst: bool = False) -> float:
    """What several voltages of unknown phase make: the root of squares, or at worst their sum."""
    values = list(values)
    return sum(values) if worst else hypot(*values) if values else 0.0


def parallel(one: float, other: float) -> float:
    """Two resistances side by side, ohm; either may be 0."""
    return one * other / (one + other) if one + other else 0.0
