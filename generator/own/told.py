"""Which numbers of a port are somebody's own, in words."""

from __future__ import annotations

from collections.abc import Iterator

from generator.catalogue.records import OWN, Catalogue, Port


def numbers(catalogue: Catalogue, port: Port) -> Iterator[tuple[str, str]]:
    """Question and value of every number of the port that comes from a manual."""
    for ask in port.asks:
        if ask.evidence.grade == OWN and ask.value:
            yield catalogue.questions[ask.question].asks, ask.value
