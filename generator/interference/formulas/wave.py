"""Shapes of mains current: odd harmonics of a sine, of a lamp on a phase-cut dimmer, of a rectifier. Shares
of the rms, the first is the mains itself.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import cos, pi, sin, sqrt

import numpy as np

POINTS = 1 << 15
HIGHEST = 399  # odd harmonics up to 20 kHz of 50 Hz


def dimmer(rise: float, hertz: float) -> Callable[[float], float]:
    """Current over the angle of a lamp at half power; `rise` seconds is what the choke makes of the edge."""
    ramp = 2 * pi * hertz * rise

    def at(angle: float) -> float:
        since = angle % pi - pi / 2
        return 0.0 if since <= 0 else sin(angle) * (1.0 if ramp == 0 else min(1.0, since / ramp))

    return at


def rectifier(conduction: float) -> Callable[[float], float]:
    """Current of a rectifier that conducts for this share of each half wave: tops of a cosine."""

    def at(angle: float) -> float:
        off = angle % pi - pi / 2
        pulse = cos(off / conduction) if abs(off) < conduction * pi / 2 else 0.0
        return pulse if sin(angle) >= 0 else -pulse

    return at


DIGITS = 6  # of a share: what is published is read back as the same number by every program


def harmonics(shape: Callable[[float], float]) -> tuple[float, ...]:
    """Rms of the odd harmonics 1, 3, 5 ... HIGHEST as shares of the whole rms."""
    values = np.array([shape(2 * pi * i / POINTS) for i in range(POINTS)])
    peaks = 2 * np.abs(np.fft.rfft(values)) / POINTS
    rms = sqrt(float(np.mean(values**2)))
    return tuple(float(peaks[n]) / sqrt(2) / rms for n in range(1, HIGHEST + 1, 2))


def mixed(third: float) -> tuple[float, ...]:
    """A mains wave with a third harmonic of this share of the first, and higher ones falling as 1/n, to the
    39th.
    """
    shares = [1.0] + [third * 3 / n for n in range(3, 41, 2)]
    rms = sqrt(sum(share**2 for share in shares))
    return tuple(share / rms for share in shares)


@cache
def spectrum(kind: str, hertz: float) -> tuple[float, ...]:
    """`sine`, `mixed:SHARE`, `dimmer:SECONDS`, `rectifier:SHARE` -> shares of the odd harmonics. Raises
    KeyError for
    another kind.
    """
    name, _, number = kind.partition(":")
    if name == "sine":
        return (1.0,)
    if name == "mixed":
        shares = mixed(float(number))
    else:
        shapes = {
            "dimmer": lambda: dimmer(float(number), hertz),
            "rectifier": lambda: rectifier(float(number)),
        }
        shares = harmonics(shapes[name]())
    return tuple(float(f"{share:.{DIGITS}g}") for share in shares)
