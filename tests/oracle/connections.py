"""The connections of the catalogue, way by way, and a short list of them that has every
circuit template in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random
from zlib import crc32

from generator.catalogue.records import Catalogue
from generator.engine import pairings
from generator.engine.assemble import Assembly, Way, assemble, ways
from generator.ledger.fingerprint import Fingerprints

Pairing = tuple[str, tuple[str, ...], str]


@dataclass(frozen=True)
class Connection:
    """One way of one pairing. `digest` changes with anything its verdict rests on, and with it
    what `chance` chooses."""

    pairing: Pairing
    way: Way
    digest: str

    @property
    def name(self) -> str:
        """Outlet, leads, inlet, the ends used and the spare ends plugged."""
        (start, through, target), way = self.pairing, self.way
        return " ".join(
            [
                start,
                *through,
                target,
                *(f"{near}>{far}" for near, far in way.ends),
                *(f"{one.end} in {one.place}" for one in way.plugged),
            ]
        )

    @property
    def drawn(self) -> bool:
        """Is it of the twelfth that is always compared?"""
        return crc32(f"{self.digest} {self.name}".encode()) % 12 == 0

    def chance(self, purpose: str) -> Random:
        """The same choices for the same records, on every machine."""
        return Random(f"{self.digest} {self.name} {purpose}")

    def assembly(self, catalogue: Catalogue) -> Assembly:
        """Its circuits and states."""
        start, through, target = self.pairing
        return assemble(
            catalogue,
            catalogue.ports[start],
            [catalogue.leads[name] for name in through],
            catalogue.ports[target],
            self.way,
        )


def connections(catalogue: Catalogue, wanted: Sequence[Pairing] | None = None) -> list[Connection]:
    """Every way of the wanted pairings; of all when none are named."""
    prints = Fingerprints(catalogue)
    return list(_connections(catalogue, prints, pairings(catalogue) if wanted is None else wanted))


def _connections(catalogue: Catalogue, prints: Fingerprints, wanted) -> Iterator[Connection]:
    for pairing in wanted:
        start, through, target = pairing
        for way in ways(
            catalogue,
            catalogue.ports[start],
            [catalogue.leads[name] for name in through],
            catalogue.ports[target],
        ):
            yield Connection(pairing, way, prints.of(pairing))


def templates(catalogue: Catalogue, pairing: Pairing) -> set[str]:
    """The circuit templates behind the two ports."""
    return {template for port in (pairing[0], pairing[2]) for template in catalogue.ports[port].circuits}


def short_list(catalogue: Catalogue, paired: Sequence[Pairing]) -> list[Pairing]:
    """Of all that is paired as few single-lead pairings as a greedy choice needs to have every template (and
    so every sink and clamp) and every kind of part of a lead in one of them. Chosen from the data: a new
    template is in it without anyone adding it."""
    has = {pairing: templates(catalogue, pairing) | _lead_kinds(catalogue, pairing) for pairing in paired}
    missing, chosen = set().union(*has.values()), []
    while missing:
        best = max(has, key=lambda pairing: (len(has[pairing] & missing), -len(pairing[1]), pairing))
        chosen.append(best)
        missing -= has[best]
    return chosen


def _lead_kinds(catalogue: Catalogue, pairing: Pairing) -> set[str]:
    parts = {
        part
        for name in pairing[1]
        for part in catalogue.leads[name].network.parts
        if part.id in catalogue.leads[name].parts
    }
    return {f"{part.kind} in a lead" for part in parts}
