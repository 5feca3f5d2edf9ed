"""Stereo into one balanced input: it takes the difference, and what left and right share is gone."""

from __future__ import annotations

from math import pi, sin

from generator.drawing.figures.strokes import arrow, box, sound, wave
from generator.drawing.layout import Block, paragraph, picture
from generator.drawing.scene import MARGIN, WIDE, Item, Line, Scene, Text

SPOT, WIDE_WAVE, HIGH = 96, 100, 16
TURN = 265  # below the middle of the input


def cancelling(left: str, right: str, difference: str, source: str) -> Scene:
    """`left`, `right` and `difference` are volts in words, for a voice of `source` alike on both sides."""
    rows = ((34, "left", "on 2", left), (94, "right", "on 3", right))
    items: list[Item] = []
    for y, side, contact, volts in rows:
        items += [
            Text(MARGIN, y - 3, "", strong=side),
            Text(MARGIN, y + 13, contact, 12),
            Line(SPOT - 34, y, SPOT + WIDE_WAVE + 8, y, "hair"),
            wave(sound, SPOT, y, WIDE_WAVE, HIGH),
            Text(SPOT + WIDE_WAVE / 2, y + 32, volts, 12, "middle"),
        ]
        items += arrow(SPOT + WIDE_WAVE + 8, y, SPOT + WIDE_WAVE + 24, y)
    items += box(
        SPOT + WIDE_WAVE + 26, 14, WIDE - MARGIN - SPOT - WIDE_WAVE - 26, 100, "the input takes 2 minus 3"
    )
    heard: list[Item] = [
        Line(TURN, -20, TURN, 30, "heavy"),
        *arrow(TURN, 30, SPOT + WIDE_WAVE + 8, 30),
        Line(SPOT, 30, SPOT + WIDE_WAVE, 30, "core-1"),
        Text(MARGIN, 27, "", strong="heard"),
        Text(MARGIN, 43, difference, 12),
    ]
    aside: list[Item] = [
        wave(lambda share: sin(2 * pi * 3.5 * share), SPOT, 16, WIDE_WAVE, 10),
        Text(MARGIN, 13, "", strong="room"),
        Text(MARGIN, 29, "stays", 12),
    ]
    return picture(
        "Stereo on a balanced pair",
        f"The same voice on both sides, {source}",
        f"Left on contact 2 and right on contact 3 carry the same voice, {left} and {right}. The input takes "
        f"2 minus 3: {difference} is heard of it. Only what differs between the sides, such as the room, "
        "stays.",
        [
            Block(tuple(items), 134),
            Block(tuple(heard), 50),
            Block(tuple(aside), 36),
            paragraph(
                "What differs between the sides, such as the room, stays. Waves are sketches.", look="quiet"
            ),
        ],
    )
