"""The connections of the catalogue, way by way, and a short list of them that has every
circuit template in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from drawn import complete, lot

from generator.catalogue.records import Catalogue
from generator.engine import pairings
from generator.engine.assemble import assemble, ways
from generator.engine.assembly import Assembly, Way
from generator.ledger.fingerprint import Fingerprints

Pairing = tuple[str, tuple[str, ...], str]
DRAWN = 36  # one way in so many is always compared


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
        """Is it of the lot that is always compared?"""
        return lot(self.digest, self.name) % DRAWN == 0

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


def drawn(catalogue: Catalogue) -> list[Connection]:
    """The ways that are always compared: a lot of all, and with it every circuit template that is
    ever paired and every lead with parts in it."""
    every = connections(catalogue)

    def met(connection: Connection) -> set[str]:
        leads = (catalogue.leads[name] for name in connection.pairing[1])
        return templates(catalogue, connection.pairing) | {lead.id for lead in leads if lead.parts}

    return complete([one for one in every if one.drawn], every, met)


def templates(catalogue: Catalogue, pairing: Pairing) -> set[str]:
    """The circuit templates behind the two ports."""
    return {template for port in (pairing[0], pairing[2]) for template in catalogue.ports[port].circuits}


def short_list(catalogue: Catalogue, paired: Sequence[Pairing]) -> list[Pairing]:
    """Of all that is paired as few single-lead pairings as a greedy choice needs to have every template (and
    so every sink and clamp) and every kind of part of a lead in one of them. Chosen from the data: a new
    template is in it without anyone adding it."""
    best: dict[frozenset[str], Pairing] = {}  # of those that have the same
    for pairing in paired:
        has = frozenset(templates(catalogue, pairing) | _lead_kinds(catalogue, pairing))
        best[has] = max(pairing, best.get(has, pairing), key=_ordinary)
    missing, chosen = set().union(*best), []
    while missing:
        has = max(best, key=lambda has: (len(has & missing), _ordinary(best[has])))
        chosen.append(best[has])
        missing -= has
    return chosen


def _ordinary(pairing: Pairing) -> tuple[int, Pairing]:
    return -len(pairing[1]), pairing


def _lead_kinds(catalogue: Catalogue, pairing: Pairing) -> set[str]:
    parts = {
        part
        for name in pairing[1]
        for part in catalogue.leads[name].network.parts
        if part.id in catalogue.leads[name].parts
    }
    return {f"{part.kind} in a lead" for part in parts}
