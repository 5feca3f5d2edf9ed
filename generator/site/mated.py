"""Who goes into whom, and which contact then touches which: the table the pages and the check's pickers read.

Keys are `connector/half`; under each, every half that fits it with the ways its contacts can meet fully home.
"""

from __future__ import annotations

from generator.catalogue.records import Catalogue
from generator.engine.mate import mate

Ways = list[list[list[str]]]  # every way fully home: pairs of (own contact, other's contact)


def table(catalogue: Catalogue) -> dict[str, dict[str, Ways]]:
    """Every mating of two halves in the catalogue, seen from both sides."""
    halves = [(connector, half) for connector in catalogue.connectors.values() for half in connector.halves]
    found: dict[str, dict[str, Ways]] = {}
    for one in halves:
        fitting = {name(two[0].id, two[1]): mate(one, two) for two in halves}
        found[name(one[0].id, one[1])] = {
            other: [_in_order(one[0].contacts, way) for way in mating.home]
            for other, mating in fitting.items()
            if mating
        }
    return found


def name(connector: str, half: str) -> str:
    """The key of a half."""
    return f"{connector}/{half}"


def _in_order(contacts: tuple[str, ...], touches: frozenset[tuple[str, str]]) -> list[list[str]]:
    return [list(touch) for touch in sorted(touches, key=lambda touch: (contacts.index(touch[0]), touch[1]))]
