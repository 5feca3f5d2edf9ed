"""Leads: joins name contacts that exist, each once; ends are used; look-alikes agree."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from ..context import Context
from ..nodes import Map, Place, Text, Unusable
from ..problems import did_you_mean, not_one_of
from . import networks
from .common import check_contact, check_half

OPPOSITE = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}


def check_ends(id: str, tree: Map, context: Context) -> None:
    for _, end in tree["ends"].items():
        with suppress(Unusable):
            connector, half = check_half(end, context)
            if "usual" in end:
                _check_usual(end, connector, half, context)


def _check_usual(end: Map, connector: Map, half: str, context: Context) -> None:
    port = context.tree("ports", end["usual"])
    other, other_half = check_half(port, context)
    bores = bore(end["connector"].text, connector), bore(port["connector"].text, other)
    if bores[0] != bores[1] or other_half != OPPOSITE[half]:
        ours, theirs = f"{end['connector'].text} {half}", f"{port['connector'].text} {other_half}"
        message = f"'{end['usual'].text}' ({theirs}) does not go into this end ({ours})."
        context.problems.add(end["usual"].place, "does-not-mate", message, port["connector"].place)


def bore(id: str, connector: Map) -> str:
    return connector.text("bore", id)


def check_nodes(id: str, tree: Map, context: Context) -> None:
    """Every `end.contact`, wherever it stands, is a contact of an end of this lead."""
    for node in _nodes(tree):
        end, dot, contact = node.text.partition(".")
        if not dot:
            continue
        if end not in tree["ends"]:
            message = not_one_of(end, "an end of this lead", tree["ends"].entries)
            context.problems.add(node.place, "unknown-end", message)
            continue
        with suppress(Unusable):
            connector_id = tree["ends"][end]["connector"]
            check_contact(
                contact,
                node.place,
                f"'{connector_id.text}'",
                context.tree("connectors", connector_id),
                context,
            )


def _nodes(tree: Map) -> Iterator[Text]:
    for _, join in tree.map("joins").items():
        yield from join
    for pair in networks.pairs_between(tree, "parts", "limits"):
        yield from pair


def check_joins(id: str, tree: Map, context: Context) -> None:
    taken: dict[str, tuple[str, Place]] = {}
    for name, join in tree.map("joins").items():
        for node in join:
            if node.text in taken:
                other, place = taken[node.text]
                where = "twice in" if other == name else f"in '{other}' and in"
                context.problems.add(node.place, "joined-twice", f"'{node.text}' is {where} '{name}'.", place)
            taken.setdefault(node.text, (name, node.place))
        if join.sound and len(join.items) == 1 and "cable" not in tree:
            message = f"'{name}' joins '{join.texts()[0]}' to nothing; without a cable that is no conductor."
            context.problems.add(join.place, "pointless-join", message)


def check_unjoined(id: str, tree: Map, context: Context) -> None:
    if not all(tree.map(section).sound for section in ("ends", "joins", "parts")):
        raise Unusable(id)
    used = {node.text.partition(".")[0] for node in _nodes(tree)}
    for end in tree["ends"].entries:
        if end not in used:
            context.problems.add(
                tree["ends"].keys[end], "unjoined-end", f"nothing is joined to the end '{end}'."
            )


def check_inner(id: str, tree: Map, context: Context) -> None:
    """Inner nodes tie parts to each other or to a join; a misspelt one ties nothing."""
    if not tree.map("joins").sound:
        raise Unusable(id)
    touched = networks.touched(tree)
    in_joins = [node for _, join in tree.map("joins").items() for node in join if "." not in node.text]
    lost = [node for node in in_joins if node.text not in touched]
    for node in lost:
        message = f"no part touches the inner node '{node.text}'.{did_you_mean(node.text, touched)}"
        context.problems.add(node.place, "unknown-node", message)
    if not lost:
        networks.check_dangling(tree, (), [node.text for node in in_joins], context)
    inner = sorted(node for node in touched if "." not in node)
    for pair in networks.pairs_between(tree, "limits"):
        for node in pair:
            if "." not in node.text and node.text not in inner:
                context.problems.add(
                    node.place, "unknown-node", not_one_of(node.text, "an inner node here", inner)
                )


def check_cable(id: str, tree: Map, context: Context) -> None:
    if "cable" in tree and "length" not in tree:
        message = "this lead lacks the key 'length': a cable's resistance and capacitance are per metre."
        context.problems.add(tree.keys["cable"], "missing-key", message)
    joins = tree.map("joins").entries
    for name in tree["screens"] if "screens" in tree else ():
        if name.text not in joins:
            context.problems.add(
                name.place, "unknown-join", not_one_of(name.text, "a join of this lead", joins)
            )
    if "cable" in tree and _screens(tree):
        cable = context.tree("cables", tree["cable"])
        if "screen" not in cable:
            message = (
                f"this lead has a screen ({', '.join(_screens(tree))}), but cable '{tree['cable'].text}' has "
                "none."
            )
            context.problems.add(tree["cable"].place, "no-screen", message, cable.place)


def _screens(tree: Map) -> tuple[str, ...]:
    return (
        tree.texts("screens")
        if "screens" in tree
        else tuple(name for name in tree.map("joins").entries if name == "screen")
    )


def check_network(id: str, tree: Map, context: Context) -> None:
    for name, part in tree.map("parts").items():
        supply = part.entries.get("supply")
        if supply:
            message = (
                f"'{name}' has a supply, but a lead has no switches; leave `supply` out if it is always on."
            )
            context.problems.add(supply.place, "unknown-supply", message)
    networks.check_parts(tree, context)
    networks.check_couplings(tree, context)
    networks.check_limits(tree, context)


def check_looks(id: str, tree: Map, context: Context) -> None:
    for other_id in tree["looks_like"] if "looks_like" in tree else ():
        if other_id.text == id:
            context.problems.add(
                other_id.place, "looks-like-itself", f"'{id}' need not say that it looks like itself."
            )
            continue
        if id in context.local:
            continue  # the catalogue says nothing of somebody's own
        with suppress(Unusable):
            other = context.tree("leads", other_id)
            if "looks_like" not in other or id not in other.whole("looks_like").texts():
                message = f"'{id}' looks like '{other_id.text}', but that one does not say so of '{id}'."
                context.problems.add(
                    other_id.place, "not-mutual", message, context.ids["leads"][other_id.text]
                )
            if _outside(tree) != _outside(other):
                message = f"'{id}' and '{other_id.text}' have different ends: {_told(tree)}; {_told(other)}."
                context.problems.add(other_id.place, "different-ends", message, other.keys["ends"])


def _outside(tree: Map) -> list[tuple[str, str]]:
    return sorted((end["connector"].text, end["half"].text) for _, end in tree.whole("ends").items())


def _told(tree: Map) -> str:
    return " and ".join(" ".join(end) for end in _outside(tree))


CHECKS = (
    check_ends,
    check_nodes,
    check_joins,
    check_unjoined,
    check_inner,
    check_cable,
    check_network,
    check_looks,
)
