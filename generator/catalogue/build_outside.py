"""The checked keys of a connector's outside -> its record."""

from __future__ import annotations

from .context import Context
from .networks import evidence
from .nodes import Map, Text
from .outside import MOUNTS, SEEN_FROM, Outside, Piece
from .quantity import parse


def outside(id: str, tree: Map, context: Context) -> Outside:
    """The checked keys of one connector; its body may be another's, and assignments that came by
    `same_as` are left out."""
    connectors, inherited = context.trees["connectors"], evidence(tree)
    own = {name for name, one in context.trees["assignments"].items() if one.text("connector") == id}
    body, grade = tree["body"], inherited
    if isinstance(body, Text):  # the pieces are the other's, what they take from their half is its own
        body, grade = connectors[body.text]["body"], evidence(connectors[body.text])
    usual = tree.map("usual")
    return Outside(
        body={
            half: {
                mount: tuple(_piece(piece, tree[half], body.text("seen_from")) for piece in mounts[mount])
                for mount in MOUNTS
                if mount in mounts
            }
            for half, mounts in body.items()
            if half in tree and isinstance(mounts, Map)
        },
        seen_from=body.text("seen_from", SEEN_FROM[0]),
        evidence=evidence(body, grade),
        held=tree.text("held"),
        keyed={half: kind.text for half, kind in tree.map("keyed").items()},
        usual=tuple(
            name
            for name in ([usual.text("first")] if usual.entries else []) + list(usual.texts("then"))
            if name in own
        ),
        seldom=tuple(name for name in usual.texts("seldom") if name in own),
    )


def _mm(node: Text | None, default: float) -> float:
    return default if node is None else round(1e3 * parse(node.text).nominal, 6)


def _piece(tree: Map, half: Map, seen_from: str | None) -> Piece:
    if tree["piece"].text == "barrel":
        long = max(parse(span.text).high for _, span in half.map("segments").items()) * 1e3
    else:
        long = _mm(tree.get("long"), 0)
    across = ("width", "height", "diameter") if seen_from == "above" else ("diameter", "height", "width")
    own = next((_mm(half[size], 0) for size in across if size in half), 0.0)
    if tree["piece"].text in ("pin", "pins"):
        own = _mm(half.get("pin"), own)
    wide = _mm(tree.get("wide"), own)
    return Piece(tree["piece"].text, round(long, 6), wide, _mm(tree.get("back"), wide), tree.texts("marks"))
