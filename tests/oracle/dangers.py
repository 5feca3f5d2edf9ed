"""An independent reader of dangers: every rating that any state of a connection passes, found without the engine's analysis and judgement.

It shares with the engine the catalogue's records and which contacts touch (`ways`, `assemble`, `mate`), and nothing else.
"""

from __future__ import annotations

import numpy as np
from instants import state_words, strike
from islands import piece_pairs
from loud import loudness
from meters import Hit, Worst, ratings, show
from settings import modes, supply_volts
from sums import boil, settle
from wiring import HOME, PLUGGING, Wiring, corners, wirings

from generator.catalogue.records import Catalogue, Port

STRUCK = ("nominal", "strong")  # corners at which the first instant is read


def dangers(catalogue: Catalogue, pairing: tuple[str, tuple[str, ...], str]) -> list[Hit]:
    """Every hit of every way of plugging a pairing, the worst of each limit and kind of state. Raises CircuitError where no circuit can have these values."""
    start, target = catalogue.ports[pairing[0]], catalogue.ports[pairing[2]]
    leads = [catalogue.leads[name] for name in pairing[1]]
    found: dict[tuple, Hit] = {}
    for wired in wirings(catalogue, start, leads, target):
        for hit in read(wired):
            known = found.setdefault(hit[:4], hit)
            if hit.value > known.value:
                found[hit[:4]] = hit
    return [*amplifier(start, target), *found.values()]


def amplifier(start: Port, target: Port) -> list[Hit]:
    """A loudspeaker amplifier's output into anything that is no loudspeaker, whatever else the two may be."""
    return [Hit(place, source.id, "amplifier", "by rule", 1.0, 0.0, "into what is no loudspeaker")
            for place, one, other in (("from", start, target), ("into", target, start)) for source in one.sources
            if source.kind == "loudspeaker" and all(listener.kind != "loudspeaker" for listener in other.listeners)]


def read(wired: Wiring) -> list[Hit]:
    """Every hit of one way of plugging."""
    worst = Worst(wired)
    if not wired.rated:
        return []
    asked = modes(wired)
    supplied = any(piece.part.kind == "emf" and piece.part.value.nominal for piece in wired.pieces)
    loud: dict[str, np.ndarray] = {}
    for corner in corners(wired):
        if corner != "weak":  # where resistances are at their highest least gets through: nominal, which comes first, serves for it
            loud = {kind: loudness(wired, asked, corner, kind) for kind in (HOME, PLUGGING)}
        if supplied:
            _supplied(wired, asked, corner, loud, worst)
        else:
            _hold(wired, asked, corner, corner, {kind: 0.0 for kind in loud}, loud, worst)
    return list(worst.found.values())


def _supplied(wired: Wiring, asked, corner: str, loud: dict, worst: Worst) -> None:
    """Direct current at one corner, with what the supplies may give there, and the first instants."""
    sums = boil(wired, corner, slice(None))
    capacitors = wired.large
    for name, volts in supply_volts(sums, corner):
        shown = np.zeros((len(asked.positions), len(wired.closed), len(wired.rated)))
        charges = np.zeros((len(asked.positions), len(wired.closed), len(capacitors)))
        for numbers, gone in asked.patterns():
            found = settle(sums, volts * asked.on[numbers], gone)
            shown[numbers] = show(sums, found, gone)
            a, b = sums.across(capacitors)
            charges[numbers] = (found[..., a] - found[..., b]) * sums.tied(gone, piece_pairs(wired, capacitors))  # else nothing fills it
        _hold(wired, asked, corner, name, {kind: shown[:, wired.kinds == kind] for kind in loud}, loud, worst)
        if capacitors and corner in STRUCK and name == corner:
            strike(wired, asked, corner, volts, charges, worst)


def _hold(wired: Wiring, asked, corner: str, name: str, direct: dict, loud: dict, worst: Worst) -> None:
    """Direct current and signal together against the ratings."""
    for kind, state, which in ((HOME, "settled", "settled"), (PLUGGING, "plugging", "momentary")):
        numbers = np.flatnonzero(wired.kinds == kind)
        worst.take(state, direct[kind] + loud[kind], ratings(wired, which),
                   lambda case, at, numbers=numbers: f"{asked.words(case)}, {name}, {state_words(wired, numbers[at])}")
