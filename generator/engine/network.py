"""All that lies behind the contacts of a way to connect, as the parts of one circuit: those of every device
and lead at its place, and what light is measured against."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.catalogue.light import DARK
from generator.catalogue.records import Coupling, Lead, Part, Port


def network(places: Mapping[str, Port | Lead]) -> tuple[list[Part], list[Part], list[Coupling]]:
    """All parts, the stray capacitances of cables apart from the rest, and all couplings."""
    parts, strays, couplings = [], [], []
    for place, record in places.items():
        for part in record.network.parts:
            stray = isinstance(record, Lead) and part.kind == "capacitor" and part.id not in record.parts
            moved = replace(part, id=f"{place}/{part.id}", a=f"{place}/{part.a}", b=f"{place}/{part.b}")
            (strays if stray else parts).append(moved)
        couplings += [
            Coupling(f"{place}/{c.first}", f"{place}/{c.second}", c.k) for c in record.network.couplings
        ]
    return [*parts, *_darkness(places)], strays, couplings


def _darkness(places: Mapping[str, Port | Lead]) -> list[Part]:
    """Light needs no way back: what it is measured against is the same dark everywhere, joined to nothing
    that carries current."""
    dark = [
        f"{place}/{DARK}"
        for place, record in places.items()
        if any(DARK in (part.a, part.b) for part in record.network.parts)
    ]
    return [Part(other, "wire", dark[0], other) for other in dark[1:]]
