"""Every pairing: each outlet through nothing or one lead into each inlet that it fits."""

from __future__ import annotations

from collections.abc import Iterator

from generator.catalogue.records import Catalogue

from .judge import judge
from .verdict import Verdict
from .route import chains


def pairings(catalogue: Catalogue) -> Iterator[tuple[str, tuple[str, ...], str]]:
    """(outlet, leads, inlet) of every direct or single-lead connection whose halves fit, in order of id."""
    outlets = [port.id for port in catalogue.ports.values() if port.sources]
    inlets = [port.id for port in catalogue.ports.values() if port.listeners]
    for outlet in outlets:
        for inlet in inlets:
            if outlet != inlet:
                for length in (0, 1):
                    yield from ((outlet, chain, inlet) for chain in chains(catalogue, outlet, inlet, length))


def matrix(catalogue: Catalogue) -> Iterator[Verdict]:
    """The verdict of every pairing."""
    for outlet, through, inlet in pairings(catalogue):
        yield judge(catalogue, outlet, through, inlet)
