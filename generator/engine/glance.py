"""A first look at a connection: fully plugged and settled, every part at its nominal value, one way of those
a person cannot tell apart. It costs a fraction of a verdict and is never worse than one, for a verdict is the
worst over these cases and many more. So it tells a search what is not worth judging.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from generator.catalogue.records import Catalogue, Lead, Part, Port

from .assemble import assemble, ways
from .assembly import Way
from .constants import MOST_WAYS
from .direct import direct_readings
from .hearing import signal_readings
from .judge import judge_way, labels
from .readings import Reading
from .rulebook import loss
from .signal import solve_signals
from .verdict import RANK

Seen = Callable[[Catalogue, Port, Sequence[Lead], Port, Way], tuple[float, int]]


def glance(plain: Catalogue, start: str, through: Sequence[str], target: str) -> tuple[float, int]:
    """The least that a verdict on this chain can come to: its rank and what is lost. `plain` is what
    `plainly` makes of the catalogue."""
    return least_of(plain, start, through, target, _seen)


def least_of(
    plain: Catalogue, start: str, through: Sequence[str], target: str, seen: Seen
) -> tuple[float, int]:
    """The least of a chain, where `seen` tells it of one way."""
    outlet, inlet = plain.ports[start], plain.ports[target]
    leads = [plain.leads[name] for name in through]
    possible = ways(plain, outlet, leads, inlet)
    if not possible:
        return RANK["does not fit"], 0
    if len(possible) > MOST_WAYS:
        return RANK["dangerous"], 0
    # Which end a person takes is their choice, so the best counts; of ends they cannot tell apart the
    # worst, so any will do here.
    choices = {labels(leads, way): way for way in reversed(possible)}
    return min(seen(plain, outlet, leads, inlet, way) for way in choices.values())


def _seen(plain: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way) -> tuple[float, int]:
    found = judge_way(plain, outlet, leads, inlet, way, _read)
    return found.least_rank, loss(finding.id for finding in found.findings if finding.severity == "lossy")


def _read(
    plain: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way
) -> tuple[Reading, ...]:
    assembly = assemble(plain, outlet, leads, inlet, way, travel=False)
    signals = solve_signals(assembly)
    return (*direct_readings(assembly, signals), *signal_readings(assembly, signals))


def plainly(catalogue: Catalogue) -> Catalogue:
    """The catalogue as if every part had its nominal value."""
    return replace(catalogue, ports=_plain(catalogue.ports), leads=_plain(catalogue.leads))


def _plain(records: Mapping[str, Port | Lead]) -> dict[str, Port | Lead]:
    return {
        name: replace(
            record, network=replace(record.network, parts=tuple(map(_nominal, record.network.parts)))
        )
        for name, record in records.items()
    }


def _nominal(part: Part) -> Part:
    value = part.value and replace(part.value, low=part.value.nominal, high=part.value.nominal)
    return replace(part, value=value, match=0.0)
