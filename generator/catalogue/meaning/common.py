"""Questions several checks ask."""

from __future__ import annotations

from collections import Counter

from ..context import Context
from ..kinds import HALVES
from ..nodes import Many, Map, Place, Unusable
from ..problems import not_one_of, quoted


def check_contact(contact: str, place: Place, owner: str, connector: Map, context: Context) -> bool:
    """Does the connector, called `owner` in the message, have the contact? If not, say so."""
    contacts = connector.whole("contacts")
    if contact in contacts.texts():
        return True
    message = not_one_of(contact, f"a contact of {owner}", contacts.texts())
    context.problems.add(place, "unknown-contact", message, connector.keys["contacts"])
    return False


def check_half(node: Map, context: Context) -> tuple[Map, str]:
    """The connector and half a port or end names; Unusable (after saying so) if the
    connector lacks the half."""
    connector, half = context.tree("connectors", node["connector"]), node["half"]
    if half.text not in connector:
        halves = [name for name in HALVES[connector["shape"].text] if name in connector]
        what = f"a half of '{node['connector'].text}'"
        context.problems.add(
            half.place, "unknown-half", not_one_of(half.text, what, halves), connector.keys["shape"]
        )
        raise Unusable(half.text)
    return connector, half.text


def check_name(kind: str, id: str, tree: Map, context: Context) -> None:
    """Readers choose by name, so no two records of a kind may share one. Whoever got it by `same_as` is
    told, or the later id."""

    def rank(id: str, tree: Map) -> tuple[bool, str]:
        return tree["name"].place.path != context.ids[kind][id].path, id

    for other, its in context.called(kind, tree.text("name")):
        if rank(other, its) < rank(id, tree):
            message = f"{quoted(tree.text('name'))} is the name of '{other}' too; readers choose by name."
            context.problems.add(context.ids[kind][id], "same-name", message, its["name"].place)


def check_repeated(many: Many, what: str, context: Context) -> None:
    counts = Counter(many.texts())
    for item in list(many)[::-1]:
        if counts[item.text] > 1:
            counts[item.text] -= 1
            context.problems.add(item.place, "repeated", f"{what} '{item.text}' is named twice.")
