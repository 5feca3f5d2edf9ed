"""Remember readings by circuit, so that connections that differ in nothing but names are solved once."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields

from generator.catalogue.records import Connector, Lead, Port

from .readings import Reading

MOST = 50_000  # connections remembered; a few kilobytes each
NAMES = (
    "id",
    "name",
    "device",
    "form",
    "cautions",
    "also_called",
    "evidence",
    "assignment",
    "circuits",
    "length",
    "looks_like",
    "tell_apart",
    "label",
)

_remembered: OrderedDict[tuple, tuple[Reading, ...]] = OrderedDict()
_outlines: dict[int, tuple[object, int]] = {}


def recalled(records: Sequence, way, solve: Callable[[], tuple[Reading, ...]]) -> tuple[Reading, ...]:
    """The readings of a connection of these records (connectors by id first, then ports and leads), solved
    at its first mention."""
    # which port it is stands among the records
    used = tuple((one.lead, one.end, one.place) for one in way.plugged)
    key = (way.ends, used, *(_outline(record) for record in records))
    if key not in _remembered:
        _remembered[key] = solve()
        if len(_remembered) > MOST:
            _remembered.popitem(last=False)
    return _remembered[key]


def _outline(record: Mapping[str, Connector] | Port | Lead) -> int:
    """A number for everything about a record that bears on readings. Records are frozen, so it is
    worked out once for each."""
    known = _outlines.get(id(record))
    if known is None or known[0] is not record:
        known = _outlines[id(record)] = (record, hash(_text(record)))
    return known[1]


def _text(value) -> str:
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{key}:{_text(item)}" for key, item in value.items()) + "}"
    if isinstance(value, (Port, Lead)):
        return ";".join(_text(getattr(value, f.name)) for f in fields(value) if f.name not in NAMES)
    return repr(value)
