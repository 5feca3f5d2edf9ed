"""Coaxial faces: a contact in the middle and one around it."""

from __future__ import annotations

from collections.abc import Mapping

from generator.catalogue.records import Connector
from generator.drawing.contacts import RING, Slot, contact, ring, wire
from generator.drawing.layout import Block
from generator.drawing.scene import WIDE, Circle, Group, Item, Line, Path, Rect, Text
from generator.drawing.sides import painted

RADIUS = 96
LEFT = RADIUS + 12  # the middle of the face
COLUMN = 2 * RADIUS + 26  # where the names begin, beside it
NAME, WORD = 24, 16


def pinned(connector: Connector, half: str) -> bool:
    """Has this half the pin? A coaxial plug may go over the pin of its jack instead."""
    return "pin" in connector.halves[half].sizes


def coaxial(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> Block:
    """The face of one half from one side; alike from left and right."""
    centre, shell = connector.contacts[:2]
    sizes = {
        key: size
        for each in (*connector.halves.values(), connector.halves[half])
        for key, size in each.sizes.items()
    }
    across = sizes.get("diameter", 8.3)
    pin = max(min(RADIUS * sizes.get("pin", 3.2) / across, RADIUS * 0.42), 12)
    wall = 10.0
    around: list[Item] = [
        Circle(0, 0, RADIUS, "metal"),
        Circle(0, 0, RADIUS - wall, "floor"),
        *_marks(connector, half, view),
    ]
    foot = 6.0
    if view == "solder":
        lug = (
            ("M", -12, RADIUS - 4),
            ("L", -12, RADIUS + 12),
            ("A", 12, 12, 0, 0, 0, 12, RADIUS + 12),
            ("L", 12, RADIUS - 4),
        )
        around.append(Path(lug, "metal"))
        foot = 32.0
    elif half == "plug" and pinned(connector, half) and connector.looks.get("latch") != "bayonet":
        outer, inner = RADIUS * 0.71, (RADIUS - wall) * 0.71
        # petals
        around += [
            Line(sx * outer, sy * outer, sx * inner, sy * inner, "heavy") for sx in (-1, 1) for sy in (-1, 1)
        ]
    middle: list[Item] = painted("male" if pinned(connector, half) else "female", view, 0, 0, pin)
    if half == "plug" and not pinned(connector, half):  # a tube: the hole in it is what goes over the pin
        middle = [Circle(0, 0, pin * 1.5, "plate"), Circle(0, 0, pin, "hollow")]
    top = RADIUS + 14
    items: list[Item] = []
    for name, y, drawn, path, start in (
        (shell, 46, around, Circle(0, 0, RADIUS - wall / 2), (RADIUS * 0.9, RADIUS * 0.38)),
        (
            centre,
            -46,
            middle,
            ring(0, 0, pin * (1.5 if half == "plug" and not pinned(connector, half) else 1)),
            ((pin + RING) * 0.8, -(pin + RING) * 0.6),
        ),
    ):
        slot = Slot(COLUMN - LEFT, y + 24, "start", WORD, WIDE - COLUMN - 4)
        lead = wire([start, (COLUMN - LEFT - 6, y - 4)])
        made = contact(
            name,
            roles.get(name),
            slot,
            drawn,
            [path, lead] if roles else [path],
            [Text(COLUMN - LEFT, y + 4, name, NAME, "start", "bold")],
            bool(roles),
        )
        items.append(made)
    return Block((Group(tuple(items), LEFT, top),), top + RADIUS + foot)


def _marks(connector: Connector, half: str, view: str) -> list[Item]:
    """Studs of a bayonet, or the slots they go into."""
    if connector.looks.get("latch") != "bayonet" or view == "solder":
        return []
    if half == "jack":
        return [
            Group(
                tuple(Rect(x - 5, -8, 10, 16, "solid", 2) for x in (-RADIUS - 4, RADIUS + 4)),
                title="studs of the bayonet",
            )
        ]
    return [
        Group(
            tuple(Rect(x - 6, -9, 12, 18, "window", 2) for x in (-RADIUS + 4, RADIUS - 4)),
            title="slots of the bayonet",
        )
    ]
