"""The pieces of a side view: a shell, a grip, a boot ... each painted from its front at `x` px,
around the axis y = 0."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import copysign

from generator.catalogue.outside import Piece
from generator.catalogue.records import Connector
from generator.drawing.plugs import length, tip
from generator.drawing.scene import Item, Line, Path, Rect, polyline
from generator.drawing.sides import places

# pixels to the millimetre of every side view; the longest of all is then as wide as a narrow phone
PER_MM = 3.2
CABLE = 6.0  # mm of cable that are shown
ROWED = ("pins", "posts", "strands")  # pieces that stand once at every place of the face
WALL = 2.5  # mm of panel that are shown above and below everything else


def half_wide(piece: Piece, connector: Connector | None = None) -> float:
    """How far it reaches from the axis at its widest, mm; with the connector, where it stands at
    every place of the face."""
    farthest = max(map(abs, _rows(connector)), default=0) if connector and piece.kind in ROWED else 0
    return max(piece.wide, piece.back) / 2 + farthest


def _outline(piece: Piece, x: float, look: str, corner: float = 0) -> Item:
    """The piece as a rectangle, or tapering."""
    front, back, long = piece.wide / 2 * PER_MM, piece.back / 2 * PER_MM, piece.long * PER_MM
    if front == back:
        return Rect(x, -front, long, 2 * front, look, corner)
    return polyline([(x, -front), (x + long, -back), (x + long, back), (x, front)], look, True)


def _ribs(piece: Piece, x: float, step: float, share: float, look: str = "hair") -> list[Item]:
    """Lines across the piece, `step` mm apart, as high as this share of it."""
    count = max(int(piece.long / step), 1)
    places = [(number + 0.5) / count for number in range(count)]
    return [
        Line(x + at * piece.long * PER_MM, -high, x + at * piece.long * PER_MM, high, look)
        for at in places
        for high in [(piece.wide + (piece.back - piece.wide) * at) / 2 * PER_MM * share]
    ]


def _lengthwise(piece: Piece, x: float, step: float) -> list[Item]:
    """Lines along the piece, nearer to each other towards its edges as on a round thing."""
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    rows = max(int(piece.wide / step), 3)
    places = [2 * (number + 0.5) / rows - 1 for number in range(rows)]
    return [
        Line(x + 2, y, x + long - 2, y, "hair")
        for y in (copysign(1 - (1 - abs(at)) ** 1.5, at) * high for at in places)
    ]


def shoulder(piece: Piece) -> tuple[tuple[float, float], tuple[float, float]]:
    """From where to where a hood narrows: mm from its front, and from the axis."""
    return (piece.long * 0.45, piece.wide / 2), (piece.long, piece.back / 2 * 0.45)


def _plain(look: str, corner: float = 1) -> Callable[..., list[Item]]:
    return lambda piece, x, connector, half: [_outline(piece, x, look, corner)]


def _shell(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    """Bright, with the light along it."""
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    return [_outline(piece, x, "metal", 1), Rect(x + 1, -high * 0.62, max(long - 2, 1), high * 0.3, "shine")]


def _petals(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    return [
        _outline(piece, x, "metal", 1),
        *(Line(x, y * high, x + long * 0.75, y * high, "line") for y in (-0.45, 0.45)),
    ]


def _collar(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    return [_outline(piece, x, "metal", 1.5), *(_lengthwise(piece, x, 1.6) if piece.long > 3 else [])]


def _thread(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    high, long, step = piece.wide / 2 * PER_MM, piece.long * PER_MM, 0.9 * PER_MM
    count = int(long / step)
    return [
        _outline(piece, x, "metal"),
        *(Line(x + n * step, high, x + (n + 0.6) * step, -high, "hair") for n in range(count)),
    ]


def _nut(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    return [
        _outline(piece, x, "metal", 1),
        *(Line(x, y * high, x + long, y * high, "hair") for y in (-0.5, 0.5)),
    ]


def _hood(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    half = [(0, piece.wide / 2), *shoulder(piece)]
    outline = [*((along, -out) for along, out in half), *reversed(half)]
    return [polyline([(x + along * PER_MM, out * PER_MM) for along, out in outline], "dark", True)]


def _grip(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    middle = Piece("", piece.long * 0.5, piece.wide, piece.back)
    return [
        _outline(piece, x, "dark", 2.5),
        *_ribs(middle, x + piece.long * PER_MM * 0.3, 2.5, 0.7, "knock-hair"),
    ]


def _boot(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    return [_outline(piece, x, "dark"), *_ribs(piece, x, 2.8, 1, "knock-hair")]


def _pin(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    return [_rod(x, 0, piece)]


def _rod(x: float, y: float, piece: Piece) -> Path:
    r, end = piece.wide / 2 * PER_MM, x + piece.long * PER_MM
    return Path(
        (
            ("M", end, y - r),
            ("L", x + r, y - r),
            ("Q", x, y - r, x, y),
            ("Q", x, y + r, x + r, y + r),
            ("L", end, y + r),
            ("Z",),
        ),
        "metal",
    )


def _rows(connector: Connector) -> list[float]:
    """Where contacts of a face stand across, mm from the middle."""
    return sorted({round(x, 3) for x, _ in places(connector, "male", "face").values()})


def _pins(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    """Sprung pins: leaves that bulge."""
    start, end = (x + piece.long * PER_MM * share for share in (0.25, 0.8))
    rows = [y * PER_MM for y in _rows(connector)]
    return [*(_rod(x, y, piece) for y in rows), *(Line(start, y, end, y, "hair") for y in rows)]


def _posts(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    return [
        Rect(x, y * PER_MM - high, long, 2 * high, "dark" if piece.wide > 2 else "metal", 2)
        for y in _rows(connector)
    ]


def _strands(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    high, long = piece.wide / 2 * PER_MM, piece.long * PER_MM
    items: list[Item] = []
    for y in _rows(connector):
        for spread in (-1, -0.35, 0.35, 1):
            y1, y2 = (y * PER_MM + spread * high * share for share in (0.6, 1))
            items.append(Line(x + long, y1, x + abs(spread) * 3, y2))
    return items


def _barrel(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    """The bands of a phone plug, from the segments that mate."""
    part, r = connector.halves[half], piece.wide / 2 * PER_MM
    spans = [part.segments[contact] for contact in connector.contacts]
    items: list[Item] = [
        Rect(x + behind * PER_MM, -r * 0.92, (ahead - behind) * PER_MM, r * 1.84, "insulator")
        for (_, behind), (ahead, _) in pairwise(spans)
    ]
    items.append(tip(x + spans[0][0] * PER_MM, x + spans[0][1] * PER_MM, 0, r))
    return items + [
        Rect(x + start * PER_MM, -r, (end - start) * PER_MM, 2 * r, "metal", 0.5) for start, end in spans[1:]
    ]


def _wall(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    """The panel, cut through."""
    reach = max(half_wide(other, connector) for other in connector.outside.body[half]["panel"]) + WALL
    return [Rect(x, -reach * PER_MM, piece.long * PER_MM, 2 * reach * PER_MM, "panel-wall")]


def _tags(piece: Piece, x: float, connector: Connector, half: str) -> list[Item]:
    count = min(len(connector.contacts), 5)
    high = piece.wide / 2 * PER_MM * 0.8
    places = (
        [y * PER_MM for y in _rows(connector)]
        if connector.shape == "rectangular" and count == 2
        else [high * (2 * number / (count - 1) - 1) for number in range(count)]
    )
    return [Rect(x, y - 1.4, piece.long * PER_MM, 2.8, "metal") for y in places]


def cable(last: Piece, x: float) -> list[Item]:
    """The beginning of the cable, broken off."""
    r, long = min(max(last.back * 0.38, 1.0), 4.0) * PER_MM, CABLE * PER_MM
    end = x + long
    broken = (("Q", end - r, -r * 0.4, end - r * 0.4, 0), ("Q", end + r * 0.2, r * 0.5, end - r * 0.5, r))
    return [Path((("M", x, -r), ("L", end, -r), *broken, ("L", x, r), ("Z",)), "dark")]


DRAWN: dict[str, Callable[..., list[Item]]] = {
    "barrel": _barrel,
    "tube": _shell,
    "shell": _shell,
    "petals": _petals,
    "pin": _pin,
    "pins": _pins,
    "posts": _posts,
    "strands": _strands,
    "collar": _collar,
    "thread": _thread,
    "nut": _nut,
    "block": _plain("block"),
    "hood": _hood,
    "grip": _grip,
    "boot": _boot,
    "flange": _plain("metal"),
    "wall": _wall,
    "tags": _tags,
}


def bore(connector: Connector, deep: float) -> list[Item]:
    """What the plug goes into, hidden inside: broken lines, its mouth to the left."""
    taken = connector.halves.get("plug", connector.halves["jack"])
    deep = min(deep, length(taken))
    r = taken.sizes["diameter"] / 2 * PER_MM
    return [Line(0, y, deep * PER_MM, y, "dots") for y in (-r, r)] + [Line(0, -r, 0, r, "mouth")]
