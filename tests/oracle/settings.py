"""Every position of every switch, read a second time: what supplies give and sources send.

A supply that is off may hold its rail at 0 V or leave it open; nobody knows which, so both are a mode.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from wiring import Wiring

from generator.catalogue.records import Source

ON, OFF, OPEN = "on", "off", "off, rail open"


@dataclass(frozen=True)
class Modes:
    """`positions` (modes) hold a word for each of `switches` (place, supply id). `on` and `gone` (modes,
    supplies): which supplies give volts, which are not there. `levels` (modes, sources) in V rms of
    `sources` (place, source)."""

    switches: tuple[tuple[str, str], ...]
    positions: tuple[tuple[str, ...], ...]
    on: np.ndarray
    gone: np.ndarray
    sources: tuple[tuple[str, Source], ...]
    levels: np.ndarray

    def __len__(self) -> int:
        return len(self.positions)

    def words(self, mode: int) -> str:
        named = zip(self.switches, self.positions[mode])
        return ", ".join(f"{supply} at {place} {word}" for (place, supply), word in named) or "no switch"

    def patterns(self) -> Iterator[tuple[np.ndarray, np.ndarray]]:
        """Modes in which the same supplies are not there: their numbers, and which."""
        for pattern in np.unique(self.gone, axis=0):
            yield np.flatnonzero((self.gone == pattern).all(axis=1)), pattern

    def neighbours(self, mode: int) -> list[int]:
        """The modes from which this one is reached by one switch that is turned on or off."""
        own = self.positions[mode]
        return [other for other, positions in enumerate(self.positions) if _one_thrown(own, positions)]


def _one_thrown(one: Sequence[str], other: Sequence[str]) -> bool:
    differ = [(a, b) for a, b in zip(one, other) if a != b]
    return len(differ) == 1 and ON in differ[0]


def modes(wired: Wiring) -> Modes:
    """Every combination of switch positions."""
    switches = {(place, supply.id): supply for place, port in wired.ports.items() for supply in port.supplies}
    fed = [(piece.place, piece.part.supply) for piece in (wired.pieces[i] for i in wired.supplies)]
    choices = [(ON, OFF, OPEN) if key in fed else (ON, OFF) for key in switches]
    positions = tuple(product(*choices))
    sources = tuple((place, source) for place, port in wired.ports.items() for source in port.sources)
    senders = [(place, getattr(source, "supply", None)) for place, source in sources]
    words = [dict(zip(switches, chosen)) for chosen in positions]

    def table(keys: Sequence, holds) -> np.ndarray:
        found = [[holds(word.get(key, ON)) for key in keys] for word in words]
        return np.array(found, dtype=bool).reshape(len(words), len(keys))

    loudest = np.array([source.maximum or source.nominal or 0.0 for _, source in sources])
    is_on = ON.__eq__
    return Modes(
        tuple(switches),
        positions,
        table(fed, is_on),
        table(fed, OPEN.__eq__),
        sources,
        table(senders, is_on) * loudest,
    )
