"""Circuit symbols in the manner of IEC 60617 (shapes from memory, the standard was not seen),
drawn upright around (0, 0).

Their leads end at y = -HALF and y = +HALF.
"""

from __future__ import annotations

from generator.drawing.scene import Circle, Item, Line, Path, Rect, polyline

HALF = 22
# the letters usual on circuit diagrams
LETTER = {"resistor": "R", "capacitor": "C", "inductor": "L", "emf": "E", "sink": "I", "clamp": "D"}
NOUN = {
    "resistor": "resistor",
    "capacitor": "capacitor",
    "inductor": "inductor",
    "emf": "battery or source",
    "sink": "current sink",
    "clamp": "clamp diode",
    "transformer": "transformer",
}
BUMP = 5


def symbol(kind: str) -> list[Item]:
    """The symbol of a two-terminal part, its first terminal at the top."""
    return {
        "resistor": _resistor,
        "capacitor": _capacitor,
        "inductor": _inductor,
        "emf": _emf,
        "sink": _sink,
        "clamp": _clamp,
    }[kind]()


def _leads(inner: float) -> list[Item]:
    return [Line(0, -HALF, 0, -inner), Line(0, inner, 0, HALF)]


def _resistor() -> list[Item]:
    return [*_leads(13), Rect(-5.5, -13, 11, 26, "line")]


def _capacitor() -> list[Item]:
    return [*_leads(3), Line(-10, -3, 10, -3, "heavy"), Line(-10, 3, 10, 3, "heavy")]


def _inductor() -> list[Item]:
    return [*_leads(15), coil(0, -15, 3, upright=True)]


def _emf() -> list[Item]:
    return [
        *_leads(3),
        Line(-11, -3, 11, -3),
        Line(-5, 3, 5, 3, "heavy"),
        Line(7, -12, 13, -12),
        Line(10, -15, 10, -9),
    ]


def _sink() -> list[Item]:
    return [*_leads(11), Circle(0, 0, 11), Line(0, -6, 0, 6), polyline([(-3.5, 1.5), (0, 6), (3.5, 1.5)])]


def _clamp() -> list[Item]:
    return [
        *_leads(7),
        polyline([(-8, -7), (8, -7), (0, 7)], closed=True),
        polyline([(-11, 3), (-8, 7), (8, 7), (11, 11)]),
    ]


def coil(x: float, y: float, bumps: int, upright: bool = False, side: int = 1) -> Path:
    """A winding: half circles in a row from (x, y), bulging to one side."""
    steps: list[tuple] = [("M", x, y)]
    for number in range(1, bumps + 1):
        along = 2 * BUMP * number
        end = (x, y + along) if upright else (x + along, y)
        steps.append(("A", BUMP, BUMP, 0, 0, 1 if side > 0 else 0, *end))
    return Path(tuple(steps), "line")
