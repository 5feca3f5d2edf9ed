"""The least that the verdicts on all chains of so many leads between two ports can come to, worked out for
all of them at once.

It sees less than a judgement, and never more: what falls through here cannot be offered.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np

from generator.catalogue.records import Catalogue

from .constants import ADAPTER_METRES
from .kinds import LOUDSPEAKER
from .sifting import Sifting
from .socket import Socket
from .steps import Half, Rows, Steps
from .verdict import RANK

BENDING = ("emf", "sink", "clamp")


class Sieve:
    """What is known of a catalogue's leads and ports, worked out as it is asked for. `useful` tells which
    leads help beside another; with `among` only chains in which one of those is."""

    def __init__(self, catalogue: Catalogue, useful: Mapping[str, bool], among: Collection[str] = ()) -> None:
        self.catalogue, self.steps = catalogue, Steps(catalogue, among)
        self.leads = self.steps.leads
        self.useful = [useful[lead.id] for lead in self.leads]
        each = lambda told: np.array([told(lead) for lead in self.leads] or [0])
        # of every lead: has it parts not made for loudspeakers, a supply or what bends, metres of common
        # cable, no screen?
        self.parts = each(lambda lead: bool(lead.parts) and LOUDSPEAKER not in lead.made_for)
        self.bends = each(lambda lead: any(part.kind in BENDING for part in lead.network.parts))
        self.metres = each(lambda lead: 0.0 if lead.impedance else lead.length or ADAPTER_METRES)
        self.bare = each(lambda lead: bool(lead.cable) and not any(join.screen for join in lead.joins))
        self._sockets: dict[str, Socket] = {}
        self._rows: dict[int, tuple[tuple[Half, Half], list[Rows]]] = {}

    def least(self, start: str, target: str, length: int) -> dict[tuple[str, ...], tuple[float, int]]:
        """Every chain that may be worth a look, with the least rank and loss it can come to."""
        one, two = self._socket(start), self._socket(target)
        found: dict[tuple[str, ...], tuple[float, int]] = {}
        for rows in self._between(one.half, two.half, length):
            ranks, lost = Sifting(self, one, two, rows).answer()
            for row in np.flatnonzero(ranks <= RANK["lossy"]):
                chain = tuple(self.leads[number].id for number in rows.leads[row])
                least = float(ranks[row]), int(lost[row])
                found[chain] = min(found.get(chain, least), least)
        return found

    def _socket(self, name: str) -> Socket:
        if name not in self._sockets:
            self._sockets[name] = Socket(self.catalogue, self.catalogue.ports[name])
        return self._sockets[name]

    def _between(self, start: Half, target: Half, length: int) -> list[Rows]:
        """The rows between two halves; the last ones are kept, for equal halves follow each other."""
        known = self._rows.get(length)
        if known is None or known[0] != (start, target):
            useful = self.useful if length > 1 else [True] * len(self.useful)
            known = self._rows[length] = (start, target), list(self.steps.rows(start, target, length, useful))
        return known[1]
