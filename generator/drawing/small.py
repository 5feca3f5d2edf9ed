"""Small pictures of a half beside a name: the face with its numbers, as one holds it against the plug in the
hand, and the side view.

A face of a few contacts bears their numbers; of many, only the first and the last of each row, for nobody
reads more at this size.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import hypot

from generator.catalogue.records import Connector
from generator.drawing import bodies, text
from generator.drawing.coax import pinned
from generator.drawing.flat import CUT
from generator.drawing.scene import SMALLEST, Circle, Group, Item, Rect, Scene, Text, polyline
from generator.drawing.sides import Place, facing, places

RADIUS = 34  # px, of a round face
FLOOR = RADIUS - 3.5  # px, of the ring inside a female one
DISC = 9.5  # px, round a number
SCALE = 0.36  # of a side view's own size
WIDEST = 92  # px, of a rectangular face


def face(connector: Connector, half: str) -> tuple[tuple[Item, ...], float, float]:
    """Shapes around (0, 0), their width and height; nothing for a half that has no face to look at."""
    if connector.shape == "coaxial":
        solid = pinned(connector, half)
        items: list[Item] = [
            Circle(0, 0, RADIUS * 0.7, "metal" if half == "plug" else "heavy"),
            Circle(0, 0, RADIUS * 0.52, "plate"),
            Circle(0, 0, 6, "pin" if solid else "socket"),
        ]
        return tuple(items), RADIUS * 1.4 + 2, RADIUS * 1.4 + 2
    if not connector.face or connector.looks.get("outline") == "wires":
        return (), 0, 0
    drawn = _round if connector.shape == "circular" else _flat
    return drawn(connector, half, places(connector, half, "face"))


def side(connector: Connector, half: str) -> tuple[Group | None, float, float]:
    """The side view at the scale of lists, its upper left corner at (0, 0), with its width and height."""
    if not connector.outside.body.get(half):
        return None, 0, 0
    whole = bodies.silhouette(connector, half)
    return (
        Group(whole.items, scale=SCALE, title=f"{half} from the side"),
        whole.width * SCALE,
        whole.height * SCALE,
    )


def picture(connector: Connector, half: str) -> Scene | None:
    """The small face as a picture of its own, without words under it."""
    items, wide, high = face(connector, half)
    if not items:
        return None
    title = f"{connector.name}: {half} half, mating face"
    told = f"{title}, with the number of each contact." if len(connector.contacts) <= 8 else f"{title}."
    return Scene(
        round(wide + 4), round(high + 4), title, told, (Group(items, wide / 2 + 2, high / 2 + 2),), bare=True
    )


def _round(
    connector: Connector, half: str, spots: Mapping[str, Place]
) -> tuple[tuple[Item, ...], float, float]:
    reach = max(hypot(*spot) for spot in spots.values()) or 1
    across = max(connector.halves[half].sizes.get("diameter", 0), reach * 2.6)
    male = half == "male"
    # drawn a little apart, so that numbers find room
    scale = max(RADIUS / (across / 2), (RADIUS - DISC - 3.5) / reach)
    if not male:  # but clear of the ring, with their discs as large as neighbours leave them
        apart = min((hypot(x - u, y - v) for (x, y), (u, v) in combinations(spots.values(), 2)), default=99)
        scale = min(scale, max((FLOOR - 2 - DISC) / reach, (FLOOR - 1.5) / (reach + apart / 2)))
    placed = {name: (x * scale, y * scale) for name, (x, y) in spots.items()}
    items: list[Item] = [
        Circle(0, 0, RADIUS, "metal" if male else "heavy"),
        *([] if male else [Circle(0, 0, FLOOR, "plate")]),
    ]
    if connector.outside.held == "latch up":
        items.append(
            Rect(-6, -RADIUS - 4, 12, 5, "block", 1)
            if not male
            else Rect(-5, -RADIUS - 1, 10, 4, "window", 1)
        )
    if connector.key_angle is not None:
        x, y = facing(connector.key_angle, half, "face")
        ridge = connector.outside.keyed.get(half, "ridge") == "ridge"
        items.append(Circle(x * RADIUS, y * RADIUS, 3.5, "solid" if ridge else "window"))
    return (*items, *_contacts(placed, male)), 2 * RADIUS + 6, 2 * RADIUS + 10


def _contacts(placed: Mapping[str, Place], solid: bool) -> list[Item]:
    apart = min((hypot(x - u, y - v) for (x, y), (u, v) in combinations(placed.values(), 2)), default=99)
    widest = max(text.width(name, SMALLEST, "bold") for name in placed)
    items: list[Item] = []
    if apart >= max(2 * DISC - 4, widest + 1) and widest <= 2 * DISC + 3:
        disc = min(DISC, apart / 2 - 0.5)
        for name, (x, y) in placed.items():
            items += [
                Circle(x, y, disc, "pin" if solid else "line"),
                Text(x, y + SMALLEST * 0.36, name, SMALLEST, "middle", "bold", "knock" if solid else "ink"),
            ]
        return items
    return [Circle(x, y, min(4, apart * 0.36), "pin" if solid else "socket") for x, y in placed.values()]


def _flat(
    connector: Connector, half: str, spots: Mapping[str, Place]
) -> tuple[tuple[Item, ...], float, float]:
    wide, high = (max(part.sizes[size] for part in connector.halves.values()) for size in ("width", "height"))
    scale = min(WIDEST / wide, 40 / high)
    w, h = wide * scale / 2, max(high * scale / 2, 9)
    look = "metal" if half == "male" else "heavy"
    outline = connector.looks.get("outline")
    c = 2 * CUT * min(w, h)
    corners = {
        "D": [(-w, -h), (w, -h), (w - 0.36 * h, h), (0.36 * h - w, h)],
        "cut corners": [(c - w, -h), (w - c, -h), (w, c - h), (w, h), (-w, h), (-w, c - h)],
    }.get(outline)
    shape: Item = (
        polyline(corners, look, True)
        if corners
        else Rect(-w, -h, 2 * w, 2 * h, look, h if outline == "oval" else 3)
    )
    items: list[Item] = [shape]
    if connector.key_angle is not None:
        x, y = facing(connector.key_angle, half, "face")
        items.append(Rect(x * w - 8, y * h - 3, 16, 6, "window", 1))
    placed = {name: (x * scale, y * h / (high / 2) if high else 0) for name, (x, y) in spots.items()}
    if len(placed) <= 2:  # a number's disc stays clear of the edge
        edge = w - DISC - 3
        placed = {name: (min(max(x, -edge), edge), y) for name, (x, y) in placed.items()}
    dots = _contacts(placed, half == "male")
    if any(isinstance(item, Text) for item in dots):
        return (*items, *dots), 2 * w + 2, 2 * h + 2
    rows = sorted({round(y, 2) for _, y in placed.values()})
    names: list[Item] = []
    for row in rows[:1] + rows[1:][-1:]:
        ends = sorted((x, name) for name, (x, y) in placed.items() if round(y, 2) == row)
        y = -h - 3 if row == rows[0] else h + SMALLEST - 1
        for x, name in dict.fromkeys([ends[0], ends[-1]]):
            names.append(Text(x, y, name, SMALLEST, "middle", "bold"))
    return (*items, *dots, *names), max(2 * w + 2, 20), 2 * h + 2 + 2 * (SMALLEST + 4)
