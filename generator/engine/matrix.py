"""Every pairing: each outlet through nothing or one lead into each inlet that it fits."""

from __future__ import annotations

from collections.abc import Iterator

from generator.catalogue.records import Catalogue

from .judge import judge
from .route import chains
from .verdict import Verdict


def pairings(catalogue: Catalogue) -> Iterator[tuple[str, tuple[str, ...], str]]:
    """(outlet, leads, inlet) of every direct or single-lead connection whose halves fit, in order of id."""
    outlets = [port for port in catalogue.ports.values() if port.sources]
    inlets = [port for port in catalogue.ports.values() if port.listeners]
    known: dict[tuple, list[tuple[str, ...]]] = {}  # what goes between two ports hangs on their halves alone
    for outlet in outlets:
        for inlet in inlets:
            if outlet.id != inlet.id:
                halves = outlet.connector, outlet.half, inlet.connector, inlet.half
                if halves not in known:
                    known[halves] = [
                        chain for length in (0, 1) for chain in chains(catalogue, outlet.id, inlet.id, length)
                    ]
                yield from ((outlet.id, chain, inlet.id) for chain in known[halves])


def matrix(catalogue: Catalogue) -> Iterator[Verdict]:
    """The verdict of every pairing."""
    for outlet, through, inlet in pairings(catalogue):
        yield judge(catalogue, outlet, through, inlet)
