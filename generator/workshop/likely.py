"""How likely a reading is under a class of readings: a window, the meter's error around it, and the chance
that a reading is wrong.

No reading is ever taken as impossible: probes slip, and a lead that comes and goes may be caught at a good
moment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from typing import Protocol

import numpy as np

from .tables import amount, table

MOVES = "moves"  # the answer that the reading comes and goes when the lead is flexed
BEEP, SILENT = "beep", "silent"  # what a beeper alone tells
Answer = float | str  # ohm (infinite: no reading) or one of these words


class Bounds(Protocol):
    """A class of readings."""

    low: float
    high: float
    moves: bool


def slack(ohms):
    """How far off an honest reading may be: a share of it, and what probes and display add. A
    number, or an array of them."""
    return amount("search", "noise", "ohm").nominal + amount("search", "noise", "share").nominal * ohms


@dataclass(frozen=True)
class Edges:
    """Classes side by side, each field an array: their bounds in ohm, the bounds with the slack on both
    sides, and which of them move."""

    low: np.ndarray
    high: np.ndarray
    least: np.ndarray
    most: np.ndarray
    moves: np.ndarray


def edges(windows: Sequence[Bounds]) -> Edges:
    """The classes as arrays."""
    low, high = (
        np.array([getattr(window, name) for window in windows], dtype=float) for name in ("low", "high")
    )
    least = low - np.where(np.isinf(low), 0.0, slack(low))
    return Edges(
        low, high, least, high + slack(high), np.array([window.moves for window in windows], dtype=bool)
    )


def apart(one: Bounds, other: Bounds) -> bool:
    """Can honest readings tell the two classes apart?"""
    return bool(all_apart(edges((one, other)))[0, 1])


def all_apart(among: Edges) -> np.ndarray:
    """For every two classes whether honest readings tell them apart: (classes, classes)."""
    before = among.most[:, None] < among.least[None, :]
    return before | before.T | (among.moves[:, None] != among.moves[None, :])


def likelihood(answer: Answer, window: Bounds) -> float:
    """How well an answer fits a class, 1 at best; never below the chance of a wrong reading."""
    return float(likelihoods(answer, edges((window,)))[0])


def likelihoods(answer: Answer, among: Edges) -> np.ndarray:
    """How well an answer fits each of the classes."""
    wrong, caught = (float(table("search")[row]["chance"]) for row in ("wrong", "caught"))
    if answer == MOVES:
        return np.where(among.moves, caught, wrong)
    fits = _fits(answer, among)
    broken = float(answer in (inf, SILENT))  # not caught: it reads good, or as open as a break
    fits = np.where(among.moves, (1 - caught) * np.maximum(fits, broken), fits)
    return np.maximum(wrong, fits)


def _fits(answer: Answer, among: Edges) -> np.ndarray:
    if answer == BEEP:  # some meters beep up to `never`, all up to `sure`
        return (among.least <= amount("meters", "beeper", "never").nominal).astype(float)
    if answer == SILENT:
        return (among.most >= amount("meters", "beeper", "sure").nominal).astype(float)
    ohms = float(answer)
    if ohms == inf:
        return np.isinf(among.most).astype(float)
    short = np.isinf(among.low)
    under, over = (np.where(short, 0.0, among.least) - ohms, ohms - among.most)
    with np.errstate(invalid="ignore"):
        beyond = np.where(
            under > 0,
            under / slack(np.where(short, 0.0, among.low)),
            np.maximum(over, 0.0) / slack(among.high),
        )
    beyond = np.where(np.isnan(beyond), 0.0, beyond)  # nothing is beyond a bound that is infinite
    return np.where(short, 0.0, np.exp(-2 * beyond * beyond))


def typical(window: Bounds) -> Answer:
    """The answer one would expect of a class: MOVES, no reading, or its middle."""
    if window.moves:
        return MOVES
    return inf if window.high == inf else (window.low + window.high) / 2
