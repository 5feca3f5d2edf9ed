"""What the teaching pictures are made of: arrows, boxes with a name, and waves, which are never to scale."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sin

from generator.drawing.scene import SMALLEST, Item, Path, Rect, Text, polyline
from generator.drawing.text import ASCENT, wrap

HEAD = 5  # half the width of an arrow's head
SLOW, FAST = 2.0, 12.0  # periods over the width of a wave: the sound, and the hum that rides on it

Wave = Callable[[float], float]


def arrow(x0: float, y0: float, x1: float, y1: float, look: str = "heavy") -> list[Item]:
    """A straight arrow, level or upright, its head at (x1, y1)."""
    dx, dy = (x1 > x0) - (x1 < x0), (y1 > y0) - (y1 < y0)
    barb = [
        (x1 - HEAD * 1.4 * dx - HEAD * side * dy, y1 - HEAD * 1.4 * dy - HEAD * side * dx) for side in (1, -1)
    ]
    return [polyline([(x0, y0), (x1, y1)], look), polyline([barb[0], (x1, y1), barb[1]], look)]


def sound(share: float) -> float:
    return sin(2 * pi * SLOW * share)


def hum(share: float) -> float:
    return 0.45 * sin(2 * pi * FAST * share)


def both(share: float) -> float:
    return sound(share) + hum(share)


def wave(shape: Wave, x: float, y: float, wide: float, high: float, look: str = "core-1") -> Path:
    """`shape` (0..1 -> about -1..1) drawn around the line y, `high` pixels up for 1."""
    steps = 96
    return polyline([(x + wide * i / steps, y - high * shape(i / steps)) for i in range(steps + 1)], look)


def box(x: float, y: float, wide: float, high: float, name: str) -> list[Item]:
    """A device with its name in the middle."""
    lines = wrap(name, SMALLEST, wide - 6)
    top = y + high / 2 - len(lines) * SMALLEST * 0.6
    words = [
        Text(x + wide / 2, top + SMALLEST * (ASCENT + 1.2 * i), line, SMALLEST, "middle")
        for i, line in enumerate(lines)
    ]
    return [Rect(x, y, wide, high, "device", 5), *words]
