"""The joins of a lead -> wires, and where it is made of cable the resistance and
capacitance of its conductors.

A conductor is a series resistance with half of each capacitance at either end, good for audio on any length
of lead; where it goes to more than two ends its rays meet at a hub, and the capacitance sits there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

from .records import Join, Part, Quantity


@dataclass(frozen=True)
class Cable:
    """Per metre: ohm of a core and of the screen, farad between two cores and from a core to the
    screen; and the length in m."""

    length: Quantity
    core: Quantity
    screen: Quantity | None
    core_to_core: Quantity | None
    core_to_screen: Quantity | None


@dataclass(frozen=True)
class _Conductor:
    """A join laid out: the node at each end it has, and its hub if it has one."""

    join: Join
    at: Mapping[str, str]
    hub: str | None


def lay(joins: Iterable[Join], ends: tuple[str, ...], cable: Cable | None) -> tuple[Part, ...]:
    """The parts that are the lead itself, without its components. `ends` are the ids of the lead's ends."""
    parts: list[Part] = []
    conductors: list[_Conductor] = []
    for join in joins:
        if cable is None or not _runs(join):
            parts += _wires(join.id, join.nodes)
            continue
        groups = _by_end(join)
        for end, nodes in groups.items():
            parts += _wires(f"{join.id}.{end}", nodes)
        conductor = _conductor(join, groups, ends)
        conductors.append(conductor)
        parts += _resistors(conductor, cable)
    if cable:
        for one, other in combinations(conductors, 2):
            parts += _capacitors(one, other, cable)
    return tuple(parts)


def _runs(join: Join) -> bool:
    """Does the join run along the cable? Several contacts of one end are a link inside that plug; a single
    contact is a conductor cut off at the far end, and so is a screen."""
    contacts = [node for node in join.nodes if "." in node]
    ends = {node.partition(".")[0] for node in contacts}
    return len(ends) > 1 or len(contacts) == 1 or (join.screen and len(contacts) > 1)


def _by_end(join: Join) -> dict[str, list[str]]:
    """end -> nodes; inner nodes attach at the end whose contact is listed first."""
    groups: dict[str, list[str]] = {}
    for node in join.nodes:
        if "." in node:
            groups.setdefault(node.partition(".")[0], []).append(node)
    first = next(iter(groups))
    groups[first] += [node for node in join.nodes if "." not in node]
    return groups


def _wires(name: str, nodes: Iterable[str]) -> list[Part]:
    first, *others = nodes
    return [Part(f"join.{name}.{node}", "wire", first, node) for node in others]


def _conductor(join: Join, groups: Mapping[str, list[str]], ends: tuple[str, ...]) -> _Conductor:
    at = {end: nodes[0] for end, nodes in groups.items()}
    if len(at) == 1 and len(ends) == 2:
        at |= {end: f"cable.{join.id}.{end}" for end in ends if end not in at}
    return _Conductor(join, at, None if len(at) == 2 else f"cable.{join.id}.hub")


def _resistors(conductor: _Conductor, cable: Cable) -> list[Part]:
    per_metre = cable.screen if conductor.join.screen else cable.core
    id = f"cable.{conductor.join.id}"
    if conductor.hub is None:
        a, b = conductor.at.values()
        return [Part(id, "resistor", a, b, _times(per_metre, cable.length, 1.0, "ohm"))]
    ray = _times(per_metre, cable.length, 0.5, "ohm")
    return [Part(f"{id}.{end}", "resistor", node, conductor.hub, ray) for end, node in conductor.at.items()]


def _capacitors(one: _Conductor, other: _Conductor, cable: Cable) -> list[Part]:
    """Nothing is known of two screens; a pair that has no figure, or 0 pF/m, has no capacitor."""
    screens = one.join.screen + other.join.screen
    per_metre = (cable.core_to_core, cable.core_to_screen, None)[screens]
    if per_metre is None or per_metre.high == 0:
        return []
    id = f"cable.{one.join.id}-{other.join.id}"
    if one.hub and other.hub:
        return [Part(id, "capacitor", one.hub, other.hub, _times(per_metre, cable.length, 1.0, "F"))]
    half = _times(per_metre, cable.length, 0.5, "F")
    return [
        Part(f"{id}.{end}", "capacitor", one.at[end], other.at[end], half)
        for end in one.at
        if end in other.at
    ]


def _times(per_metre: Quantity, length: Quantity, share: float, unit: str) -> Quantity:
    low, nominal, high = (
        getattr(per_metre, bound) * getattr(length, bound) * share for bound in ("low", "nominal", "high")
    )
    part = "" if share == 1.0 else f" x {share:g}"
    return Quantity(nominal, low, high, unit, f"{per_metre.text} x {length.text}{part}")
