"""An independent reader of dangers: every rating that any state of a connection passes.

It shares with the engine the catalogue's records and which contacts touch (`ways`, `assemble`, `mate`),
nothing else.
"""

from __future__ import annotations

import numpy as np
from corners import NOMINAL, PULLED, STRONG, WEAK, corners, supply_volts
from instants import strike
from loud import loudness
from meters import Hit, Worst, ratings, show, state_words
from settings import Modes, modes
from states import HOME, PLUGGING
from sums import boil, settle
from wiring import Wiring, wirings

from generator.catalogue.records import Catalogue, Port

# Where signal is not solved again: the highest resistances let least of it through, and a percent of a
# matched pair is little beside a plug on its way.
AS_NOMINAL = {(WEAK, HOME), (WEAK, PLUGGING), (PULLED, PLUGGING)}
STRUCK = (NOMINAL, STRONG)  # corners at which the first instant is read


def dangers(
    catalogue: Catalogue, pairing: tuple[str, tuple[str, ...], str], partners: bool = False
) -> list[Hit]:
    """Every hit of every way of plugging a pairing that its verdict rests on, the worst of each limit and
    kind of state; with `partners` of the other ways, whose spare ends are in what somebody else plugged
    them into. Raises CircuitError where no circuit can have these values, Unsettled where no state of its
    bends fits."""
    found: dict[tuple, Hit] = {}
    for wired in wirings(catalogue, pairing, partners):
        for hit in read(wired):
            known = found.setdefault(hit[:4], hit)
            if hit.value > known.value:
                found[hit[:4]] = hit
    rule = [] if partners else amplifier(catalogue.ports[pairing[0]], catalogue.ports[pairing[2]])
    return [*rule, *found.values()]


def amplifier(start: Port, target: Port) -> list[Hit]:
    """A loudspeaker amplifier's output into anything that is no loudspeaker, whatever else the two may be."""
    return [
        Hit(place, source.id, "amplifier", "by rule", 1.0, 0.0, "into what is no loudspeaker")
        for place, one, other in (("from", start, target), ("into", target, start))
        if all(listener.kind != "loudspeaker" for listener in other.listeners)
        for source in one.sources
        if source.kind == "loudspeaker"
    ]


def read(wired: Wiring) -> list[Hit]:
    """Every hit of one way of plugging."""
    worst, asked = Worst(wired), modes(wired)
    if not wired.rated:
        return []
    loud: dict[str, np.ndarray] = {}
    for corner in corners(wired):
        loud |= {
            kind: loudness(wired, asked, corner, kind)
            for kind in (HOME, PLUGGING)
            if (corner, kind) not in AS_NOMINAL
        }
        if wired.supplies:
            _supplied(wired, asked, corner, loud, worst)
        else:
            _hold(wired, asked, corner, {kind: 0.0 for kind in loud}, loud, worst)
    return list(worst.found.values())


def _supplied(wired: Wiring, asked: Modes, corner: str, loud: dict[str, np.ndarray], worst: Worst) -> None:
    """Direct current at one corner, with all that the supplies may give there, and the first instants."""
    sums = boil(wired, corner, np.arange(len(wired.closed)))
    for name, volts in supply_volts(wired, corner):
        shown = np.zeros((len(asked), len(wired.closed), len(wired.rated)))
        charges = np.zeros((len(asked), len(wired.closed), len(wired.large)))
        for numbers, gone in asked.patterns():
            found = settle(sums, volts * asked.on[numbers], gone)
            shown[numbers] = show(sums, found, gone)
            charges[numbers] = sums.over(found, wired.large)
        _hold(wired, asked, name, {kind: shown[:, wired.kinds == kind] for kind in loud}, loud, worst)
        if wired.large and corner in STRUCK and name == corner:
            strike(wired, asked, corner, volts, charges, worst)


def _hold(wired: Wiring, asked: Modes, corner: str, direct: dict, loud: dict, worst: Worst) -> None:
    """Direct current and signal together against the ratings."""
    for kind, state, which in ((HOME, "settled", "settled"), (PLUGGING, "plugging", "momentary")):
        at = np.flatnonzero(wired.kinds == kind)
        worst.take(
            state,
            direct[kind] + loud[kind],
            ratings(wired, which),
            lambda case, k, at=at: f"{asked.words(case)}, {corner}, {state_words(wired, at[k])}",
        )
