"""A first look at a connection: fully plugged and settled, every part at its nominal value, one way of those
a person cannot tell apart. It costs a fraction of a verdict and is never worse than one, for a verdict is the
worst over these cases and many more. So it tells a search what is not worth judging.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.catalogue.records import Catalogue, Lead, Part, Port

from .assemble import assemble, ways
from .assembly import Way
from .constants import MOST_WAYS
from .direct import direct_readings
from .hearing import signal_readings
from .judge import judge_way, labels
from .least import HOPELESS, Least, least_of, switched
from .readings import Reading
from .signal import solve_signals
from .verdict import RANK


def glance(plain: Catalogue, start: str, through: Sequence[str], target: str) -> Least:
    """The least that a verdict on this chain can come to. `plain` is what `plainly` makes of the
    catalogue."""
    outlet, inlet = plain.ports[start], plain.ports[target]
    leads = [plain.leads[name] for name in through]
    possible = ways(plain, outlet, leads, inlet)
    if not possible:
        return HOPELESS._replace(rank=RANK["does not fit"])
    if len(possible) > MOST_WAYS:
        return HOPELESS
    # Which end a person takes is their choice, so the best counts; of ends they cannot tell apart the
    # worst, so any will do here.
    choices = {labels(leads, way): way for way in reversed(possible)}
    most = max(len(switched(plain, outlet, leads, inlet, way)) for way in possible)
    found = [least_of(judge_way(plain, outlet, leads, inlet, way, _read), most) for way in choices.values()]
    return min(found)._replace(ordered=min(one.ordered for one in found))


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
