"""The most of a limit that the independent reader finds."""

from __future__ import annotations

import numpy as np
from corners import NOMINAL, supply_volts
from meters import show
from settings import modes
from states import HOME
from sums import boil, settle

RAIL = "rail emf rail chassis 48 V by phantom"
P48 = (RAIL, "feed-hot resistor rail hot 6.81 kohm", "feed-cold resistor rail cold 6.81 kohm")


def shown(wired, name: str, kind: str = HOME, corner: str = NOMINAL, mode: int = 0) -> float:
    """The most direct volts, amps or watts of a limit in the states of a kind; all switches on."""
    sums, asked = boil(wired, corner, np.arange(len(wired.closed))), modes(wired)
    volts = next(supply_volts(wired, corner))[1] * asked.on[mode]
    found = show(sums, settle(sums, volts[None], asked.gone[mode]), asked.gone[mode])
    [k] = [k for k, one in enumerate(wired.rated) if one.limit.id == name]
    return float(found[0, wired.kinds == kind, k].max())


SHORT = "short resistor a c 1 mohm"  # a conductor with a rating is a part
