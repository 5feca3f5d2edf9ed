"""Checked trees -> records. Only called when there is no fault left, so nothing is checked here."""

from __future__ import annotations

from math import atan2, degrees, hypot, sqrt

from . import records
from .asks import asks, question
from .build_outside import outside
from .cables import Cable, lay
from .caution import Caution
from .constants import ADIABATIC, COPPER
from .context import Context
from .expand import expand, scope_of
from .kinds import POWERINGS
from .light import MADE_FOR_FAST, is_fibre, lit_nodes
from .networks import Scope, evidence, network
from .nodes import Map, Text
from .quantity import parse
from .scalars import number

POWERED = {"yes": ("earthed",), "no": ("battery",), "maybe": POWERINGS}  # what `earthed` says of the powering


def catalogue(context: Context) -> records.Catalogue:
    """All records, by id in alphabetical order."""

    def built(kind, build):
        return {id: build(id, tree, context) for id, tree in sorted(context.trees[kind].items())}

    sources, questions, converters, feeding = (
        context.trees[kind].get(kind) for kind in ("sources", "questions", "converters", "feeding")
    )
    return records.Catalogue(
        connectors=built("connectors", _connector),
        assignments=built("assignments", _assignment),
        ports=built("ports", _port),
        leads=built("leads", _lead),
        sources={id: _reference(id, tree) for id, tree in sorted(sources.items())} if sources else {},
        retired=dict(sorted(context.retired.items())),
        questions={id: question(id, tree) for id, tree in questions.items()} if questions else {},
        converters={id: _converter(id, tree) for id, tree in converters.items()} if converters else {},
        feeding={id: _feeding(id, tree) for id, tree in feeding.items()} if feeding else {},
        local=context.local,
    )


def _mm(node: Text) -> float:
    return round(1e3 * parse(node.text).nominal, 6)


def _interval(node: Text) -> tuple[float, float]:
    length = parse(node.text)
    return round(1e3 * length.low, 6), round(1e3 * length.high, 6)


def _connector(id: str, tree: Map, context: Context) -> records.Connector:
    return records.Connector(
        id=id,
        name=tree.text("name"),
        shape=tree.text("shape"),
        bore=tree.text("bore", id),
        contacts=tree.texts("contacts"),
        halves={name: _half(name, tree[name]) for name in ("plug", "jack", "male", "female") if name in tree},
        face={contact: _spot(spot) for contact, spot in tree.map("face").items()},
        key_angle=parse(tree.text("key")).nominal if "key" in tree else None,
        recognise=tree.text("recognise", ""),
        also_called=tree.texts("also_called"),
        evidence=evidence(tree),
        looks={key: _seen(key, node) for key, node in tree.map("looks").items()},
        takes=tree.texts("takes"),
        turned={contact: other.text for contact, other in tree.map("turned").items()},
        light=tree.texts("light"),
        outside=outside(id, tree, context),
    )


def _spot(tree: Map) -> records.Spot:
    """A place on a round face as it is written, one on a rectangular face turned into angle and radius."""
    if "angle" in tree:
        return records.Spot(parse(tree.text("angle")).nominal, _mm(tree["radius"]))
    x, y = _mm(tree["x"]), _mm(tree["y"])
    return records.Spot(round(degrees(atan2(x, -y)) % 360, 6), round(hypot(x, y), 6))


def _seen(key: str, node: Text) -> str | float:
    if key == "diameter":
        return _mm(node)
    return number(node.text) if key in ("contacts", "rings") else node.text


def _half(name: str, tree: Map) -> records.Half:
    springs = {
        contact: records.Spring(*_interval(spring["at"]), _mm(spring["width"]))
        for contact, spring in tree.map("springs").items()
    }
    return records.Half(
        name=name,
        segments={contact: _interval(span) for contact, span in tree.map("segments").items()},
        springs=springs,
        forward={contact: _mm(node) for contact, node in tree.map("forward").items()},
        sizes={size: _mm(node) for size, node in tree.items() if isinstance(node, Text)},
    )


def _assignment(id: str, tree: Map, context: Context) -> records.Assignment:
    return records.Assignment(
        id=id,
        name=tree.text("name"),
        connector=tree.text("connector"),
        carries={contact: role.text for contact, role in tree["carries"].items()},
        used_for=tree.text("used_for", ""),
        mistaken_for={other: words.text for other, words in tree.map("mistaken_for").items()},
        also_called=tree.texts("also_called"),
        evidence=evidence(tree),
        recognise=tree.text("recognise", ""),
    )


