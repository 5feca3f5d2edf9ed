"""Halves that do not go into each other: which ones, and what would."""

from __future__ import annotations

from collections.abc import Sequence

from generator.catalogue.records import Catalogue, Lead, Port

from .mate import OPPOSITE, fits
from .verdict import Finding


def misfit(catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port) -> Finding:
    """Say where the chain first fails to mate, and what would go in there."""
    reach, name = [(outlet.connector, outlet.half)], outlet.name
    for lead in leads:
        onward = [
            (far.connector, far.half)
            for near in lead.ends.values()
            if any(_goes(catalogue, half, near) for half in reach)
            for far in lead.ends.values()
            if far is not near
        ]
        if not onward:
            return _misfit(catalogue, reach[0], name, lead.name)
        reach, name = onward, lead.name
    return _misfit(catalogue, reach[0], name, inlet.name)


def _goes(catalogue: Catalogue, half: tuple[str, str], other) -> bool:
    return fits((catalogue.connectors[half[0]], half[1]), (catalogue.connectors[other.connector], other.half))


def _misfit(catalogue: Catalogue, half: tuple[str, str], name: str, other: str) -> Finding:
    family = catalogue.connectors[half[0]]
    partner = OPPOSITE[half[1]]
    takes = sorted(
        c.name
        for c in catalogue.connectors.values()
        if partner in c.halves and fits((family, half[1]), (c, partner))
    )
    says = (
        f"{name} ends in {family.name}, {half[1]}; {other} does not go in there. It takes the {partner} of: "
        f"{'; '.join(takes)}."
    )
    return Finding(
        "does-not-mate",
        "does not fit",
        "connection",
        name,
        0.0,
        "",
        None,
        "always",
        says,
        "Choose a lead with that end.",
        "derived",
        (),
        "settled",
    )
