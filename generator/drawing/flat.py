"""Rectangular connectors: contacts in rows on a flat face, numbered at their places, what they carry listed below."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import hypot

from generator.catalogue.records import Connector
from generator.drawing import text
from generator.drawing.layout import ROOM, ROW, Block, listed, named
from generator.drawing.scene import BODY, MARGIN, SMALLEST, WIDE, Group, Item, Line, Rect, Text, polyline
from generator.drawing.sides import Place, facing, painted, places

HIGHEST = 110  # of the shell in pixels
SLOPE = 0.18  # how far the sides of a D lean in, as a share of its height
COLUMNS = (3, 2, 1)
LIFT = 9
TIGHT = 2  # pixels between two numbers below which they read as one


def flat(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> tuple[Block, str]:
    """The block of one half from one side, and the contacts in words."""
    spots = places(connector, half, view)
    wide, high = (max(part.sizes[size] for part in connector.halves.values()) for size in ("width", "height"))
    scale = min(ROOM / wide, HIGHEST / high)
    size = connector.halves[half].sizes
    shell = (size["width"] * scale, size["height"] * scale)
    apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(spots.values(), 2)) * scale
    widest = max(part.sizes.get("pin", 0) for part in connector.halves.values())
    pin = min(max(widest / 2 * scale, 3), 14, apart * 0.32)
    rows = sorted({round(y, 2) for _, y in spots.values()})
    lifted = _lifted(spots, scale)
    clear = pin + ROW + (LIFT if lifted else 0)
    reach = max(shell[1] / 2, rows[-1] * scale + clear, -rows[0] * scale + clear)
    items: list[Item] = [*_shell(connector, half, view, *shell)]
    items += [Group((*painted(half, view, x * scale, y * scale, pin), *_number(contact, x * scale, y * scale, pin, rows, contact in lifted)),
                    title=f"contact {named(contact, roles.get(contact))}") for contact, (x, y) in spots.items()]
    legend = _legend({contact: roles[contact] for contact in connector.contacts if contact in roles}, 2 * reach + 14)
    block = Block((Group(tuple(items), WIDE / 2, reach + 6), *legend.items), 2 * reach + 12 + legend.height)
    lines = [listed([named(c, roles.get(c)) for c in sorted(spots, key=lambda c: spots[c][0]) if round(spots[c][1], 2) == row])
             for row in rows]
    return block, f"Contacts row by row, each from left to right: {'; '.join(lines)}."


def _lifted(spots: Mapping[str, Place], scale: float) -> set[str]:
    """Every second contact of a row whose numbers would run into one another."""
    lifted: set[str] = set()
    for row in {round(y, 2) for _, y in spots.values()}:
        line = sorted((x * scale, contact) for contact, (x, y) in spots.items() if round(y, 2) == row)
        for (x1, one), (x2, two) in zip(line, line[1:]):
            gap = x2 - x1 - (text.width(one, SMALLEST, "bold") + text.width(two, SMALLEST, "bold")) / 2
            if gap < TIGHT and one not in lifted:
                lifted.add(two)
    return lifted


def _number(contact: str, x: float, y: float, pin: float, rows: list[float], lifted: bool) -> list[Item]:
    """Above the contacts of the upper row, below those of the lower one; a lifted one farther out, at the end of a thin line."""
    way = -1 if y < 0 or len(rows) == 1 else 1
    near = y + way * (pin + 3)
    far = near + way * LIFT if lifted else near
    line = [Line(x, near, x, far, "hair")] if lifted else []
    return [*line, Text(x, far if way < 0 else far + SMALLEST - 3, contact, SMALLEST, "middle", "bold")]


def _shell(connector: Connector, half: str, view: str, wide: float, high: float) -> list[Item]:
    outline = connector.looks.get("outline")
    if outline == "wires":
        return []
    look = "plate" if view == "solder" else "metal" if half == "male" else "heavy"
    if outline == "D":  # the longer row above
        lean, x, y = SLOPE * high, wide / 2, high / 2
        return [polyline([(-x, -y), (x, -y), (x - lean, y), (lean - x, y)], look, True)]
    items: list[Item] = [Rect(-wide / 2, -high / 2, wide, high, look, high / 2 if outline == "oval" else 5)]
    if connector.key_angle is not None:
        items.append(_key(facing(connector.key_angle, half, view), wide, high))
    return items


def _key(way: Place, wide: float, high: float) -> Group:
    """A bar on the edge the key stands at."""
    x, y = way[0] * wide / 2, way[1] * high / 2
    long, thick = (10, 24) if abs(way[0]) > abs(way[1]) else (24, 10)
    return Group((Rect(x - long / 2, y - thick / 2, long, thick, "solid", 2),), title="key")


def _legend(roles: Mapping[str, str], top: float) -> Block:
    """`13 spare`, in as many columns as keep them apart, read down each column."""
    if not roles:
        return Block((), 0)
    longest = max(text.box(Text(0, 0, role, strong=contact)).right for contact, role in roles.items())
    columns = next(n for n in COLUMNS if longest + 10 <= ROOM / n or n == 1)
    deep = -(-len(roles) // columns)
    items = tuple(Text(MARGIN + (number // deep) * ROOM / columns, top + ROW * (number % deep + 0.8), role, BODY, strong=contact)
                  for number, (contact, role) in enumerate(roles.items()))
    return Block(items, deep * ROW + 8)
