"""How likely a reading is under a class of readings: a window, the meter's error around it, and the chance
that a reading is wrong.

No reading is ever taken as impossible: probes slip, and a lead that comes and goes may be caught at a good
moment.
"""

from __future__ import annotations

from math import exp, inf
from typing import Protocol

from .tables import amount, table

MOVES = "moves"  # the answer that the reading comes and goes when the lead is flexed
BEEP, SILENT = "beep", "silent"  # what a beeper alone tells
Answer = float | str  # ohm (infinite: no reading) or one of these words


class Bounds(Protocol):
    """A class of readings."""

    low: float
    high: float
    moves: bool


def slack(ohms: float) -> float:
    """How far off an honest reading may be: a share of it, and what probes and display add."""
    return amount("search", "noise", "ohm").nominal + amount("search", "noise", "share").nominal * ohms


def _around(window: Bounds) -> tuple[float, float]:
    """The window with the slack on both sides."""
    low = window.low if window.low == inf else window.low - slack(window.low)
    return low, window.high if window.high == inf else window.high + slack(window.high)


def apart(one: Bounds, other: Bounds) -> bool:
    """Can honest readings tell the two classes apart?"""
    if one.moves != other.moves:
        return True
    (low, high), (least, most) = _around(one), _around(other)
    return high < least or most < low


def likelihood(answer: Answer, window: Bounds) -> float:
    """How well an answer fits a class, 1 at best; never below the chance of a wrong reading."""
    wrong, caught = (float(table("search")[row]["chance"]) for row in ("wrong", "caught"))
    if answer == MOVES:
        return caught if window.moves else wrong
    fits = _fits(answer, window)
    if window.moves:  # not caught: it reads good, or as open as a break
        fits = (1 - caught) * max(fits, float(answer in (inf, SILENT)))
    return max(wrong, fits)


def _fits(answer: Answer, window: Bounds) -> float:
    low, high = _around(window)
    if answer == BEEP:  # some meters beep up to `never`, all up to `sure`
        return float(low <= amount("meters", "beeper", "never").nominal)
    if answer == SILENT:
        return float(high >= amount("meters", "beeper", "sure").nominal)
    ohms = float(answer)
    if low <= ohms <= high:
        return 1.0
    if ohms == inf or (ohms < low and low == inf):
        return 0.0
    edge = window.low if ohms < low else window.high
    beyond = (low - ohms if ohms < low else ohms - high) / slack(edge)
    return exp(-2 * beyond * beyond)


def typical(window: Bounds) -> Answer:
    """The answer one would expect of a class: MOVES, no reading, or its middle."""
    if window.moves:
        return MOVES
    return inf if window.high == inf else (window.low + window.high) / 2
