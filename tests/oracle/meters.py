"""What a meter on every rated part would show, and the worst that passed a rating."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from sums import Sums
from wiring import Wiring

SLACK = 1e-6  # of a rating: rounding is not a danger


class Hit(NamedTuple):
    """A rating that is passed: `value` against `limit` (V, A or W), in which state and setting."""

    place: str
    part: str
    quantity: str
    state: str
    value: float
    limit: float
    setting: str

    def __str__(self) -> str:
        number = f"{self.value:.4g} beyond {self.limit:.4g}"
        return f"{self.place}/{self.part} {self.quantity} {number}, {self.state}: {self.setting}"


def ratings(wired: Wiring, which: str) -> np.ndarray:
    """One rating of every limit, infinite where it is not known. `seconds` is what a part stands for ten
    of them, by default what it stands for ever."""
    found = [getattr(rated.limit, which, rated.limit.settled) for rated in wired.rated]
    return np.array([np.inf if value is None else value for value in found])


def show(sums: Sums, found: np.ndarray, gone: np.ndarray, held: np.ndarray | None = None) -> np.ndarray:
    """What counts against every limit: (cases, states, limits) from unknowns (cases, states, size) with
    the supplies in `gone` not there. Sizes, but for what is the wrong way round; nothing between nets that
    nothing joins."""
    wired, shown = sums.wired, np.zeros((*found.shape[:2], len(sums.wired.rated)))
    for k, rated in enumerate(wired.rated):
        volts, quantity = found[..., rated.a] - found[..., rated.b], rated.limit.quantity
        if quantity == "volts":
            shown[..., k] = np.abs(volts)
        elif quantity == "reverse":  # not known: neither is which way round it sits
            shown[..., k] = np.abs(volts) if rated.limit.settled is None else np.maximum(0.0, -volts)
        else:
            amps = _amps(sums, found, volts, rated.piece, held)
            shown[..., k] = np.abs(amps if quantity == "amps" else amps * volts)
    return shown * sums.tied(gone, wired.rated)


def _amps(sums: Sums, found: np.ndarray, volts: np.ndarray, i: int, held: np.ndarray | None) -> np.ndarray:
    part, value = sums.wired.pieces[i].part, sums.values[i]
    if part.kind == "resistor":
        return volts / value
    if i in sums.wired.branch:
        return found[..., sums.wired.branch[i]]
    if part.kind == "sink":
        return value * np.minimum(1.0, volts / part.knee)
    if part.kind == "clamp":
        return np.maximum(0.0, volts - value) / part.series
    if i in sums.capacitors:
        k = sums.capacitors.index(i)
        return (volts - held[..., k]) / sums.series[k]
    return np.zeros_like(volts)


def state_words(wired: Wiring, state: int) -> str:
    """A state in words: its kind, earth, and the nets whose contacts are closed."""
    pairs = [f"{a}-{b}" for (a, b), shut in zip(wired.contacts, wired.closed[state]) if shut]
    return f"{wired.kinds[state]}{' with earth' if wired.states.earthed[state] else ''} [{' '.join(pairs)}]"


class Worst:
    """Of each limit in each kind of state the hit that is furthest beyond."""

    def __init__(self, wired: Wiring) -> None:
        self.wired, self.found = wired, {}

    def take(
        self, state: str, shown: np.ndarray, limits: np.ndarray, tell: Callable[[int, int], str]
    ) -> None:
        """`shown` (cases, states, limits) against `limits` (limits,); `tell` words a case and state."""
        if not shown.size:
            return
        flat = shown.reshape(-1, shown.shape[-1])
        most, at = flat.max(axis=0), flat.argmax(axis=0)
        for k in np.flatnonzero(most > limits * (1 + SLACK)):
            place, limit = self.wired.rated[k][:2]
            known = self.found.get((k, state))
            if known is None or most[k] > known.value:
                setting = tell(*divmod(int(at[k]), shown.shape[1]))
                numbers = float(most[k]), float(limits[k])
                self.found[k, state] = Hit(place, limit.id, limit.quantity, state, *numbers, setting)
