"""A drawing before it is written down: plain shapes at known places. No connector, no
wire and no SVG in here.

Units are pixels on a 320-pixel-wide phone; x runs right, y runs down. A shape's `look` names how
it is painted (looks.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

WIDE = 320  # every picture is this wide or narrower, so text keeps its size on the smallest phone
MARGIN = 12
SMALLEST = 12  # no text is set smaller than this
BODY, HEAD = 13, 15


@dataclass(frozen=True)
class Box:
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(frozen=True)
class Line:
    x1: float
    y1: float
    x2: float
    y2: float
    look: str = "line"


@dataclass(frozen=True)
class Circle:
    x: float
    y: float
    radius: float
    look: str = "line"


@dataclass(frozen=True)
class Rect:
    x: float
    y: float
    width: float
    height: float
    look: str = "line"
    corner: float = 0


@dataclass(frozen=True)
class Path:
    """Steps are (command, x, y, ...) with absolute SVG path commands M, L, C, Q, A, Z."""

    steps: tuple[tuple, ...]
    look: str = "line"


@dataclass(frozen=True)
class Text:
    """One line; x is where `anchor` (start, middle, end) says, y the baseline.
    `strong` is a bold beginning."""

    x: float
    y: float
    words: str
    size: float = BODY
    anchor: str = "start"
    weight: str = "normal"
    look: str = "ink"
    strong: str = ""


@dataclass(frozen=True)
class Group:
    """Shapes that belong together, `scale` times as large, turned clockwise by `turn` degrees, then
    moved by (x, y). `title` is what a reader hovering over them, or hearing them, is told. The group of
    a contact has its `name`, and the `slot` where its role is written: x and y of the middle of the
    lines, anchor, size, room."""

    items: tuple[Item, ...]
    x: float = 0
    y: float = 0
    title: str | None = None
    turn: float = 0
    name: str | None = None
    slot: tuple[float, float, str, float, float] | None = None
    scale: float = 1


Item = Line | Circle | Rect | Path | Text | Group


@dataclass(frozen=True)
class Scene:
    """A whole picture. `desc` says in words all that the picture shows. A `bare` one has no ground of
    its own even as a file."""

    width: float
    height: float
    title: str
    desc: str
    items: tuple[Item, ...]
    bare: bool = False


def polyline(points: Iterable[tuple[float, float]], look: str = "line", closed: bool = False) -> Path:
    """Straight strokes from point to point."""
    steps = [("L", *point) for point in points]
    steps[0] = ("M", *steps[0][1:])
    return Path((*steps, ("Z",)) if closed else tuple(steps), look)


def texts(items: Iterable[Item], x: float = 0, y: float = 0) -> Iterator[Text]:
    """Every text in the items, at its place on the canvas."""
    for item in items:
        if isinstance(item, Group):
            yield from texts(item.items, x + item.x, y + item.y)
        elif isinstance(item, Text):
            yield replace(item, x=item.x + x, y=item.y + y)
