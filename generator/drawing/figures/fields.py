"""Three fields beside a lead: how each gets in, and what stops it."""

from __future__ import annotations

from math import pi, sin

from generator.drawing.figures.strokes import arrow, wave
from generator.drawing.layout import Block, paragraph, picture, stack
from generator.drawing.scene import MARGIN, WIDE, Circle, Item, Line, Path, Rect, Scene, Text

TALL = 108
RIGHT = WIDE - MARGIN


def fields(magnetic: str, radio: str) -> Scene:
    """`magnetic` says what the screen and the twist do against that field, `radio` what helps against it."""
    parts = (
        (
            "Electric: from live wires",
            _electric(),
            "It ends on the screen. Any whole screen that is joined to ground stops it.",
        ),
        ("Magnetic: from current", _magnetic(), magnetic),
        ("Radio: from whatever transmits", _radio(), radio),
    )
    desc = " ".join(f"{name}. {says}" for name, _, says in parts)
    return picture(
        "Three fields, and what stops each",
        "",
        f"Three sketches. {desc}",
        [
            stack([paragraph(name, weight="bold"), Block(tuple(items), TALL), paragraph(says)], gap=3)
            for name, items, says in parts
        ],
    )


def _lead(y: float) -> list[Item]:
    """A lead from the side: the screen around two cores."""
    return [
        Rect(MARGIN, y - 13, RIGHT - MARGIN, 26, "envelope", 12),
        Line(MARGIN, y - 4, RIGHT, y - 4, "core-1"),
        Line(MARGIN, y + 4, RIGHT, y + 4, "core-2"),
    ]


def _electric() -> list[Item]:
    """Field lines run from the live wire and end on the screen."""
    items: list[Item] = [
        Line(MARGIN, 14, RIGHT, 14, "heavy"),
        Text(MARGIN, 32, "live wire", 12, look="quiet"),
        *_lead(88),
    ]
    for x in range(96, 300, 34):
        items += arrow(x, 18, x, 72, "line")
    return items


def _magnetic() -> list[Item]:
    """Rings round the current go through the screen; each half turn of the twist undoes the last."""
    items: list[Item] = [
        Line(MARGIN, 14, RIGHT, 14, "heavy"),
        *arrow(RIGHT - 60, 14, RIGHT - 30, 14),
        Text(MARGIN, 32, "current", 12, look="quiet"),
    ]
    turn = (RIGHT - MARGIN) / 6
    for x in (MARGIN + turn * (i + 0.5) for i in (1, 3, 5)):  # round a sign each, through none
        items.append(
            Path(
                (("M", x, 8), ("C", x - 40, 8, x - 40, 104, x, 104), ("C", x + 40, 104, x + 40, 8, x, 8)),
                "dots",
            )
        )
    items.append(Rect(MARGIN, 73, RIGHT - MARGIN, 30, "envelope", 12))
    items += [
        wave(lambda share, side=side: side * sin(6 * pi * share), MARGIN, 88, RIGHT - MARGIN, 10, look)
        for side, look in ((1, "core-1"), (-1, "core-2"))
    ]
    return items + [
        Text(MARGIN + turn * (i + 0.5), 92, "+" if i % 2 == 0 else "−", 12, "middle") for i in range(6)
    ]


def _radio() -> list[Item]:
    """Waves run along the outside of the lead; a ferrite and a whole screen keep them off the cores."""
    items: list[Item] = [
        Line(40, 20, 40, 50, "heavy"),
        Circle(40, 18, 3, "solid"),
        Circle(40, 18, 9, "hair"),
        Text(62, 16, "transmitter", 12, look="quiet"),
        *_lead(88),
    ]
    items.append(wave(lambda share: sin(10 * pi * share), 62, 44, 150, 9, "line"))
    items += arrow(212, 44, 212, 72, "line")
    items += [Rect(250, 68, 34, 40, "block", 4), Text(267, 60, "ferrite", 12, "middle")]
    return items
