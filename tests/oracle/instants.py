"""The first instant, read a second time: large capacitors hold what they held before the plug went in, before it came out, before a switch was thrown.

Where a part stands more for a tenth of a second than for seconds, the circuit is marched through that tenth: a capacitor is then, step by step, a source of
what it held behind the resistance step / capacitance (the implicit rule of Euler), so that a step is solved as the first instant is.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from meters import SLACK, Worst, quantities, ratings, show
from settings import Modes
from sums import HELD, Sums, boil, settle
from wiring import APART, HOME, Wiring

BRIEF, STEP = 0.1, 2e-3  # s; how long `momentary` is, and the step of the march
TRACE = 1e-3  # V; charges closer than this are one


def strike(wired: Wiring, asked: Modes, corner: str, volts: np.ndarray, charges: np.ndarray, worst: Worst) -> None:
    """Hold the first instants of every mode against the ratings. `volts` (supplies,) is what the supplies give, `charges` (modes, states,
    capacitors) what the capacitors hold settled."""
    kept = ratings(wired, "momentary")
    kept[~quantities(wired, "volts", "amps")] = np.inf
    states, home = wired.kinds != APART, np.flatnonzero(wired.kinds == HOME)
    struck = boil(wired, corner, states, np.full(len(wired.large), HELD))
    at_home = replace(struck, columns=struck.columns[home], states=home)
    farads = np.array([wired.pieces[i].part.value.nominal for i in wired.large])
    marched: list[Sums] = []
    for mode, gone in enumerate(asked.gone):
        given = (volts * asked.on[mode])[None]
        before = _different(np.concatenate([charges[mode, ~states], charges[mode, home]]))
        cases = [(struck, before[:, None], "charged as unplugged or plugged")]
        thrown = [other for other in asked.neighbours(mode)]
        if thrown:
            cases.append((at_home, charges[thrown][:, home], "a switch thrown"))
        for sums, held, why in cases:
            if not given.any() and np.abs(held).max(initial=0.0) < TRACE:
                continue
            some = np.broadcast_to(given, (len(held), given.shape[1]))
            held = np.broadcast_to(held, (len(held), len(sums.columns), held.shape[-1]))
            shown = show(sums, settle(sums, some, gone, held), gone, held)
            where = np.flatnonzero(states) if sums is struck else home

            def tell(case: int, state: int) -> str:
                source = asked.words(thrown[case]) if sums is at_home else np.round(held[case, state], 2).tolist()
                return f"{asked.words(mode)}, {corner}, {why} ({source}), {state_words(wired, where[state])}"

            for kind in (HOME, "plugging"):
                chosen = np.flatnonzero(wired.kinds[where] == kind)
                worst.take(f"first instant, {kind}", shown[:, chosen], kept, lambda case, state, chosen=chosen: tell(case, chosen[state]))
            own = np.flatnonzero(wired.kinds[where] == HOME)
            if _lasts(wired, shown[:, own]):
                if not marched:
                    marched.append(boil(wired, corner, home, STEP / farads))
                least = march(marched[0], some, gone, held[:, own])
                worst.take("for seconds", np.minimum(least, shown[:, own]), _seconds(wired), lambda case, state: tell(case, own[state]))


def march(sums: Sums, volts: np.ndarray, gone: np.ndarray, held: np.ndarray) -> np.ndarray:
    """The least that each limit sees from the first step to BRIEF: (cases, states, limits)."""
    least = np.inf
    for _ in range(round(BRIEF / STEP)):
        found = settle(sums, volts, gone, held)
        least = np.minimum(least, show(sums, found, gone, held))
        a, b = sums.across(sums.capacitors)
        held = found[..., a] - found[..., b]
    return least


def _seconds(wired: Wiring) -> np.ndarray:
    """What parts stand for seconds, where it is less than what they stand for a moment."""
    found = ratings(wired, "seconds")
    found[~quantities(wired, "volts", "amps") | (found >= ratings(wired, "momentary"))] = np.inf
    return found


def _lasts(wired: Wiring, shown: np.ndarray) -> bool:
    """Does anything pass what it stands for seconds, but not what it stands for a moment?"""
    return bool((shown > _seconds(wired) * (1 + SLACK)).any())


def _different(rows: np.ndarray) -> np.ndarray:
    """Rows that are not alike."""
    _, first = np.unique(np.round(rows / TRACE), axis=0, return_index=True)
    return rows[np.sort(first)]


def state_words(wired: Wiring, state: int) -> str:
    """A state in words: its kind, earth, and the contacts that are closed."""
    pairs = [f"{a}-{b}" for (a, b), shut in zip(wired.contacts, wired.closed[state]) if shut]
    return f"{wired.kinds[state]}{' with earth' if wired.earthed[state] else ''} [{' '.join(pairs)}]"
