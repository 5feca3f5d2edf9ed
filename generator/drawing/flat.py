"""Rectangular faces. Two contacts stand side by side; longer rows are turned a quarter, so that every contact
has a line for its name and its word beside it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations, pairwise
from math import hypot

from generator.catalogue.records import Connector
from generator.drawing import text
from generator.drawing.contacts import NUMERAL, RING, Slot, contact, numeral, ring, wire
from generator.drawing.layout import ROOM, Block
from generator.drawing.scene import SMALLEST, WIDE, Circle, Group, Item, Line, Rect, Text, polyline
from generator.drawing.sides import Place, facing, painted, places

PITCH = 34  # px from contact to contact along a turned row
SLOPE = 0.18  # how far the sides of a D lean in, as a share of its height
CUT = 0.28  # of the shorter side, off each of two corners
MIDDLE = WIDE / 2
WORD, ROOMY = 13, 70  # px: type size of a word, and the room from which on it is not set smaller


def flat(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> Block:
    """The face of one half from one side."""
    spots = places(connector, half, view)
    return (
        _pair(connector, half, view, roles, spots)
        if len(spots) <= 2
        else _turned(connector, half, view, roles, spots)
    )


def turned(connector: Connector) -> bool:
    """Is its face shown turned a quarter?"""
    return connector.shape == "rectangular" and len(connector.contacts) > 2


def _sizes(connector: Connector) -> tuple[float, float]:
    return tuple(max(part.sizes[size] for part in connector.halves.values()) for size in ("width", "height"))


def _pair(
    connector: Connector, half: str, view: str, roles: Mapping[str, str], spots: Mapping[str, Place]
) -> Block:
    wide, high = _sizes(connector)
    scale = min(ROOM / wide, 150 / high)
    tall = high * scale
    items: list[Item] = []
    outline = connector.looks.get("outline")
    if outline != "wires":
        items.append(
            Rect(
                -wide / 2 * scale,
                -tall / 2,
                wide * scale,
                tall,
                "plate" if view == "solder" or half == "female" else "metal",
                10,
            )
        )
    if connector.key_angle is not None:
        x, y = facing(connector.key_angle, half, view)
        kind = connector.outside.keyed.get(half, "ridge")
        there = Rect(x * wide / 2 * scale - 16, y * tall / 2 - 4, 32, 8, "window", 2)
        items.append(Group((there,), title=f"key: {kind}"))
    for name, (x, y) in spots.items():
        disc = min(max(connector.halves[half].sizes.get("pin", 4) / 2 * scale, 17), 26)
        drawn = (
            _wire_end(x * scale, y * scale, disc)
            if outline == "wires"
            else painted(half, view, x * scale, y * scale, disc)
        )
        label = Text(x * scale, -tall / 2 - 12, name, NUMERAL, "middle", "bold")
        slot = Slot(x * scale, tall / 2 + 22, "middle", 17, ROOM / 2 - 6)
        lead = wire([(x * scale, y * scale + disc + RING), (x * scale, tall / 2 + 6)])
        items.append(
            contact(
                name,
                roles.get(name),
                slot,
                drawn,
                [ring(x * scale, y * scale, disc), lead],
                [label],
                bool(roles),
            )
        )
    top = tall / 2 + 42
    return Block((Group(tuple(items), MIDDLE, top),), top + tall / 2 + 44)


def _wire_end(x: float, y: float, disc: float) -> list[Item]:
    """The end of a wire: its insulation, and the strands inside."""
    strands = [
        (0, 0),
        *(
            (0.5 * disc * dx, 0.5 * disc * dy)
            for dx, dy in ((1, 0), (0.5, 0.87), (-0.5, 0.87), (-1, 0), (-0.5, -0.87), (0.5, -0.87))
        ),
    ]
    return [
        Circle(x, y, disc, "block"),
        *(Circle(x + dx, y + dy, disc * 0.24, "metal") for dx, dy in strands),
    ]


def _turned(
    connector: Connector, half: str, view: str, roles: Mapping[str, str], spots: Mapping[str, Place]
) -> Block:
    """A quarter to the right: what was above is at the right, what was at the left is above."""
    wide, high = _sizes(connector)
    rows = {round(y, 2) for _, y in spots.values()}
    closest = min(
        b - a for row in rows for a, b in pairwise(sorted(x for x, y in spots.values() if round(y, 2) == row))
    )
    scale = PITCH / closest
    placed = {name: (-y * scale, x * scale) for name, (x, y) in spots.items()}
    shell = min(high * scale, 84 if len(rows) > 1 else 110)
    squeezed = shell / (high * scale)  # a tall shell is drawn flatter, so that its words find room
    placed = {name: (x * squeezed, y) for name, (x, y) in placed.items()}
    apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(placed.values(), 2))
    disc = min(max(connector.halves[half].sizes.get("pin", 1) / 2 * scale, 7), 10, apart * 0.3)
    items: list[Item] = [Group(tuple(_shell(connector, half, view, wide * scale, shell)))]
    sides = {name: -1 if x < -1 and len(rows) > 1 else 1 for name, (x, _) in placed.items()}
    rooms = {
        sign: min(max(text.width(name, NUMERAL, "bold") for name in sides if sides[name] == sign), 46)
        for sign in set(sides.values())
    }
    middle = MIDDLE if len(rows) > 1 else shell / 2 + 36
    for name, (x, y) in placed.items():
        sign, room = sides[name], rooms[sides[name]]
        start = sign * (shell / 2 + 10)
        figure = numeral(name, start, y, room, "start" if sign > 0 else "end")
        beside = start + sign * (room + 5)
        free = (WIDE - middle if sign > 0 else middle) - abs(beside) - 4
        slot = Slot(beside, y, "start" if sign > 0 else "end", WORD if free > ROOMY else SMALLEST, free)
        paths: list[Item] = [ring(x, y, disc - RING / 2)]
        lead = wire([(x + sign * (disc + 2), y), (start - sign * 3, y)])
        drawn = painted(half, view, x, y, disc - 2)
        items.append(
            contact(
                name,
                roles.get(name),
                slot,
                drawn,
                [*paths, lead] if roles else [*paths, Line(lead.steps[0][1], y, lead.steps[1][1], y)],
                [figure],
                bool(roles),
            )
        )
    tall = wide * scale
    return Block((Group(tuple(items), middle, tall / 2 + 14),), tall + 28)


def _shell(connector: Connector, half: str, view: str, long: float, wide: float) -> list[Item]:
    """The outline, turned a quarter to the right."""
    look = "plate" if view == "solder" else "metal" if half == "male" else "heavy"
    outline = connector.looks.get("outline")
    if outline == "D":  # the longer row at the right
        lean, x, y = SLOPE * wide, wide / 2, long / 2
        return [polyline([(x, -y), (x, y), (-x, y - lean), (-x, lean - y)], look, True)]
    if outline == "cut corners":  # those above, so at the right
        c, x, y = CUT * min(wide, long), wide / 2, long / 2
        return [polyline([(-x, -y), (x - c, -y), (x, c - y), (x, y - c), (x - c, y), (-x, y)], look, True)]
    items: list[Item] = [Rect(-wide / 2, -long / 2, wide, long, look, wide / 2 if outline == "oval" else 6)]
    if connector.key_angle is not None:
        x, y = facing(connector.key_angle, half, view)
        kind = connector.outside.keyed.get(half, "ridge")
        turned_x, turned_y = -y * wide / 2, x * long / 2
        items.append(
            Group(
                (Rect(turned_x - 9, turned_y - 34, 18, 68, "block" if kind == "tab" else "window", 3),),
                title="key: the tab to press" if kind == "tab" else f"key: {kind}",
            )
        )
    return items
