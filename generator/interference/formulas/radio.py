"""Radio: field of a transmitter, the run as an aerial, what a junction makes of it. Good to some 20 dB, so
never told in volts.
"""

from __future__ import annotations

from math import log10, pi, sqrt

from .basics import LIGHT

AERIAL_OHM = 73.0  # a resonant half wave in free space
COMMON_OHM = 150.0  # the standards' stand-in for a cable's common-mode impedance
VT = 0.02585  # V; thermal voltage at 300 K


def field(watts: float, distance: float, gain: float = 1.64) -> float:
    """V/m in free space; `gain` over isotropic, 1.64 for a dipole. Holds beyond a sixth of the wave."""
    return sqrt(30 * watts * gain) / distance


def proximity_field(watts: float, distance: float, factor: float) -> float:
    """V/m by the immunity standards' rule: factor times the root of the watts over the distance."""
    return factor * sqrt(watts) / distance


def clear_distance(watts: float, volts_per_metre: float, factor: float) -> float:
    """Metres at which a transmitter falls to that field."""
    return factor * sqrt(watts) / volts_per_metre


def microvolts_per_metre(db: float) -> float:
    """V/m of a field told in dB above 1 uV/m."""
    return 10 ** (db / 20) * 1e-6


def wave(hertz: float) -> float:
    """Metres of one wave in free space."""
    return LIGHT / hertz


def resonances(length: float, one_end_open: bool, velocity: float) -> float:
    """The lowest resonance of the outside of a run, Hz; both ends alike repeat at every multiple, one end
    open at the odd ones.
    """
    return velocity * LIGHT / ((4 if one_end_open else 2) * length)


def quarter_waves(length: float, hertz: float, velocity: float) -> float:
    """Length in quarter waves along the lead."""
    return 4 * length * hertz / (velocity * LIGHT)


def half_wave_pickup(volts_per_metre: float, hertz: float) -> float:
    """Volts at the middle of a resonant half wave: the bound for what a run takes in."""
    return volts_per_metre * wave(hertz) / pi


def slope_depth(length: float, deviation: float, standing: float, velocity: float) -> float:
    """Share of amplitude modulation that a run of this length makes of FM on the slope of its standing wave
    (ratio `standing`).
    """
    return 2 * pi * length / (velocity * LIGHT) * deviation * (standing - 1 / standing) / 2


def junction(volts: float) -> float:
    """Volts by which a bare bipolar junction shifts: square law. Holds well below 25 mV."""
    return volts**2 / (2 * VT)


def junction_input(volts: float) -> float:
    """Volts of radio that make this shift."""
    return sqrt(2 * VT * volts)


def ferrite_loss(ohm: float, circuit_ohm: float = COMMON_OHM) -> float:
    """dB of radio that a choke of this resistance takes; twice that of what is heard."""
    return 20 * log10((circuit_ohm + ohm) / circuit_ohm)


def ferrite_turns(ohm: float, turns: float) -> float:
    """Ohm with several turns through the core, below its resonance."""
    return ohm * turns**2
