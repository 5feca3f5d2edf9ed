"""A connector from the side, as one sees it in the hand: the mating end to the left, every piece as long and
as wide as the catalogue says.

All side views share one scale, so that they may stand beside each other. How a piece ends, is ribbed
or slit is a sketch; its length and width are the catalogue's, and those that mate are the same
numbers the engine mates with.
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.catalogue.outside import MOUNTS, Piece
from generator.catalogue.records import Connector
from generator.drawing.piece_marks import BELOW, MARKED, STANDS_OUT
from generator.drawing.pieces import CABLE, DRAWN, PER_MM, WALL, bore, cable, half_wide
from generator.drawing.scene import Group, Item, Scene

EDGE = 3  # free around a picture, px
WORDS = {"cable": "on a cable", "panel": "in a panel"}


def silhouette(connector: Connector, half: str, mount: str | None = None) -> Scene:
    """One half from the side; on a cable if it comes so, else in a panel. Raises ValueError for a
    mount it does not have."""
    mounts = connector.outside.body.get(half, {})
    mount = mount or next((one for one in MOUNTS if one in mounts), None)
    if mount not in mounts:
        raise ValueError(
            f"'{connector.id}' has no side view of its {half} {WORDS.get(mount, mount)}; it has "
            f"{', '.join(mounts) or 'none'}"
        )
    pieces = mounts[mount]
    above, below = _reach(pieces, connector)
    items: list[Item] = []
    x = 0.0
    for piece in pieces:
        items += DRAWN[piece.kind](piece, x * PER_MM, connector, half)
        items += [item for mark in piece.marks for item in MARKED[mark](piece, x * PER_MM)]
        x += piece.long
    if half == "jack" and connector.shape == "concentric":
        items += bore(connector, x)
    if mount == "cable":
        items += cable(pieces[-1], x * PER_MM)
        x += CABLE
    wide, high = x * PER_MM + 2 * EDGE, (above + below) * PER_MM + 2 * EDGE
    title = f"{connector.name}: {half} {WORDS[mount]}, from {connector.outside.seen_from}"
    return Scene(
        round(wide, 1),
        round(high, 1),
        title,
        _said(connector, half, mount, pieces),
        (Group(tuple(items), EDGE, EDGE + above * PER_MM),),
        bare=True,
    )


def _said(connector: Connector, half: str, mount: str, pieces: Sequence[Piece]) -> str:
    long = sum(piece.long for piece in pieces if piece.kind not in ("wall", "tags"))
    wide = 2 * max(half_wide(piece, connector) for piece in pieces if piece.kind != "wall")
    marks = [mark.replace("-", " ") for piece in pieces for mark in piece.marks]
    found = f" One knows it by: {', '.join(dict.fromkeys(marks))}." if marks else ""
    grade = connector.outside.evidence.grade if connector.outside.evidence else "from memory"
    return (
        f"The {half} {WORDS[mount]}, mating end to the left, {long:g} mm long and {wide:g} mm across at its "
        f"widest ({grade}).{found}"
    )


def _reach(pieces: Sequence[Piece], connector: Connector) -> tuple[float, float]:
    """How far the picture stands above and below the axis, mm."""

    def out(piece: Piece, down: bool) -> float:
        return max(
            (STANDS_OUT.get(mark, 0) for mark in piece.marks if mark == "lugs" or (mark in BELOW) == down),
            default=0,
        )

    above, below = (
        max(half_wide(piece, connector) + out(piece, down) for piece in pieces) for down in (False, True)
    )
    walled = WALL if any(piece.kind == "wall" for piece in pieces) else 0
    return above + walled, below + walled
