"""The first instant, read a second time: large capacitors hold what they held a moment before.

Where a part stands more for a tenth of a second than for seconds, the circuit is marched through that
tenth: a capacitor is then, step by step, a source of what it held behind the resistance step / capacitance
(the implicit rule of Euler), so that a step is solved as the first instant is.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from meters import SLACK, Worst, ratings, show, state_words
from settings import Modes
from states import APART, HOME, PLUGGING
from sums import HELD, Sums, boil, settle
from wiring import Wiring

BRIEF, STEP = 0.1, 2e-3  # s; how long `momentary` is, and the step of the march
TRACE = 1e-3  # V; less is no charge


def strike(
    wired: Wiring, asked: Modes, corner: str, volts: np.ndarray, charges: np.ndarray, worst: Worst
) -> None:
    """Hold the first instants of every mode against the ratings. `volts` (supplies,) is what the supplies
    give, `charges` (modes, states, capacitors) what the capacitors hold settled. One plug moves at a time,
    or one switch."""
    everywhere, home = np.flatnonzero(wired.kinds != APART), np.flatnonzero(wired.kinds == HOME)
    struck = boil(wired, corner, everywhere, np.full(len(wired.large), HELD))
    at_home = replace(struck, columns=struck.columns[home], at=home)
    before = [wired.states.before[row] for row in everywhere]
    came = np.array([[some[turn % len(some)] for some in before] for turn in range(max(map(len, before)))])
    for mode in range(len(asked)):
        given, gone, thrown = volts * asked.on[mode], asked.gone[mode], asked.neighbours(mode)

        def words(row: int, before: str, mode: int = mode) -> str:
            return f"{asked.words(mode)}, {corner}, {state_words(wired, row)} from {before}"

        _hold(
            struck,
            given,
            gone,
            charges[mode][came],
            worst,
            lambda case, row: words(row, state_words(wired, came[case, row])),
        )
        if thrown:
            _hold(
                at_home,
                given,
                gone,
                charges[thrown][:, home],
                worst,
                lambda case, row: words(row, asked.words(thrown[case])),
            )


def _hold(
    sums: Sums,
    volts: np.ndarray,
    gone: np.ndarray,
    held: np.ndarray,
    worst: Worst,
    tell: Callable[[int, int], str],
) -> None:
    """Hold the first instants with some charges, (cases, states, capacitors), against what parts stand for
    a moment, and at home for seconds; `tell` words a case and a state."""
    if not volts.any() and np.abs(held).max(initial=0.0) < TRACE:
        return
    wired, rows = sums.wired, sums.at
    given = np.broadcast_to(volts, (len(held), len(volts)))
    shown = show(sums, settle(sums, given, gone, held), gone, held)
    moment, seconds = _ratings(wired)
    for kind in (HOME, PLUGGING):
        own = np.flatnonzero(wired.kinds[rows] == kind)
        worst.take(
            f"first instant, {kind}", shown[:, own], moment, lambda case, k, own=own: tell(case, rows[own[k]])
        )
    own = np.flatnonzero(wired.kinds[rows] == HOME)
    if (shown[:, own] > seconds * (1 + SLACK)).any():
        farads = np.array([wired.pieces[i].part.value.nominal for i in sums.capacitors])
        least = march(boil(wired, sums.corner, rows[own], STEP / farads), given, gone, held[:, own])
        worst.take(
            "for seconds", np.minimum(least, shown[:, own]), seconds, lambda case, k: tell(case, rows[own[k]])
        )


def march(sums: Sums, volts: np.ndarray, gone: np.ndarray, held: np.ndarray) -> np.ndarray:
    """The least that each limit sees from the first step to BRIEF: (cases, states, limits)."""
    least = np.inf
    for _ in range(round(BRIEF / STEP)):
        found = settle(sums, volts, gone, held)
        least = np.minimum(least, show(sums, found, gone, held))
        held = sums.over(found, sums.capacitors)
    return least


def _ratings(wired: Wiring) -> tuple[np.ndarray, np.ndarray]:
    """What parts stand for a moment, and for seconds where that is less; volts and amps alone."""
    moment, seconds = ratings(wired, "momentary"), ratings(wired, "seconds")
    other = np.array([rated.limit.quantity not in ("volts", "amps") for rated in wired.rated], dtype=bool)
    return np.where(other, np.inf, moment), np.where(other | (seconds >= moment), np.inf, seconds)
