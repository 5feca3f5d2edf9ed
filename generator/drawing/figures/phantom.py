"""Phantom on a pair: at equal volts on both legs nothing flows through what lies between them."""

from __future__ import annotations

from dataclasses import dataclass

from generator.drawing.figures.strokes import arrow
from generator.drawing.layout import Block, paragraph, picture, stack
from generator.drawing.scene import MARGIN, WIDE, Circle, Item, Line, Rect, Scene, Text
from generator.drawing.symbols import coil

HOT, COLD, SCREEN = 30, 94, 138  # heights of the three conductors
COIL, INPUT, FEED, RAIL = (
    48,
    214,
    238,
    284,
)  # where they meet the microphone, the input, its resistors and its 48 V
JOIN = 200  # where the faulty joint is drawn
TALL = 172


@dataclass(frozen=True)
class Pair:
    """Both legs in words: volts on each, the current through what lies between them. `joined`: the cold leg
    is joined to the screen.
    """

    says: str
    hot: str
    cold: str
    through: str
    joined: bool = False


def phantom(alike: Pair, unlike: Pair) -> Scene:
    """The pair as it is meant, and with one leg joined to the screen."""
    told = " ".join(
        f"{one.says} Contact 2 stands at {one.hot}, contact 3 at {one.cold}; through the coil between them "
        f"flows {one.through}."
        for one in (alike, unlike)
    )
    return picture(
        "Equal volts on both legs",
        "",
        f"A microphone on an input with 48 V, drawn twice. {told}",
        [stack([paragraph(one.says), Block(tuple(_pair(one)), TALL)], gap=2) for one in (alike, unlike)],
    )


def _pair(pair: Pair) -> list[Item]:
    items: list[Item] = [
        Rect(MARGIN, 8, 70, 142, "device", 8),
        Rect(INPUT, 8, WIDE - MARGIN - INPUT, 142, "device", 5),
        Text(MARGIN + 35, 165, "microphone", 12, "middle"),
        Text((INPUT + WIDE - MARGIN) / 2, 165, "input", 12, "middle"),
    ]
    for leg in (HOT, COLD):
        items += [
            Line(COIL, leg, FEED, leg),
            Rect(FEED, leg - 6, 26, 12, "line"),
            Line(FEED + 26, leg, RAIL, leg),
        ]
    middle = (HOT + COLD) / 2
    items += [
        Line(COIL, HOT, COIL, middle - 15),
        coil(COIL, middle - 15, 3, upright=True, side=-1),
        Line(COIL, middle + 15, COIL, COLD),
        Line(RAIL, HOT, RAIL, COLD),
        Circle(RAIL, middle, 3, "solid"),
        Text(RAIL - 8, middle + 5, "48 V", 13, "end", "bold"),
        Line(MARGIN + 35, SCREEN, RAIL, SCREEN, "screen"),
    ]
    for y, contact, volts in (
        (HOT, "2 hot", pair.hot),
        (COLD, "3 cold", pair.cold),
        (SCREEN, "1 screen", "0 V"),
    ):
        items.append(Text(90, y - 7, volts, strong=contact))
    items += arrow(202, HOT + 12, 150, HOT + 12)
    if pair.joined:
        items += [
            Line(JOIN, COLD, JOIN, SCREEN, "heavy"),
            Circle(JOIN, COLD, 3.5, "solid"),
            Circle(JOIN, SCREEN, 3.5, "solid"),
            Line(COIL, HOT, COIL, COLD, "marked"),
            *arrow(COIL + 12, middle - 14, COIL + 12, middle + 14),
        ]
    else:
        items += arrow(202, COLD + 12, 150, COLD + 12)
    return [*items, Text(90, middle + 5, pair.through, strong="coil")]
