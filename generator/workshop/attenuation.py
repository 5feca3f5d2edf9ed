"""The arithmetic of attenuators: matched pads by formula, and what any ladder of resistors does between a
source and a load.

A ladder is a list of (series or shunt, ohm) from the source to the load; a balanced pad is one with both
legs counted together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, log10, sqrt

BOLTZMANN, ROOM, BAND = 1.380649e-23, 290.0, 20e3  # J/K, K, Hz
DBU = sqrt(0.6)  # V; 1 mW in 600 ohm
Ladder = Sequence[tuple[str, float]]


def ratio(decibels: float) -> float:
    """The voltage ratio of a loss."""
    return 10 ** (decibels / 20)


def matched_t(loss: float, source: float, load: float) -> tuple[float, float, float]:
    """Series at the source, shunt, series at the load of a T that both ends see as themselves. Below the
    least loss one comes out negative.

    With source = load = Z: Z (K-1)/(K+1) and 2 Z K/(K^2-1).
    """
    k = ratio(loss)
    shunt = 2 * sqrt(source * load) * k / (k * k - 1)
    one, other = (z * (k * k + 1) / (k * k - 1) - shunt for z in (source, load))
    return one, shunt, other


def matched_pi(loss: float, source: float, load: float) -> tuple[float, float, float]:
    """Shunt at the source, series, shunt at the load. With source = load = Z: Z (K+1)/(K-1) and Z
    (K^2-1)/(2 K)."""
    k = ratio(loss)
    series = sqrt(source * load) * (k * k - 1) / (2 * k)
    one, other = (1 / ((k * k + 1) / (z * (k * k - 1)) - 1 / series) for z in (source, load))
    return one, series, other


def bridged_t(loss: float, impedance: float) -> tuple[float, float]:
    """The bridging resistor Z (K-1) and the shunt Z/(K-1); its two arms are Z."""
    return impedance * (ratio(loss) - 1), impedance / (ratio(loss) - 1)


def least_loss(source: float, load: float) -> float:
    """What a matched pad between two impedances loses at least, dB."""
    high, low = max(source, load), min(source, load)
    return 20 * log10(sqrt(high / low) + sqrt(high / low - 1))


def mismatch_loss(source: float, load: float) -> float:
    """Power lost where two impedances meet that differ, dB."""
    return 10 * log10((source + load) ** 2 / (4 * source * load))


def parallel(*ohms: float) -> float:
    """Resistors side by side."""
    return 1 / sum(1 / one for one in ohms) if all(ohms) else 0.0


@dataclass(frozen=True)
class Done:
    """What a pad does: dB lost by putting it in and with nothing connected to its output, ohm its source
    and its load see, the thermal noise at its output in dBu (20 kHz, 290 K) and the dB of signal to noise
    it costs where the source's own noise rules."""

    loss: float
    unloaded: float
    source_sees: float
    load_sees: float
    noise: float
    noise_cost: float


def done(ladder: Ladder, source: float, load: float) -> Done:
    """What a ladder does between a source and a load, ohm each."""
    straight = load / (source + load)
    loss = -20 * log10(_gain(ladder, source, load) / straight)
    out = _looking_back(ladder, source)
    cost = -20 * log10(_gain(ladder, source, inf)) + 10 * log10(
        out / source
    )  # whatever the load, which takes from both alike
    return Done(loss, -20 * log10(_gain(ladder, 0.0, inf)), _looking_in(ladder, load), out, noise(out), cost)


def noise(ohms: float) -> float:
    """Thermal noise of a resistance, dBu."""
    return 20 * log10(sqrt(4 * BOLTZMANN * ROOM * ohms * BAND) / DBU)


def _looking_in(ladder: Ladder, load: float) -> float:
    """What the source sees: the ladder from its far end towards it."""
    seen = load
    for way, ohms in reversed(ladder):
        seen = seen + ohms if way == "series" else parallel(seen, ohms)
    return seen


def _looking_back(ladder: Ladder, source: float) -> float:
    """What the load sees."""
    seen = source
    for way, ohms in ladder:
        seen = seen + ohms if way == "series" else parallel(seen, ohms)
    return seen


def _gain(ladder: Ladder, source: float, load: float) -> float:
    """Volts at the load for one volt behind the source."""
    rungs, gain = [("series", source), *ladder], 1.0
    for i, (way, ohms) in enumerate(rungs):
        if way == "series":
            onward = _looking_in(rungs[i + 1 :], load)
            gain *= 1.0 if onward == inf else onward / (onward + ohms)
    return gain


def balance_kept(series: float, mismatch: float, common_mode: float = 10e3) -> float:
    """Hum rejection in dB left by two legs of `series` ohm that are off by `mismatch` (a fraction) in
    opposite directions."""
    return 20 * log10(common_mode / (2 * series * mismatch))
