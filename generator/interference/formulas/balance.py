"""How much of a common-mode voltage a balanced input hears: imbalance of the source against the input's
impedance to the case, and the input's own.
"""

from __future__ import annotations

from math import hypot, inf

from .basics import omega


def leg_ohm(ohm: float, farad: float, hertz: float) -> float:
    """Impedance of one leg to the case: a resistance beside a capacitance, as a magnitude; either may be
    missing (0).
    """
    siemens = hypot(1 / ohm if ohm else 0.0, omega(hertz) * farad)
    return 1 / siemens if siemens else inf


def in_series(source_ohm: float, common_ohm: float, capacitive: bool) -> float:
    """Magnitude of a resistance and an impedance to the case in a row."""
    return hypot(source_ohm, common_ohm) if capacitive else source_ohm + common_ohm


def conversion(imbalance: float, source_ohm: float, common_ohm: float, capacitive: bool = False) -> float:
    """Share of the common-mode volts that appears between the legs: exactly |Z/(Z+R) - Z/(Z+R+dR)|.

    `source_ohm` is the smaller leg; `capacitive` where Z is a capacitance and nothing else.
    """
    if common_ohm == inf:
        return 0.0
    one = in_series(source_ohm, common_ohm, capacitive)
    return imbalance * common_ohm / one / in_series(source_ohm + imbalance, common_ohm, capacitive)


def short_conversion(imbalance: float, common_ohm: float) -> float:
    """The rule of thumb dR/Z; holds where the source is far below Z."""
    return imbalance / common_ohm


def feed_pair_conversion(feed_ohm: float, match: float, source_ohm: float) -> float:
    """What two phantom feeds that differ by `match` (a fraction) let through from a source of `source_ohm` a
    leg.
    """
    high, low = feed_ohm * (1 + match / 2), feed_ohm * (1 - match / 2)
    return high / (high + source_ohm) - low / (low + source_ohm)


def tolerance_conversion(tolerance: float) -> float:
    """The trade's rule for a difference amplifier with resistors of this tolerance (a fraction)."""
    return tolerance


def total(shares: tuple[float, ...], worst: bool) -> float:
    """Several conversions together: at worst their sum, else the root of squares."""
    return sum(shares) if worst else hypot(*shares)
