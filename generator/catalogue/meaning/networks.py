"""Parts, couplings and limits, in circuits and leads alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection

from ..context import Context
from ..kinds import LIMITED, PARTS
from ..nodes import Many, Map, Place, Text
from ..problems import a, did_you_mean, not_one_of, quoted
from ..quantity import QuantityFault, parse

_BENT = {"sink": "knee", "clamp": "series"}  # kinds whose current turns at a voltage, and what tells how


def kind_of(part: Map) -> str | None:
    """The kind of a part, which is the one key of PARTS it has; None if that is broken."""
    present = [kind for kind in PARTS if kind in part]
    return present[0] if len(present) == 1 else None


def joined(tree: Map, kinds: Collection[str]) -> dict[str, str]:
    """Node -> one node that stands for all it is joined to by parts of these kinds."""
    piece: dict[str, str] = {}
    for _, part in tree.map("parts").items():
        between = part.entries.get("between")
        if kind_of(part) in kinds and between and between.sound:
            one, other = (piece.get(node, node) for node in between.texts())
            piece |= {
                node: one
                for node in (
                    *between.texts(),
                    other,
                    *(node for node, found in piece.items() if found == other),
                )
            }
    return piece


def check_parts(tree: Map, context: Context) -> None:
    for id, part in tree.map("parts").items():
        between = part.entries.get("between")
        if between and between.sound and len(set(between.texts())) == 1:
            message = f"part '{id}' stands between '{between.texts()[0]}' and itself."
            context.problems.add(between.place, "joined-to-itself", message)
        if ("skew" in part) != ("match" in part):
            there, absent = ("skew", "match") if "skew" in part else ("match", "skew")
            message = f"part '{id}' has `{there}` but no `{absent}`; they only mean something together."
            context.problems.add(part.keys[there], "lone-skew", message)
        for kind, key in _BENT.items():
            if kind_of(part) == kind and key not in part:
                message = f"part '{id}' lacks the key '{key}': a {kind} cannot be solved without it."
                context.problems.add(tree["parts"].keys[id], "missing-key", message)


def check_couplings(tree: Map, context: Context) -> None:
    for id, coupling in tree.map("couplings").items():
        pair = coupling.entries.get("parts")
        if not pair:
            continue
        for item in pair:
            check_part(item.text, item.place, tree, ("inductor",), "couple", context)
        if pair.sound and len(set(pair.texts())) == 1:
            context.problems.add(
                pair.place, "joined-to-itself", f"coupling '{id}' couples '{pair.texts()[0]}' with itself."
            )


def check_limits(tree: Map, context: Context) -> None:
    for _, limit in tree.map("limits").items():
        if limit.entries.get("part"):
            check_part(limit["part"].text, limit["part"].place, tree, tuple(PARTS), "be limited", context)
        key = next((key for key in LIMITED if limit.entries.get(key)), None)
        if key and limit.entries.get("momentary"):
            _check_momentary(limit["momentary"], LIMITED[key], context)


def _check_momentary(node: Text, unit: str, context: Context) -> None:
    try:
        parse(node.text, unit)
    except QuantityFault as fault:
        if fault.rule == "wrong-unit":
            context.problems.add(node.place, fault.rule, str(fault))


def check_part(id: str, place: Place, tree: Map, kinds: Collection[str], use: str, context: Context) -> None:
    """Is there a part of this id that can do this?"""
    parts = tree.map("parts")
    if id not in parts:
        context.problems.add(
            place, "unknown-part", f"there is no part {quoted(id)} here.{did_you_mean(id, parts.entries)}"
        )
    elif parts.entries[id] and (kind := kind_of(parts[id])) and kind not in kinds:
        message = f"'{id}' is {a(kind)} and cannot {use}; {' or '.join(map(a, kinds))} can."
        context.problems.add(place, "wrong-part", message, parts.keys[id])


def touched(tree: Map) -> Counter[str]:
    """How often each node is touched by a part. Unusable if a part's nodes are not known."""
    count = Counter()
    for id in tree.map("parts").entries:
        count.update(tree["parts"][id].whole("between").texts())
    return count


def check_nodes_used(pairs: list[Many], tree: Map, anchors: Collection[str], context: Context) -> None:
    """Nodes that are listened to, driven or limited must exist."""
    nodes = [*anchors, *(node for node in touched(tree) if node not in anchors)]
    for pair in pairs:
        for node in pair:
            if node.text not in nodes:
                context.problems.add(node.place, "unknown-node", not_one_of(node.text, "a node here", nodes))


def check_dangling(tree: Map, anchors: Collection[str], others: Collection[str], context: Context) -> None:
    """An inner node touched by nothing but one end of one part is a slip of the pen: no
    current can flow there."""
    count = touched(tree)
    count.update(others)
    known = [*anchors, *(node for node in count if count[node] > 1 and node not in anchors)]
    for _, part in tree.map("parts").items():
        for node in part["between"]:
            if count[node.text] == 1 and node.text not in anchors and "." not in node.text:
                message = f"nothing else touches the node '{node.text}'.{did_you_mean(node.text, known)}"
                context.problems.add(node.place, "dangling-node", message)


def pairs_between(tree: Map, *sections: str) -> list[Many]:
    """The `between` (or `output`) of every entry of the sections."""
    found = []
    for section in sections:
        for _, entry in tree.map(section).items():
            found += [entry[key] for key in ("between", "output") if entry.entries.get(key)]
    return found
