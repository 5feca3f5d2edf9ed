"""Judging with the readings written down, and judging from what was written down: to apply rules takes a
hundredth of the time of a circuit."""

from __future__ import annotations

from collections.abc import Sequence

from generator.catalogue.records import Catalogue
from generator.engine import Verdict, judge
from generator.engine.assemble import ways
from generator.engine.circuit import CircuitError
from generator.engine.judge import MOST_WAYS, Read, combine, judge_way, partners, read
from generator.engine.readings import Reading

from .form import Written


def recorded(
    catalogue: Catalogue, start: str, through: Sequence[str], target: str
) -> tuple[Verdict, list[Written]]:
    """What `judge` says of a connection, and what was read of each way of plugging it, in order."""
    written: list[Written] = []

    def reading(*way) -> Sequence[Reading]:
        try:
            written.append(read(*way))
        except CircuitError as error:
            written.append(str(error))
            raise
        return written[-1]

    return _judged(catalogue, start, through, target, reading), written


def replayed(
    catalogue: Catalogue, start: str, through: Sequence[str], target: str, written: Sequence[Written]
) -> Verdict:
    """What `judge` says of a connection with these readings."""
    left = iter(written)

    def reading(*way) -> Sequence[Reading]:
        found = next(left)
        if isinstance(found, str):
            raise CircuitError(found)
        return found

    return _judged(catalogue, start, through, target, reading)


def _judged(catalogue: Catalogue, start: str, through: Sequence[str], target: str, reading: Read) -> Verdict:
    outlet, inlet, leads = (
        catalogue.ports[start],
        catalogue.ports[target],
        [catalogue.leads[name] for name in through],
    )
    possible = ways(catalogue, outlet, leads, inlet)
    if not 0 < len(possible) <= MOST_WAYS:
        return judge(catalogue, start, through, target)  # which no circuit decides
    return combine(
        leads,
        [judge_way(catalogue, outlet, leads, inlet, way, reading) for way in possible],
        partners(catalogue, possible),
    )
