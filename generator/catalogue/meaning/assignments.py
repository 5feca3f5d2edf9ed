"""Assignments: what carries something is a contact of the connector."""

from __future__ import annotations

from ..context import Context
from ..nodes import Map
from .common import check_contact


def check_contacts(id: str, tree: Map, context: Context) -> None:
    connector = context.tree("connectors", tree["connector"])
    for contact, place in tree["carries"].keys.items():
        check_contact(contact, place, f"'{tree['connector'].text}'", connector, context)


CHECKS = (check_contacts,)
