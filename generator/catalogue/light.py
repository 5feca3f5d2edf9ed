"""Which joins of a lead are fibres: those that end on contacts that pass light. No meter reads them, no iron
mends them, and no current runs in them."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from .records import Connector, Join, Lead

DARK = "dark"  # the node that light is measured against, in devices and leads alike
# What a lead with fibres says where others have ohms: readings ask only whether it is made for fast signals.
MADE_FOR_FAST = 1.0


def all_light(connector: Connector) -> bool:
    """Does it carry light and nothing else? Then it has no pins and no solder side."""
    return set(connector.light) == set(connector.contacts)


def fibres(lead: Lead, connectors: Mapping[str, Connector]) -> tuple[Join, ...]:
    """The joins of this lead that are fibres."""
    lit = lit_nodes({id: connectors[end.connector].light for id, end in lead.ends.items()})
    return tuple(join for join in lead.joins if is_fibre(join.nodes, lit))


def only_light(lead: Lead, connectors: Mapping[str, Connector]) -> bool:
    """Is there nothing in this lead but fibres?"""
    return bool(lead.joins) and len(fibres(lead, connectors)) == len(lead.joins) and not lead.parts


def lit_nodes(ends: Mapping[str, Collection[str]]) -> frozenset[str]:
    """End -> its contacts that pass light, as nodes of the lead."""
    return frozenset(f"{end}.{contact}" for end, contacts in ends.items() for contact in contacts)


def is_fibre(nodes: Collection[str], lit: Collection[str]) -> bool:
    """Does any node of a join pass light? Lint holds that all do then."""
    return any(node in lit for node in nodes)
