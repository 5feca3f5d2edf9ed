"""An unbalanced and a balanced run: where the hum comes in, and why two wires lose it again."""

from __future__ import annotations

from generator.drawing.figures.strokes import arrow, both, box, hum, sound, wave
from generator.drawing.layout import Block, paragraph, picture, stack
from generator.drawing.scene import MARGIN, WIDE, Item, Line, Rect, Scene, Text

SIDE, LEAD, LONG = 62, 82, 98  # a device's width; where the wave of a wire begins, and how long it is
OUT = 214  # where the input stands


def balance(unbalanced: str, balanced: str, length: str) -> Scene:
    """`unbalanced` and `balanced` say how far below the sound the hum lies, for the same run of `length`."""
    desc = (
        f"Two runs of {length} between the same two devices; hum lies between their cases. Unbalanced: one "
        "wire, and its way back is the screen, so the hum of the screen is added to the sound: hum "
        f"{unbalanced} below it. Balanced: two wires with equal hum and opposite sound; the input takes the "
        f"difference, and the hum is gone from it: hum {balanced} below the sound."
    )
    return picture(
        "One wire or two",
        f"{length}, hum between the two cases",
        desc,
        [
            stack(
                [
                    paragraph("Unbalanced: the screen is the way back, and its hum is added.", weight="bold"),
                    Block(tuple(_one()), 112),
                    paragraph(f"The hum lies {unbalanced} below the sound."),
                ],
                gap=3,
            ),
            stack(
                [
                    paragraph(
                        "Balanced: the same hum on both wires, and the input takes the difference.",
                        weight="bold",
                    ),
                    Block(tuple(_two()), 152),
                    paragraph(f"The hum lies {balanced} below the sound."),
                ],
                gap=3,
            ),
            paragraph("Waves are sketches, not to scale.", look="quiet"),
        ],
    )


def _ends(high: float, name: str) -> list[Item]:
    return [
        *box(MARGIN, 6, SIDE - MARGIN, high, "out"),
        *box(OUT, 6, 34, high, name),
        *arrow(OUT + 36, 6 + high / 2, OUT + 48, 6 + high / 2),
    ]


def _screen(y: float, words: str) -> list[Item]:
    return [
        Line(SIDE, y, OUT, y, "screen"),
        wave(hum, LEAD, y, LONG, 10, "line"),
        Text(LEAD + LONG / 2, y + 27, words, 12, "middle", look="quiet"),
    ]


def _heard(shape, y: float) -> list[Item]:
    return [wave(shape, OUT + 50, y, WIDE - MARGIN - OUT - 50, 16)]


def _one() -> list[Item]:
    return [
        *_ends(84, "in"),
        Line(SIDE, 30, OUT, 30, "hair"),
        wave(sound, LEAD, 30, LONG, 16),
        *_screen(76, "hum in the screen"),
        *_heard(both, 48),
    ]


def _two() -> list[Item]:
    wires: list[Item] = []
    for y, contact, shape in ((28, "2", both), (76, "3", lambda share: hum(share) - sound(share))):
        wires += [
            Line(SIDE, y, OUT, y, "hair"),
            wave(shape, LEAD, y, LONG, 14),
            Text(SIDE + 5, y - 5, contact, 12, weight="bold"),
        ]
    return [
        *_ends(128, ""),
        *wires,
        *_screen(118, "hum in the screen"),
        *_heard(sound, 70),
        Rect(OUT + 6, 22, 22, 12, "window", 2),
        Rect(OUT + 6, 70, 22, 12, "window", 2),
        Text(OUT + 17, 33, "+", 12, "middle"),
        Text(OUT + 17, 81, "−", 12, "middle"),
    ]
