"""The pad that tames a level: a balanced U-pad from E24 values, for a line output (100 ohm or so)
into a microphone input.

Two equal series resistors and one shunt across the input. The shunt is kept at 150 ohm, the source impedance
a microphone input is made for (facts of the trade; published for microphones as 150 to 200 ohm).
"""

from __future__ import annotations

from math import ceil

from .constants import PAD_SHUNT, PAD_SOURCE
from .words import quantity

E24 = (
    1.0,
    1.1,
    1.2,
    1.3,
    1.5,
    1.6,
    1.8,
    2.0,
    2.2,
    2.4,
    2.7,
    3.0,
    3.3,
    3.6,
    3.9,
    4.3,
    4.7,
    5.1,
    5.6,
    6.2,
    6.8,
    7.5,
    8.2,
    9.1,
)


def series_for(decibels: float) -> float:
    """The E24 series resistor (ohm, one in each leg) that with PAD_SHUNT takes at least `decibels` off."""
    ratio = 10 ** (decibels / 20)
    exact = (ratio - 1) * PAD_SHUNT / 2
    decade = 1.0
    while decade * 10 <= exact:
        decade *= 10
    return next((decade * value for value in E24 if decade * value >= exact * (1 - 1e-9)), decade * 10)


def pad_words(over: float) -> str:
    """`20 dB pad: 680 Ω in each leg, 150 Ω across the input (the output sees 1.51 kΩ, the input 136 Ω)`, for
    a level `over` dB too high; empty when it is not. Rounded up to whole 5 dB. The output sees both series
    resistors and the shunt, the input the shunt beside the rest."""
    if over <= 0:
        return ""
    decibels = 5 * ceil(over / 5 - 1e-9)
    series = series_for(decibels)
    behind = 2 * series + PAD_SOURCE
    sees = (
        f"the output sees {quantity(2 * series + PAD_SHUNT, 'ohm')}, the input "
        f"{quantity(PAD_SHUNT * behind / (PAD_SHUNT + behind), 'ohm')}"
    )
    return (
        f"{decibels} dB pad: {quantity(series, 'ohm')} in each leg, {quantity(PAD_SHUNT, 'ohm')} across the "
        f"input ({sees})"
    )
