"""What one finds on a piece of a side view: a tab to press, a red dot, the slot of a bayonet ... each by its
word in the catalogue."""

from __future__ import annotations

from collections.abc import Callable

from generator.catalogue.outside import Piece
from generator.drawing.pieces import PER_MM, half_wide, shoulder
from generator.drawing.scene import Circle, Item, Line, Path, Rect, polyline

STANDS_OUT = {"tab": 3.2, "latch": 2.5, "lugs": 0.7, "clip": 4.5}  # mm beyond the piece
BELOW = ("clip", "lugs")  # marks that stand out there


def _at(piece: Piece, x: float, share: float) -> float:
    return x + piece.long * PER_MM * share


def _tab(piece: Piece, x: float) -> list[Item]:
    """A lever on top: its low end towards the mating end."""
    top, out = -half_wide(piece) * PER_MM, STANDS_OUT["tab"] * PER_MM
    a, b = (_at(piece, x, 0.08), _at(piece, x, 0.62)) if piece.long > 8 else (x, _at(piece, x, 1) + 2)
    return [
        Path(
            (("M", a, top), ("L", a + (b - a) * 0.35, top - out), ("L", b, top - out), ("L", b, top), ("Z",)),
            "dark",
        )
    ]


def _window(piece: Piece, x: float) -> list[Item]:
    return [
        Rect(
            _at(piece, x, 0.12),
            -half_wide(piece) * PER_MM,
            4.5 * PER_MM * min(1, piece.long / 20),
            2.2 * PER_MM,
            "solid",
            1,
        )
    ]


def _clip(piece: Piece, x: float) -> list[Item]:
    low, out = half_wide(piece) * PER_MM, STANDS_OUT["clip"] * PER_MM
    return [
        Path(
            (
                ("M", _at(piece, x, 0.06), low),
                ("L", _at(piece, x, 0.5), low + out * 0.45),
                ("L", _at(piece, x, 0.95), low + out),
            ),
            "heavy",
        )
    ]


def _dot(piece: Piece, x: float) -> list[Item]:
    return [
        Circle(
            _at(piece, x, 0.5 if piece.long > 5 else 0.5),
            -half_wide(piece) * PER_MM * 0.3,
            min(1.1 * PER_MM, piece.long * PER_MM * 0.45),
            "dot",
        )
    ]


def _lugs(piece: Piece, x: float) -> list[Item]:
    r, out = half_wide(piece) * PER_MM, STANDS_OUT["lugs"] * PER_MM
    at = _at(piece, x, 0.42)
    return [
        Rect(at, -r - out, 2 * PER_MM, out + 1, "solid"),
        Rect(at, r - 1, 2 * PER_MM, out + 1, "solid"),
        Circle(at + PER_MM, 0, PER_MM, "solid"),
    ]


def _slot(piece: Piece, x: float) -> list[Item]:
    """A bayonet's slot: in from the front, then round to its end."""
    r = half_wide(piece) * PER_MM
    steps = (
        ("M", x, r * 0.45),
        ("L", _at(piece, x, 0.22), r * 0.45),
        ("L", _at(piece, x, 0.5), -r * 0.3),
        ("L", _at(piece, x, 0.6), -r * 0.3),
    )
    return [Path(steps, "cut"), Circle(_at(piece, x, 0.6), -r * 0.3, 1.1 * PER_MM, "solid")]


def _key(piece: Piece, x: float) -> list[Item]:
    r = half_wide(piece) * PER_MM
    return [Rect(x, -r * 0.12, piece.long * PER_MM * 0.8, r * 0.24, "solid", 1)]


def _screws(piece: Piece, x: float) -> list[Item]:
    """Two screws: heads behind a hood, threads in front of it; hex posts on a plate."""
    items: list[Item] = []
    for side in (-1, 1):
        y = side * (half_wide(piece) - 3.2) * PER_MM
        if piece.long > 10:
            items += [
                Rect(x - 5 * PER_MM, y - 1.3 * PER_MM, 5 * PER_MM, 2.6 * PER_MM, "metal"),
                _head(piece, x, side),
            ]
        else:
            items.append(Rect(x - 5 * PER_MM, y - 2.4 * PER_MM, 5 * PER_MM, 4.8 * PER_MM, "metal", 1))
    return items


def _head(piece: Piece, x: float, side: int) -> Path:
    """The head of a screw, as far as it shows behind the shoulder of a hood."""
    (a, high), (b, low) = shoulder(piece)
    outer, inner, end = high - 0.6, high - 5.8, a + 7

    def where(y: float) -> float:  # the shoulder is there at this height
        return a + (b - a) * (high - y) / (high - low)

    foot = max(high - (high - low) * (end - a) / (b - a), inner)
    spots = [
        (where(outer), outer),
        (end, outer),
        (end, foot),
        *([(where(inner), inner)] if foot == inner else []),
    ]
    return polyline([(x + along * PER_MM, side * out * PER_MM) for along, out in spots], "metal", True)


def _inside_thread(piece: Piece, x: float) -> list[Item]:
    """The thread of a collar that turns, as a drawing shows what is hidden: broken lines at its open end."""
    r = half_wide(piece) * PER_MM
    return [
        Line(x + n * 1.1 * PER_MM, -r * 0.78, x + (n + 0.5) * 1.1 * PER_MM, r * 0.78, "line")
        for n in range(1, 4)
    ]


def _insulator(piece: Piece, x: float) -> list[Item]:
    r = half_wide(piece) * PER_MM
    return [Rect(x, -r, 1.3 * PER_MM, 2 * r, "insulator")]


def _latch(piece: Piece, x: float) -> list[Item]:
    top, out = -half_wide(piece) * PER_MM, STANDS_OUT["latch"] * PER_MM
    return [
        polyline(
            [(_at(piece, x, 0.1), top), (_at(piece, x, 0.4), top - out), (_at(piece, x, 0.45), top)],
            "metal",
            True,
        )
    ]


def _stripe(piece: Piece, x: float) -> list[Item]:
    r = half_wide(piece) * PER_MM
    return [Line(x, r * 0.5, _at(piece, x, 1), r * 0.5, "heavy")]


MARKED: dict[str, Callable[[Piece, float], list[Item]]] = {
    "latch": _latch,
    "tab": _tab,
    "window": _window,
    "clip": _clip,
    "dot": _dot,
    "lugs": _lugs,
    "slot": _slot,
    "key": _key,
    "screws": _screws,
    "inside-thread": _inside_thread,
    "insulator": _insulator,
    "stripe": _stripe,
}
