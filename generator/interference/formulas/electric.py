"""Capacitive coupling from live conductors: only where the screen is open, missing or worn, or where the
source is of high impedance.
"""

from __future__ import annotations

from math import acosh, hypot, pi

from .basics import E0, omega


def two_wires(distance: float, diameter: float, permittivity: float = 1.0) -> float:
    """Farads for each metre of two equal round wires, centres `distance` apart. Falls with the logarithm of
    the distance only.
    """
    return pi * E0 * permittivity / acosh(distance / diameter)


def current(volts: float, farad: float, hertz: float) -> float:
    """Amps through a small capacitance from a large voltage."""
    return omega(hertz) * farad * volts


def on_circuit(amps: float, volts: float, farad: float, ohm: float, own_farad: float, hertz: float) -> float:
    """Volts that this current makes in a circuit of `ohm` with `own_farad` to its own screen; never more than
    the divider of the two capacitances.
    """
    return amps / hypot(1 / ohm, omega(hertz) * (own_farad + farad))
