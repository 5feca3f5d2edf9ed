"""Curves over a logarithmic axis, and bars in decibels. Curves differ by their pattern and are
named below; every number stands in a table too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log10

from generator.drawing.layout import BODY, Block, paragraph, picture, stack
from generator.drawing.scene import MARGIN, SMALLEST, WIDE, Item, Line, Rect, Scene, Text, polyline
from generator.drawing.text import ASCENT, block, wrap

LEFT, RIGHT, TALL = 44, WIDE - MARGIN - 8, 170
PATTERNS = ("core-1", "core-2", "core-3", "core-4", "core-6", "hair")
BAR, THIN = 14, 8


@dataclass(frozen=True)
class Curve:
    """Points (x, y) from left to right, and what the curve is."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Bar:
    """A path: its level before, and after a cure (None: not asked), both dB against the line of
    zero. `most` marks the one that dominates.
    """

    name: str
    before: float
    after: float | None = None
    most: bool = False


def plot(
    title: str,
    subtitle: str,
    across: str,
    up: str,
    xs: Sequence[float],
    ys: Sequence[float],
    curves: Sequence[Curve],
) -> Scene:
    """Curves over ticks `xs` (logarithmic, all above zero) and `ys` (even). Curves leave the frame
    where they leave the ticks.
    """
    x = _log_scale(xs[0], xs[-1])
    y = _even_scale(ys[0], ys[-1])
    items: list[Item] = [Rect(LEFT, 0, RIGHT - LEFT, TALL, "plate")]
    for value in xs:
        items += [
            Line(x(value), 0, x(value), TALL, "dots"),
            Text(x(value), TALL + 15, f"{value:g}", SMALLEST, "middle", look="quiet"),
        ]
    for value in ys:
        words = f"{value:g}".replace("-", "−")
        items += [
            Line(LEFT, y(value), RIGHT, y(value), "dots"),
            Text(LEFT - 6, y(value) + 4, words, SMALLEST, "end", look="quiet"),
        ]
    for curve, look in zip(curves, PATTERNS):
        inside = _clipped(curve.points, xs, ys)
        if len(inside) > 1:
            items.append(polyline([(x(a), y(b)) for a, b in inside], look))
    frame = Block(tuple(items), TALL + 20)
    said = " ".join(f"{curve.name}: {_ends(curve)}." for curve in curves)
    return picture(
        title,
        subtitle,
        f"{up} over {across}. {said}",
        [paragraph(up, look="quiet"), frame, paragraph(across, look="quiet"), _legend(curves)],
    )


def bars(
    title: str, subtitle: str, zero: str, rows: Sequence[Bar], low: float = -40.0, high: float = 60.0
) -> Scene:
    """A bar for each path from the left edge to its level, a thinner one below it for what a cure
    leaves; `zero` names the line at 0 dB.
    """

    def x(value: float) -> float:
        return LEFT / 3 + (min(max(value, low), high) - low) / (high - low) * (RIGHT - LEFT / 3)

    body = stack([_bar(row, x, low) for row in rows], gap=6)
    foot = Text(x(0), body.height + 16, zero, SMALLEST, "middle")
    return picture(title, subtitle, _told(rows, zero), [Block((*body.items, foot), body.height + 20)])


def _bar(row: Bar, x, low: float) -> Block:
    edge, words = x(low), f"{row.name} {_decibels(row.before)}{' (most)' if row.most else ''}"
    weight = "bold" if row.most else "normal"
    lines = wrap(words, BODY, RIGHT - edge, weight)
    items: list[Item] = list(block(lines, edge, 0, size=BODY, weight=weight))
    top = len(lines) * BODY * 1.25 + 4
    height = top + BAR + (THIN + 2 if row.after is not None else 0)
    if row.most and x(row.before) > edge:
        items.append(Rect(edge, top, x(row.before) - edge, BAR, "marked"))
    items.append(Rect(edge, top, x(row.before) - edge, BAR, "cup" if row.most else "metal"))
    if row.after is not None:
        items.append(Rect(edge, top + BAR + 2, x(row.after) - edge, THIN, "socket"))
    items.append(Line(x(0), top - 2, x(0), height + 2, "heavy"))
    return Block(tuple(items), height)


def _decibels(value: float) -> str:
    return f"{value:+.0f} dB".replace("-", "−")


def _told(rows: Sequence[Bar], zero: str) -> str:
    said = []
    for row in rows:
        after = "" if row.after is None else f", {_decibels(row.after)} after"
        said.append(f"{row.name} {_decibels(row.before)}{after}")
    return f"Levels against {zero}: {'; '.join(said)}."


def _legend(curves: Sequence[Curve]) -> Block:
    rows = []
    for curve, look in zip(curves, PATTERNS):
        lines = wrap(curve.name, BODY, RIGHT - MARGIN - 44)
        words = [Text(MARGIN + 44, BODY * ASCENT + 2 + i * BODY * 1.25, line) for i, line in enumerate(lines)]
        rows.append(Block((Line(MARGIN, 8, MARGIN + 36, 8, look), *words), len(lines) * BODY * 1.25))
    return stack(rows, gap=3)


def _ends(curve: Curve) -> str:
    (x0, y0), (x1, y1) = curve.points[0], curve.points[-1]
    return f"{y0:.1f} at {x0:g}, {y1:.1f} at {x1:g}".replace("-", "−")


def _log_scale(low: float, high: float):
    return lambda value: LEFT + (log10(value) - log10(low)) / (log10(high) - log10(low)) * (RIGHT - LEFT)


def _even_scale(low: float, high: float):
    return lambda value: TALL - (value - low) / (high - low) * TALL


def _clipped(points, xs: Sequence[float], ys: Sequence[float]) -> list[tuple[float, float]]:
    """The part of a curve inside the frame; it is cut where it crosses the lower or upper edge."""
    inside: list[tuple[float, float]] = []
    low, high = min(ys[0], ys[-1]), max(ys[0], ys[-1])
    for (x0, y0), (x1, y1) in pairwise(points):
        for edge in (low, high):
            if (y0 - edge) * (y1 - edge) < 0:
                share = (edge - y0) / (y1 - y0)
                cut = (10 ** (log10(x0) + share * (log10(x1) - log10(x0))), edge)
                (x0, y0), (x1, y1) = (cut, (x1, y1)) if not low <= y0 <= high else ((x0, y0), cut)
        if low <= y0 <= high and low <= y1 <= high and xs[0] <= x0 and x1 <= xs[-1]:
            inside += [(x0, y0), (x1, y1)] if not inside or inside[-1] != (x0, y0) else [(x1, y1)]
    return inside
