"""What flows through a screen because the cases of two devices stand at different voltages, and what that
makes at the input.
"""

from __future__ import annotations

from math import hypot

from .basics import omega, parallel


def capacitor_ohm(farad: float, hertz: float) -> float:
    """Magnitude of a capacitor's impedance, ohm."""
    return 1 / (omega(hertz) * farad)


def branch_difference(devices: float, leakage: float, earth_ohm: float) -> float:
    """Volts along the earth wire of a branch that carries the leakage of all devices on it."""
    return devices * leakage * earth_ohm


def source_reactance(farad: float, henry: float, hertz: float) -> float:
    """Reactance of the way between two cases: the loop's inductance, less the capacitor in it; `farad` 0
    means that there is none.
    """
    return omega(hertz) * henry - (capacitor_ohm(farad, hertz) if farad else 0.0)


def screen_current(
    volts: float, ohm: float, farad: float, henry: float, screen_ohm: float, hertz: float
) -> float:
    """Amps that a difference `volts` behind `ohm` and `farad` drives through a joined screen and its loop.

    Holds while the lead is short against the wave (below a tenth: 300 m at 100 kHz); cases taken as
    points."""
    return volts / hypot(ohm + screen_ohm, source_reactance(farad, henry, hertz))


def screen_drop(
    volts: float, ohm: float, farad: float, henry: float, screen_ohm: float, bond_ohm: float, hertz: float
) -> float:
    """Volts along the joined screen that count: its resistance times its current. `bond_ohm` (0: none) is a
    wire between the two cases.

    The screen's own inductance does not count: it induces the same in the cores inside. With a bond the
    inductance of the loop is left out."""
    if not bond_ohm:
        return screen_ohm * screen_current(volts, ohm, farad, henry, screen_ohm, hertz)
    both = parallel(screen_ohm, bond_ohm)
    return both * screen_current(volts, ohm, farad, 0.0, both, hertz)


def open_screen(
    volts: float, ohm: float, farad: float, common_ohm: float, hertz: float, capacitive: bool = False
) -> float:
    """Volts between the cases when nothing but the common-mode impedance of the input joins them;
    `capacitive` where that is a capacitance, which adds to one in the way instead of standing square to it.
    """
    across = capacitor_ohm(farad, hertz) if farad else 0.0
    square, along = (ohm, common_ohm + across) if capacitive else (ohm + common_ohm, across)
    return common_ohm * volts / hypot(square, along)


def divider(source_ohm: float, input_ohm: float) -> float:
    """The share of a voltage in the signal circuit that stands at the input."""
    return input_ohm / (input_ohm + source_ohm)


def supply_share(amps: float, minus_ohm: float, screen_ohm: float) -> float:
    """Amps of the supply current of one device that return through a screen beside its own minus wire."""
    return amps * minus_ohm / (minus_ohm + screen_ohm)
