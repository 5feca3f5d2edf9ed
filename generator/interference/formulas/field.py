"""The magnetic field beside mains cables and transformers, tesla rms for amps rms. All distances from centre
to centre, in metres.
"""

from __future__ import annotations

from functools import lru_cache
from math import acosh, cosh, exp, pi, sqrt

STEPS = 200  # of the integral below; it converges faster than any power of the step
FACTOR = 2e-7  # mu0 / 2 pi


def wire(amps: float, distance: float) -> float:
    """One conductor, or the current of a cable that does not come back in it. Holds for distances far below
    its length.
    """
    return FACTOR * amps / distance


def pair(amps: float, spacing: float, distance: float) -> float:
    """Go and return side by side, straight. Holds for distances above some three spacings; nearer it is too
    small by up to a third.
    """
    return FACTOR * amps * spacing / distance**2


def three_flat(amps: float, spacing: float, distance: float) -> float:
    """Three phases side by side, equally loaded."""
    return sqrt(3) * pair(amps, spacing, distance)


def three_triangle(amps: float, spacing: float, distance: float) -> float:
    """Three phases in a triangle of this side, equally loaded."""
    return sqrt(1.5) * pair(amps, spacing, distance)


@lru_cache(4096)
def twist(distance: float, lay: float) -> float:
    """What twisting leaves of the field of a straight pair, at most 1: x^2 |K1'(x)| with x = 2 pi distance /
    lay.

    Holds for an even twist; an uneven one, and the ends, leave more."""
    x = 2 * pi * distance / lay
    return min(1.0, x * x * (_bessel(0, x) + _bessel(2, x)) / 2)


def _bessel(order: int, x: float) -> float:
    """Modified Bessel function K of the second kind: the integral of exp(-x cosh t) cosh(order t) over t from
    0, by the trapezium rule.
    """
    step = acosh(max(2.0, 750 / x)) / STEPS
    inner = sum(exp(-x * cosh(i * step)) * cosh(order * i * step) for i in range(1, STEPS))
    return step * (exp(-x) / 2 + inner)


def twist_far(distance: float, lay: float) -> float:
    """The same for distances above a third of the lay, from the first two terms of the asymptotic series."""
    x = 2 * pi * distance / lay
    return 1.2533 * x**1.5 * exp(-x) * (1 + 7 / (8 * x))


def twisted_pair(amps: float, spacing: float, lay: float, distance: float) -> float:
    """A twisted cord in its strongest direction: a straight pair times `twist`."""
    return pair(amps, spacing, distance) * twist(distance, lay)


def falling(surface: float, surface_distance: float, distance: float) -> float:
    """A transformer, motor or adapter: with the cube of the distance from its centre. Holds outside twice its
    size.
    """
    return surface * (surface_distance / distance) ** 3


def cable(amps: float, spacing: float, lay: float, distance: float) -> float:
    """A mains cable by its data, 0 for a spacing or lay it does not have; never more than one of its wires
    alone would make.
    """
    alone = wire(amps, distance)
    if not spacing:
        return alone
    together = twisted_pair(amps, spacing, lay, distance) if lay else pair(amps, spacing, distance)
    return min(alone, together)
