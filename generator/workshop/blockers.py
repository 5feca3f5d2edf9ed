"""Blocking phantom: a capacitor in each leg, its corner, its rating and which way round it goes; and
transformer ratios of DI boxes."""

from __future__ import annotations

from math import log10, pi, sqrt
from typing import Any

from generator.engine.words import fixed, quantity

from .preferred import upwards

VOLTS, BLEED = 63.0, (100e3, 220e3)  # rating in use for 48 V, and the bleeders' range in ohm
CHARGED = 3.0  # time constants until next to nothing is left


def corner(ohms: float, farad: float) -> float:
    """Hz at which a capacitor in each leg has cost 3 dB, between the legs of a circuit of `ohms`: 1 / (2 pi
    R C/2)."""
    return 1 / (pi * ohms * farad)


def designed(hertz: float, ohms: float) -> dict[str, Any]:
    """The smallest capacitor one can buy whose corner is not above `hertz` in a circuit of `ohms` (source
    and load together)."""
    value = next(c for c in upwards(1e-7, 1e-2, "E6") if corner(ohms, c) <= hertz)
    feed = 6810.0
    return {
        "farad": value,
        "corner": round(corner(ohms, value), 2),
        "wanted": hertz,
        "ohms": ohms,
        "volts": VOLTS,
        "plus": "towards the input that gives phantom",
        "bleed": list(BLEED),
        "charging": round(CHARGED * (BLEED[1] + feed) * value, 1),
    }


def text(data: dict[str, Any]) -> str:
    """The blocker for a terminal."""
    return (
        f"Phantom blocker: {quantity(data['farad'], 'F')} in each leg, {data['volts']:g} V, + "
        f"{data['plus']}\n"
        f"  -3 dB at {fixed(data['corner'], 1)} Hz in {quantity(data['ohms'], 'ohm')} (asked for "
        f"{data['wanted']:g} Hz at most)\n"
        f"  {quantity(data['bleed'][0], 'ohm')} to {quantity(data['bleed'][1], 'ohm')} from each leg of the "
        "quiet side to contact 1, so that it charges before the plug goes in;\n"
        f"  wait {data['charging']:g} s after phantom is switched. Where it sits unpolarised for years, take "
        "film capacitors, or two electrolytics back to back."
    )


def turns(primary: float, secondary: float) -> float:
    """The turns ratio of a transformer printed as impedances: the root of their ratio."""
    return sqrt(primary / secondary)


def lost_by_turns(ratio: float) -> float:
    """dB lost through a step-down of this turns ratio, and what a load looks like from its other side:
    `ratio` squared times."""
    return 20 * log10(ratio)
