"""Trees of parts, couplings and limits -> a Network; the same for a lead and for a circuit used in a port."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from . import records
from .kinds import LIMITED, PARTS
from .nodes import Map, Node, Text
from .quantity import parse
from .scalars import number

_SKEW = {None: 0, "up": 1, "down": -1}


@dataclass(frozen=True)
class Value:
    """A parameter's value (None: unknown), how it is known, and whether the port gave it or the template."""

    quantity: records.Quantity | None
    evidence: records.Evidence
    given: bool


@dataclass(frozen=True)
class Scope:
    """How names in a tree become names in a record: ids and inner nodes get `prefix`, `nodes` are
    renamed, parameters filled."""

    evidence: records.Evidence
    prefix: str = ""
    nodes: Mapping[str, str] = field(default_factory=dict)
    values: Mapping[str, Value] = field(default_factory=dict)

    def id(self, name: str) -> str:
        return self.prefix + name

    def pair(self, between: Node) -> tuple[str, str]:
        first, second = (self.nodes.get(node, self.prefix + node) for node in between.texts())
        return first, second

    def quantity(self, text: Text | None) -> records.Quantity | None:
        """The quantity written or named by a parameter; None if unknown or not written."""
        if text is None or not text.text:
            return None
        value = self.values.get(text.text)
        return value.quantity if value else parse(text.text)

    def evidence_for(self, tree: Map, text: Text) -> records.Evidence:
        """How a nested fact is known: a value given by the port brings its own evidence."""
        value = self.values.get(text.text)
        if value and value.given:
            return value.evidence
        return evidence(tree, value.evidence if value else self.evidence)


def evidence(tree: Map, inherited: records.Evidence | None = None) -> records.Evidence:
    """The evidence a tree states; what it leaves out is inherited, but a new grade never
    inherits an old source."""
    base = inherited if inherited and "evidence" not in tree else None
    return records.Evidence(
        grade=tree.text("evidence") or base.grade,
        cite=tree.texts("cite") or (base.cite if base else ()),
        checked=tree.text("checked") or (inherited.checked if inherited else None),
        note=tree.text("note") or (base.note if base else None),
    )


def network(tree: Map, scope: Scope) -> records.Network:
    return records.Network(
        parts=tuple(_part(id, part, scope) for id, part in tree.map("parts").items()),
        couplings=tuple(_coupling(coupling, scope) for _, coupling in tree.map("couplings").items()),
        limits=tuple(_limit(id, limit, scope) for id, limit in tree.map("limits").items()),
    )


def _part(id: str, tree: Map, scope: Scope) -> records.Part:
    kind = next(kind for kind in PARTS if kind in tree)
    a, b = scope.pair(tree["between"])
    knee, series, match = (scope.quantity(tree.get(key)) for key in ("knee", "series", "match"))
    return records.Part(
        id=scope.id(id),
        kind=kind,
        a=a,
        b=b,
        value=scope.quantity(tree[kind]),
        knee=knee and knee.nominal,
        series=series and series.nominal,
        supply=tree.text("supply"),
        skew=_SKEW[tree.text("skew")],
        match=match.high if match else 0.0,
        coil=tree.text("coil"),
    )


def _coupling(tree: Map, scope: Scope) -> records.Coupling:
    first, second = map(scope.id, tree["parts"].texts())
    return records.Coupling(first, second, number(tree["k"].text))


def _limit(id: str, tree: Map, scope: Scope) -> records.Limit:
    """Of a range the low end counts: the weakest specimen."""
    key = next(key for key in LIMITED if key in tree)
    settled = scope.quantity(tree[key])
    seconds = scope.quantity(tree["seconds"]) if "seconds" in tree else settled
    momentary = scope.quantity(tree["momentary"]) if "momentary" in tree else seconds
    return records.Limit(
        id=scope.id(id),
        where=tree.text("where"),
        quantity=key,
        part=scope.id(tree.text("part")) if "part" in tree else None,
        between=scope.pair(tree["between"]) if "between" in tree else None,
        settled=settled and settled.low,
        momentary=momentary and momentary.low,
        evidence=scope.evidence_for(tree, tree[key]),
        seconds=seconds and seconds.low,
        reversal=tree.text("reversal") == "yes",
    )
