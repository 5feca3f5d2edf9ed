"""How much of it is heard: published weighting, published threshold, noise of a resistor."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import lru_cache
from math import log, log10, sqrt

BOLTZMANN = 1.380649e-23


@lru_cache(4096)
def weighting(hertz: float) -> float:
    """A-weighting, dB."""
    f = hertz * hertz
    share = 12194**2 * f * f / ((f + 20.6**2) * (f + 12194**2) * sqrt((f + 107.7**2) * (f + 737.9**2)))
    return 20 * log10(share) + 2.0


def threshold(hertz: float, points: Sequence[Sequence[float]]) -> float:
    """Threshold of hearing, dB SPL, between third octaves by the logarithm of frequency; outside the table
    its end.
    """
    at = bisect_right([point[0] for point in points], hertz)
    if at in (0, len(points)):
        return points[min(at, len(points) - 1)][1]
    (f0, t0), (f1, t1) = points[at - 1], points[at]
    return t0 + (t1 - t0) * log(hertz / f0) / log(f1 / f0)


def thermal_noise(ohm: float, kelvin: float, bandwidth: float) -> float:
    """Volts of noise of a resistance."""
    return sqrt(4 * BOLTZMANN * kelvin * ohm * bandwidth)


def microphone_volts(sensitivity: float, spl: float) -> float:
    """Volts of a microphone of so many volts per pascal at this sound level (94 dB SPL is 1 Pa)."""
    return sensitivity * 10 ** ((spl - 94) / 20)


def gain_to_line(sensitivity_dbv: float, spl: float) -> float:
    """dB of gain from a microphone of so many dBV per pascal at this level to 0 dBu."""
    return -(sensitivity_dbv + spl - 94 - 20 * log10(sqrt(0.6)))