def _port(id: str, tree: Map, context: Context) -> records.Port:
    known = evidence(tree)
    instances = dict(tree["circuit"].items())
    templates = {name: context.tree("circuits", instance["use"]) for name, instance in instances.items()}
    bits = [expand(name, instance, templates[name], known) for name, instance in instances.items()]

    def all_of(field: str) -> tuple:
        return tuple(item for bit in bits for item in getattr(bit, field))

    return records.Port(
        id=id,
        name=tree.text("name"),
        device=tree.text("device"),
        connector=tree.text("connector"),
        half=tree.text("half"),
        assignment=tree.text("assignment"),
        contacts={
            contact: role.text
            for contact, role in context.tree("assignments", tree["assignment"])["carries"].items()
        },
        network=records.Network(
            parts=tuple(part for bit in bits for part in bit.network.parts),
            couplings=tuple(coupling for bit in bits for coupling in bit.network.couplings),
            limits=tuple(limit for bit in bits for limit in bit.network.limits),
        ),
        sources=all_of("sources"),
        listeners=all_of("listeners"),
        # one switch for all instances
        supplies=tuple({supply.id: supply for supply in all_of("supplies")}.values()),
        needs=all_of("needs"),
        earthed=tree.text("earthed"),
        powered_by=tree.texts("powered_by") or POWERED[tree.text("earthed")],
        follows=tree.text("follows") == "yes",
        asks=asks(
            tree,
            {name: scope_of(name, instance, templates[name], known) for name, instance in instances.items()},
            context,
        ),
        same_as=tree.text("same_as"),
        circuits=tuple(dict.fromkeys(instance.text("use") for instance in instances.values())),
        cautions=cautions(tree),
        met=tree.map("met").text("how_often") or "",
        also_called=tree.texts("also_called"),
        evidence=known,
    )


def _lead(id: str, tree: Map, context: Context) -> records.Lead:
    known = evidence(tree)
    screens = tree.texts("screens") if "screens" in tree else ("screen",)
    joins = tuple(
        records.Join(name, join.texts(), name in screens) for name, join in tree.map("joins").items()
    )
    ends = {name: _end(name, end) for name, end in tree["ends"].items()}
    cable = _cable(tree, context) if "cable" in tree else None
    components = network(tree, Scope(known))
    lit = lit_nodes(
        {
            name: context.tree("connectors", end["connector"]).texts("light")
            for name, end in tree["ends"].items()
        }
    )
    wires, fibres = (
        [join for join in joins if is_fibre(join.nodes, lit) == light] for light in (False, True)
    )
    laid = lay(wires, tuple(ends), cable) + lay(fibres, tuple(ends), None)
    return records.Lead(
        id=id,
        name=tree.text("name"),
        form=tree.text("form"),
        ends=ends,
        joins=joins,
        parts=tuple(part.id for part in components.parts),
        network=records.Network(
            laid + components.parts, components.couplings, components.limits + _ratings(laid, tree, context)
        ),
        length=parse(tree.text("length")).nominal if "length" in tree else None,
        cable=tree.text("cable"),
        impedance=_impedance(tree, context),
        looks_like=tree.texts("looks_like"),
        made_for=tree.texts("made_for"),
        tell_apart=tree.text("tell_apart", ""),
        cautions=cautions(tree),
        met=tree.map("met").text("how_often") or "",
        also_called=tree.texts("also_called"),
        evidence=known,
    )


def cautions(tree: Map) -> tuple[Caution, ...]:
    """The cautions of a port or a lead: a text, or a text with the conditions it is told under."""
    items = tree["cautions"] if "cautions" in tree else ()
    return tuple(
        Caution(item.text) if isinstance(item, Text) else Caution(item.text("says"), item.texts("when"))
        for item in items
    )


def _end(id: str, tree: Map) -> records.End:
    return records.End(id, tree.text("connector"), tree.text("half"), tree.text("label"), tree.text("usual"))


def _cable(lead: Map, context: Context) -> Cable:
    tree = context.tree("cables", lead["cable"])
    per_metre = {
        key: parse(tree.text(key)) if key in tree else None
        for key in ("core", "screen", "core_to_core", "core_to_screen")
    }
    return Cable(length=parse(lead.text("length")), **per_metre)


def _impedance(lead: Map, context: Context) -> float | None:
    if "cable" not in lead:
        return None
    cable = context.tree("cables", lead["cable"])
    if cable.text("light") == "yes":
        return MADE_FOR_FAST
    return parse(cable.text("impedance")).nominal if "impedance" in cable else None


def _ratings(laid: tuple[records.Part, ...], lead: Map, context: Context) -> tuple[records.Limit, ...]:
    """What each conductor of the cable may carry: for hours what the file says, for moments
    what heats its copper."""
    tree = context.tree("cables", lead["cable"]) if "cable" in lead else lead
    if "current" not in tree:
        return ()
    current, home = tree["current"], evidence(tree)
    amps = parse(current.text("value") if isinstance(current, Map) else current.text).low
    known = evidence(current, home) if isinstance(current, Map) else home
    metres = parse(lead.text("length")).nominal
    limits = []
    for part in (part for part in laid if part.kind == "resistor"):
        length = metres / 2 if part.b.endswith(".hub") else metres
        heated = ADIABATIC * COPPER * length / part.value.nominal
        brief = {
            name: max(amps, heated / sqrt(seconds))
            for name, seconds in (("momentary", 0.1), ("seconds", 10.0))
        }
        limits.append(records.Limit(part.id, "cable", "amps", part.id, None, amps, evidence=known, **brief))
    return tuple(limits)


def _converter(id: str, tree: Map) -> records.Converter:
    return records.Converter(
        id=id,
        **{key: tree.text(key) for key in ("name", "does", "power")},
        **{key: tree.texts(key) for key in ("enters", "leaves", "only_from", "only_to", "look_at")},
        evidence=evidence(tree),
    )


def _feeding(id: str, tree: Map) -> records.Feeding:
    return records.Feeding(
        id=id, **{key: tree.texts(key) for key in ("outlets", "through", "into")}, evidence=evidence(tree)
    )


def _reference(id: str, tree: Map) -> records.Reference:
    return records.Reference(id, tree.text("title"), tree.text("where"), tree.text("kind"))
