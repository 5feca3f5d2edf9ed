"""The five verdicts as marks: each its own silhouette, a sign inside and a word beside it.

Fills are from the Okabe-Ito palette (looks.py cites it); signs on them are black and words are the
page's ink, and both keep a contrast of 4.5 : 1 or more (WCAG 2, success criterion 1.4.3), so nothing
hangs on telling colours apart.
"""

from __future__ import annotations

from math import cos, pi, sin

from generator.drawing import svg, text
from generator.drawing.scene import HEAD, Circle, Group, Item, Line, Path, Rect, Scene, Text, polyline

SIZE = 28
WORDS = {
    "safe": "works",
    "lossy": "works, loses something",
    "no signal": "will not work",
    "dangerous": "do not connect",
    "does not fit": "not a connection",
}


def _burst(points: int, outer: float, inner: float) -> Path:
    reach = [outer if number % 2 == 0 else inner for number in range(2 * points)]
    return polyline(
        [(r * sin(pi * n / points), -r * cos(pi * n / points)) for n, r in enumerate(reach)],
        "dangerous",
        True,
    )


def _safe() -> list[Item]:
    return [Circle(0, 0, 12, "safe"), polyline([(-5.5, 0.5), (-1.5, 5), (6, -5)], "glyph")]


def _lossy() -> list[Item]:  # a drop with its level fallen
    drop = (
        ("M", 0, -13),
        ("C", 4, -6, 11, -1, 11, 4),
        ("A", 11, 9, 0, 0, 1, -11, 4),
        ("C", -11, -1, -4, -6, 0, -13),
        ("Z",),
    )
    return [Path(drop, "lossy"), polyline([(-5, 2), (0, 7), (5, 2)], "glyph"), Line(0, -3, 0, 6.5, "glyph")]


def _no_signal() -> list[Item]:  # a flat line
    return [Rect(-13, -7.5, 26, 15, "no-signal", 3), Line(-8, 0, 8, 0, "glyph")]


def _dangerous() -> list[Item]:
    return [_burst(8, 14, 9.5), Line(0, -6, 0, 1.5, "glyph"), Line(0, 6, 0, 6.1, "glyph")]


def _does_not_fit() -> list[Item]:  # two halves that miss each other
    upper = polyline([(-13, -12), (-1, -12), (-1, 3), (-13, 3)], "does-not-fit", True)
    lower = polyline([(2, -3), (13, -3), (13, 12), (2, 12)], "does-not-fit", True)
    return [upper, lower, Line(-9, -4.5, -5, -4.5, "glyph"), Line(5.5, 4.5, 9.5, 4.5, "glyph")]


_SHAPES = {
    "safe": _safe,
    "lossy": _lossy,
    "no signal": _no_signal,
    "dangerous": _dangerous,
    "does not fit": _does_not_fit,
}


def shape(verdict: str, x: float, y: float) -> Group:
    """The mark alone, `SIZE` across, centred on (x, y). Raises ValueError for a word that is no verdict."""
    if verdict not in _SHAPES:
        raise ValueError(f"'{verdict}' is not a verdict; it is one of {', '.join(_SHAPES)}")
    return Group(tuple(_SHAPES[verdict]()), x, y, title=verdict)


def mark(verdict: str, prefix: str, word: bool = True, standalone: bool = False) -> str:
    """SVG of a verdict's mark, with the word beside it unless `word` is False (the caller then writes it)."""
    items: list[Item] = [shape(verdict, SIZE / 2 + 1, SIZE / 2 + 1)]
    wide = SIZE + 2.0
    if word:
        items.append(Text(SIZE + 8, SIZE / 2 + 1 + HEAD * 0.36, verdict, HEAD, weight="bold"))
        wide = text.box(items[-1]).right + 4
    scene = Scene(
        round(wide + 0.5), SIZE + 2, verdict.capitalize(), WORDS[verdict].capitalize() + ".", tuple(items)
    )
    return svg.write(scene, prefix, standalone)
