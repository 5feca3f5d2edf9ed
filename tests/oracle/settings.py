"""Every position of every switch of a connection, read a second time: what each supply then gives, and what each source sends.

A supply that is off may hold its rail at 0 V or leave it open; nobody knows which, so both are a mode.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from sums import Sums
from wiring import Wiring, worth

from generator.catalogue.records import Source

ON, OFF, OPEN = "on", "off", "off, rail open"


@dataclass(frozen=True)
class Modes:
    """`positions` (modes) of tuples, one word for each of `switches` (place, supply id); `on` and `gone` (modes, supplies): which supplies give volts, which are
    not there; `levels` (modes, sources) in V rms of `sources` (place, source)."""

    switches: tuple[tuple[str, str], ...]
    positions: tuple[tuple[str, ...], ...]
    on: np.ndarray
    gone: np.ndarray
    sources: tuple[tuple[str, Source], ...]
    levels: np.ndarray

    def words(self, mode: int) -> str:
        return ", ".join(f"{supply} at {place} {word}" for (place, supply), word in zip(self.switches, self.positions[mode]))

    def patterns(self) -> Iterator[tuple[np.ndarray, np.ndarray]]:
        """Modes in which the same supplies are not there: their numbers, and which."""
        for pattern in np.unique(self.gone, axis=0):
            yield np.flatnonzero((self.gone == pattern).all(axis=1)), pattern

    def neighbours(self, mode: int) -> list[int]:
        """The modes from which this one is reached by one switch."""
        def is_on(positions):
            return [word == ON for word in positions]

        own = is_on(self.positions[mode])
        return [other for other, positions in enumerate(self.positions)
                if sum(a != b for a, b in zip(own, is_on(positions))) == 1
                and all(a == b for a, b in zip(self.positions[mode], positions) if (a == ON) == (b == ON))]


def modes(wired: Wiring) -> Modes:
    """Every combination of switch positions."""
    switches = [(place, supply) for place, port in wired.ports.items() for supply in port.supplies]
    fed = [i for i, piece in enumerate(wired.pieces) if piece.part.kind == "emf" and piece.part.value.nominal]
    belongs = [(wired.pieces[i].place, wired.pieces[i].part.supply) for i in fed]
    keys = tuple((place, supply.id) for place, supply in switches)
    choices = [((ON, OFF, OPEN) if key in belongs else (ON, OFF)) if len(supply.states) > 1 else (ON,) for key, (_, supply) in zip(keys, switches)]
    positions = tuple(product(*choices))
    sources = tuple((place, source) for place, port in wired.ports.items() for source in port.sources)
    words = [dict(zip(keys, chosen)) for chosen in positions]
    on = np.array([[word.get(key, ON) == ON for key in belongs] for word in words], dtype=bool).reshape(len(words), len(fed))
    gone = np.array([[word.get(key) == OPEN for key in belongs] for word in words], dtype=bool).reshape(len(words), len(fed))
    levels = np.array([[loudest(source) * (word.get((place, getattr(source, "supply", None)), ON) == ON) for place, source in sources]
                       for word in words]).reshape(len(words), len(sources))
    return Modes(keys, positions, on, gone, sources, levels)


def loudest(source: Source) -> float:
    """V rms; 0 where nobody knows."""
    return source.maximum or source.nominal or 0.0


def supply_volts(sums: Sums, corner: str) -> Iterator[tuple[str, np.ndarray]]:
    """What the supplies may give at a corner (supplies,), with its name: all alike; at the strong corner also those of one place at their highest with those of
    all others at their lowest, and the other way round."""
    pieces = [sums.wired.pieces[i] for i in sums.supplies]
    yield corner, sums.values[list(sums.supplies)]
    places = dict.fromkeys(piece.place for piece in pieces)
    if corner != "strong" or len(places) < 2:
        return
    for place in places:
        for first, second in (("strong", "weak"), ("weak", "strong")):
            yield (f"supplies {first} at {place}, {second} elsewhere",
                   np.array([worth(piece.part, first if piece.place == place else second) for piece in pieces]))
