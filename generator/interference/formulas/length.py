"""What length costs: treble by capacitance, digital edges by loss and reflection."""

from __future__ import annotations

from math import inf, log10, pi

from .basics import LIGHT


def corner(source_ohm: float, farad_per_metre: float, length: float) -> float:
    """Hertz at which the treble is 3 dB down."""
    farad = farad_per_metre * length
    return 1 / (2 * pi * source_ohm * farad) if source_ohm and farad else inf


def treble(source_ohm: float, farad_per_metre: float, length: float, hertz: float) -> float:
    """dB at `hertz` against the middle; holds while the lead is short against the wave and its own resistance
    small against the source's.
    """
    return -10 * log10(1 + (hertz / corner(source_ohm, farad_per_metre, length)) ** 2)


def length_for(source_ohm: float, farad_per_metre: float, hertz: float, loss: float) -> float:
    """Metres at which the treble is `loss` dB down at `hertz`."""
    return (10 ** (loss / 10) - 1) ** 0.5 / (2 * pi * hertz * source_ohm * farad_per_metre)


def reflection(cable_ohm: float, load_ohm: float) -> float:
    """Share of an edge that comes back from a mismatched end."""
    return abs(load_ohm - cable_ohm) / (load_ohm + cable_ohm)


def long_for(hertz: float, velocity: float, share: float = 0.1) -> float:
    """Metres beyond which a lead is no longer short against the wave of `hertz`: where impedance begins to
    matter.
    """
    return share * velocity * LIGHT / hertz
