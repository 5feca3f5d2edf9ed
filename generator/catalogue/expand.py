"""A circuit template, put to use in a port: parameters filled in, roles renamed, everything else
prefixed with the instance."""

from __future__ import annotations

from dataclasses import dataclass

from . import records
from .kinds import RESERVED
from .light import DARK
from .networks import Scope, Value, evidence, network
from .nodes import Map, Node, Text
from .quantity import parse
from .scalars import number

# nodes that are one in the whole device: its metalwork, and what light is measured against
SHARED = {name: name for name in ("chassis", DARK)}


@dataclass(frozen=True)
class Expansion:
    """What one instance brings to its port."""

    network: records.Network
    sources: tuple[records.Source, ...]
    listeners: tuple[records.Listener, ...]
    supplies: tuple[records.Supply, ...]
    needs: tuple[records.Need, ...]


def expand(name: str, instance: Map, template: Map, port: records.Evidence) -> Expansion:
    """`port` is the evidence for values the instance gives without saying more."""
    scope = scope_of(name, instance, template, port)

    def channel(key: str) -> str:
        return name if key == "main" else key

    return Expansion(
        network=network(template, scope),
        sources=tuple(
            _source(key, channel(key), tree, scope) for key, tree in template.map("sources").items()
        ),
        listeners=tuple(
            _listener(key, channel(key), tree, scope) for key, tree in template.map("listeners").items()
        ),
        supplies=tuple(_supply(key, tree) for key, tree in template.map("supplies").items()),
        needs=tuple(_need(key, tree, scope) for key, tree in template.map("needs").items()),
    )


def scope_of(name: str, instance: Map, template: Map, port: records.Evidence) -> Scope:
    """The names and values of one instance."""
    home = evidence(template)
    values = {key: _value(node, home, given=False) for key, node in template.map("parameters").items()}
    values |= {key: _value(node, port, given=True) for key, node in instance.items() if key not in RESERVED}
    roles = {role: instance.map("roles").text(role, role) for role in template["roles"].texts()}
    return Scope(home, prefix=f"{name}.", nodes=roles | SHARED, values=values)


def _value(node: Node, inherited: records.Evidence, given: bool) -> Value:
    if isinstance(node, Text):
        return Value(parse(node.text), inherited, given)
    return Value(parse(node.text("value")), evidence(node, inherited), given)


def _source(key: str, channel: str, tree: Map, scope: Scope) -> records.Source:
    """Of ranges: the loudest maximum, the lightest load it is made for."""
    nominal, maximum, load = (
        scope.quantity(tree.get(level)) for level in ("nominal", "maximum", "least_load")
    )
    return records.Source(
        id=scope.id(key),
        channel=channel,
        kind=tree.text("kind"),
        drive={scope.id(part): number(weight.text) for part, weight in tree["drive"].items()},
        output=scope.pair(tree["output"]),
        nominal=nominal and nominal.nominal,
        maximum=maximum and maximum.high,
        least_load=load and load.high,
        balanced=tree.text("balanced") == "yes",
        supply=tree.text("supply"),
        form=tree.text("form") or "",
    )


def _listener(key: str, channel: str, tree: Map, scope: Scope) -> records.Listener:
    """Of a range of maxima: the lowest."""
    sensitivity, maximum = (scope.quantity(tree.get(level)) for level in ("sensitivity", "maximum"))
    return records.Listener(
        id=scope.id(key),
        channel=channel,
        kind=tree.text("kind"),
        between=scope.pair(tree["between"]),
        sensitivity=sensitivity and sensitivity.nominal,
        maximum=maximum and maximum.low,
        balanced=tree.text("balanced") == "yes",
        forms=tuple(tree.texts("form")),
    )


def _supply(key: str, tree: Map) -> records.Supply:
    return records.Supply(key, tree.text("name"), tree.texts("states") or ("on", "off"), tree.text("style"))


def _need(key: str, tree: Map, scope: Scope) -> records.Need:
    """Of a range: the most demanding specimen."""
    least, full = scope.quantity(tree["volts"]), scope.quantity(tree.get("full"))
    return records.Need(
        scope.id(key),
        tree.text("where"),
        scope.pair(tree["between"]),
        least.high,
        scope.evidence_for(tree, tree["volts"]),
        full and full.high,
    )
