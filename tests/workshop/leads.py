"""Leads for the tests: XLR leads with whatever parts between their contacts."""

from types import MappingProxyType

from generator.catalogue.quantity import parse
from generator.catalogue.records import End, Evidence, Join, Lead, Network, Part


def xlr(parts=(), joins=(), made=None, id="made-for-a-test", **more):
    """An XLR lead, female `a`, male `b`, with the parts given as (id, kind, a, b, value)."""
    made_parts = tuple(
        Part(name, kind, a, b, parse(value) if value else None) for name, kind, a, b, value in parts
    )
    ends = {
        name: End(name, "xlr-3", half, f"XLR {half}", None) for name, half in (("a", "female"), ("b", "male"))
    }
    return Lead(
        id=id,
        name="A lead",
        form="converter",
        ends=MappingProxyType(ends),
        joins=tuple(Join(name, nodes, name == "screen") for name, nodes in joins),
        parts=tuple(p.id for p in made_parts) if made is None else made,
        network=Network(made_parts, (), ()),
        length=None,
        cable=None,
        impedance=None,
        looks_like=(),
        tell_apart="",
        cautions=(),
        also_called=(),
        evidence=Evidence("from memory"),
        **more,
    )
