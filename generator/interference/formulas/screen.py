"""What a screen does and does not do: fields through copper, its corner, its ends, current in it turned into
signal.
"""

from __future__ import annotations

from math import hypot, log10, pi, sqrt

from .basics import COPPER, MU0, omega


def skin_depth(hertz: float, resistivity: float = 1.724e-8) -> float:
    """Metres in copper."""
    return sqrt(resistivity / (pi * hertz * MU0))


def crossing_field_loss(radius: float, thickness: float, hertz: float) -> float:
    """dB that a thin copper tube takes from a magnetic field across it. Holds while the wall is thinner than
    the skin depth.
    """
    return 20 * log10(hypot(1, omega(hertz) * MU0 * COPPER * radius * thickness / 2))


def corner(screen_ohm_per_metre: float, henry_per_metre: float) -> float:
    """Hertz above which a screen that carries the return current begins to keep it near the core."""
    return screen_ohm_per_metre / (2 * pi * henry_per_metre)


def drain_wire(amps: float, henry_per_metre: float, along: float, hertz: float) -> float:
    """Volts that a screen current induces between the cores of a pair because it runs nearer to one (4.13).
    The inductance is not verified.
    """
    return amps * omega(hertz) * henry_per_metre * along


def uneven_capacitance(
    along: float, farad_per_metre: float, share: float, source_ohm: float, hertz: float
) -> float:
    """Share of a voltage on the screen that unequal capacitances to the two cores turn into signal."""
    return omega(hertz) * along * farad_per_metre * share * source_ohm


def pigtail_ohm(length: float, hertz: float, henry_per_metre: float = 1e-6) -> float:
    """Ohm of a screen drawn out to a wire, 10 nH/cm."""
    return omega(hertz) * henry_per_metre * length


def contact_one(amps: float, inner_ohm: float) -> float:
    """Volts that a screen current makes along a wire inside the device that it shares with the signal."""
    return amps * inner_ohm
