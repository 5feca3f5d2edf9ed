"""Round faces: contacts in a shell, its key and what one holds it up by.

Few contacts that stand well apart bear their words beside them, inside the shell. Where there is no room for
that, a list under the shell has a line for each, its end of wire in the pattern of its ring.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import combinations, product
from math import atan2, cos, hypot, radians, sin

from generator.catalogue.records import Connector
from generator.drawing import text
from generator.drawing.contacts import FEWEST, RING, Slot, contact, numeral, ring, wire
from generator.drawing.layout import Block
from generator.drawing.scene import MARGIN, WIDE, Box, Circle, Group, Item, Path, Rect, polyline
from generator.drawing.sides import Place, facing, painted, places

LARGE, SMALL = 150, 132  # radius of the shell in pixels, with its words inside and under it
LATCH = 14  # what a tab or latch stands out above the shell
MIDDLE = WIDE / 2
# width and type size of a word inside the shell, best first
ROOMS = ((112, 17), (92, 16), (76, 14), (64, 13))
LINES = 2  # of a word inside the shell
ROW, STUB = 40, 26  # px from line to line of the list, and length of an end of wire
NAMED = 42  # px for the name in the list, two figures wide
OUT = 74  # px from the middle to the names of blades
BLADE = radians(62)  # of the circle that a blade takes
GAP = 5.5  # px from the middle of a ring to half way to the next: two rings do not touch
BEYOND = 0.6  # a word above or below its contact may stand this share of half its width to the side


@dataclass(frozen=True)
class Laid:
    """Where a face's contacts are drawn, in px from the middle: radius of the shell and of the discs,
    and each contact's slot."""

    radius: float
    disc: float
    spots: Mapping[str, Place]
    slots: Mapping[str, Slot]
    inside: bool


def circular(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> Block:
    """The face of one half from one side. `roles` maps contacts to role ids; empty for the bare connector."""
    laid = lay(connector, half, view)
    items: list[Item] = [*_shell(half, view, laid.radius), *_marks(connector, half, view, laid.radius)]
    hole = connector.halves[half].sizes.get("hole")
    if hole:
        scale = laid.radius / (_across(connector, half) / 2)
        clear = min(hypot(*spot) for spot in laid.spots.values()) - laid.disc - RING - 7
        items.append(
            Group(
                (Circle(0, 0, min(hole / 2 * scale, clear), "hollow"),),
                title=f"opening for a {hole:g} mm plug",
            )
        )
    if connector.looks.get("latch") == "twist":
        items.append(Circle(0, 0, 11, "plate"))
    for name, (x, y) in laid.spots.items():
        slot = laid.slots[name]
        paths: list[Item] = [ring(x, y, laid.disc)]
        if roles and not laid.inside:
            paths.append(wire([(slot.x - STUB - NAMED, slot.y), (slot.x - NAMED, slot.y)]))
        drawn = (
            _arc(x, y, laid.disc, _near(connector, half, laid))
            if connector.looks.get("latch") == "twist"
            else painted(half, view, x, y, laid.disc)
        )
        filled = half == "male" and view == "face" and connector.looks.get("latch") != "twist"
        fits = text.width(name, FEWEST, "bold") <= 2 * laid.disc
        figures = (
            [numeral(name, x, y, laid.disc * 1.9, filled=filled)]
            if fits
            else [numeral(name, x, y - laid.disc - FEWEST, 0)]  # above its disc, as small as may be
        )
        if roles and not laid.inside:
            figures.append(numeral(name, slot.x - 7, slot.y, NAMED - 8, "end"))
        items.append(contact(name, roles.get(name), slot, drawn, paths, figures, bool(roles)))
    top = laid.radius + LATCH
    foot = max([laid.radius + 4, *(slot.y + ROW / 2 + 2 for slot in laid.slots.values() if roles)])
    return Block((Group(tuple(items), MIDDLE, top),), top + foot)


def _across(connector: Connector, half: str) -> float:
    """How wide a half is, mm; wide enough for its contacts where nobody has measured it."""
    farthest = max(spot.radius for spot in connector.face.values())
    return max(connector.halves[half].sizes.get("diameter", 0), farthest * 2 * 1.35)


@cache
def lay(connector: Connector, half: str, view: str) -> Laid:
    """Words inside if they find room there, else in a list."""
    spots = places(connector, half, view)
    if len(spots) <= 4:
        for room, size in ROOMS:
            if laid := _inside(connector, half, spots, room, size):
                return laid
    return _listed(connector, half, spots)


def _scaled(
    connector: Connector, half: str, spots: Mapping[str, Place], radius: float
) -> tuple[dict[str, Place], float]:
    scale = radius / (_across(connector, half) / 2)
    placed = {name: (x * scale, y * scale) for name, (x, y) in spots.items()}
    apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(placed.values(), 2))
    # its blades stand close around a post: their names stand farther out
    if connector.looks.get("latch") == "twist":
        placed = {name: (x * OUT / hypot(x, y), y * OUT / hypot(x, y)) for name, (x, y) in placed.items()}
        apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(placed.values(), 2))
    true = max(part.sizes.get("pin", 2.4) for part in connector.halves.values()) / 2 * scale
    edge = radius - 8 - RING - max(hypot(*spot) for spot in placed.values())
    return placed, min(max(true, 24 if len(placed) < 4 else 20), apart / 2 - RING - GAP, edge, 28)


def _inside(
    connector: Connector, half: str, spots: Mapping[str, Place], room: float, size: float
) -> Laid | None:
    placed, disc = _scaled(connector, half, spots, LARGE)
    reach, high = disc + RING + 4, LINES * size * 1.25
    taken = [Box(x - reach + 2, y - reach + 2, x + reach - 2, y + reach - 2) for x, y in placed.values()]
    if "hole" in connector.halves[half].sizes:
        taken.append(Box(-disc, -disc, disc, disc))
    if connector.looks.get("latch") == "twist":
        taken.append(Box(-OUT / 2, -OUT / 2, OUT / 2, OUT / 2))  # the post and the blades
    level = sum(y for _, y in placed.values()) / len(placed)
    ways: list[list[tuple[float, Slot, Box]]] = []
    for x, y in placed.values():
        found = []
        for odd, right, down in (
            (0, 0, -1),
            (0, 0, 1),
            (1, BEYOND, -1),
            (1, -BEYOND, -1),
            (1, BEYOND, 1),
            (1, -BEYOND, 1),
            (2, 1, 0),
            (2, -1, 0),
        ):
            cx, cy = (
                x + right * room / 2 + (right * (reach + 4) if not down else 0),
                y + down * (reach + high / 2),
            )
            box = Box(cx - room / 2, cy - high / 2, cx + room / 2, cy + high / 2)
            corners = product((box.left, box.right), (box.top, box.bottom))
            if all(hypot(*corner) <= LARGE - 10 for corner in corners) and not any(
                box.overlaps(other) for other in taken
            ):
                anchor = "middle" if down else "start" if right > 0 else "end"
                inward = 0.5 if down * (y - level) < 0 else 0
                found.append(
                    (odd + inward, Slot(cx if down else cx - right * room / 2, cy, anchor, size, room), box)
                )
        ways.append(found)
    fitting = [
        way for way in product(*ways) if not any(one[2].overlaps(two[2]) for one, two in combinations(way, 2))
    ]
    if not fitting:
        return None
    best = min(fitting, key=lambda way: sum(odd for odd, _, _ in way))
    return Laid(LARGE, disc, placed, {name: slot for name, (_, slot, _) in zip(placed, best)}, True)


def _listed(connector: Connector, half: str, spots: Mapping[str, Place]) -> Laid:
    placed, disc = _scaled(connector, half, spots, SMALL)
    rows = -(-len(placed) // 2)
    slots = {}
    for number, name in enumerate(connector.contacts):
        column, row = divmod(number, rows)
        left = MARGIN - MIDDLE + column * (MIDDLE - MARGIN + 4)
        slots[name] = Slot(
            left + STUB + NAMED, SMALL + 34 + row * ROW, "start", 15, MIDDLE - MARGIN - STUB - NAMED - 2
        )
    return Laid(SMALL, disc, placed, {name: slots[name] for name in placed}, False)


def _near(connector: Connector, half: str, laid: Laid) -> float:
    """How far the blades stand from the middle, px: where the catalogue has them, but clear of the post and
    of the rings round their names."""
    scale = laid.radius / (_across(connector, half) / 2)
    away = min(hypot(x, y) for x, y in laid.spots.values()) - laid.disc - RING - 8
    return max(min(next(iter(connector.face.values())).radius * scale, away), 18)


def _arc(x: float, y: float, disc: float, inner: float) -> list[Item]:
    """A blade of a connector that twists home: a bent strip around the post in the middle."""
    way, half = atan2(y, x), BLADE / 2
    (ax, ay), (bx, by) = ((inner * cos(way + turn), inner * sin(way + turn)) for turn in (half, -half))
    return [Path((("M", ax, ay), ("A", inner, inner, 0, 0, 0, bx, by)), "blade"), Circle(x, y, disc, "line")]


def _shell(half: str, view: str, radius: float) -> list[Item]:
    if view == "solder":
        return [Circle(0, 0, radius, "plate"), Circle(0, 0, radius - 7, "dots")]
    if half == "male":
        return [Circle(0, 0, radius, "metal"), Circle(0, 0, radius - 7, "floor")]
    return [Circle(0, 0, radius, "heavy"), Circle(0, 0, radius - 7, "plate")]


def _marks(connector: Connector, half: str, view: str, radius: float) -> list[Item]:
    """The key, and the latch where it is held up by it."""
    items: list[Item] = []
    if connector.key_angle is not None:
        kind = connector.outside.keyed.get(half, "ridge")
        way = facing(connector.key_angle, half, view)
        items.append(Group(tuple(_key(way, radius, kind)), title=f"key: {kind}"))
    if connector.outside.held == "latch up":
        tall = LATCH - 3
        if half == "female":
            shape: Item = polyline(
                [(-26, -radius + 2), (-20, -radius - tall), (20, -radius - tall), (26, -radius + 2)],
                "block",
                True,
            )
        else:
            shape = Rect(-15, -radius - 1, 30, 9, "window", 2)
        items.append(
            Group(
                (shape,),
                title="latch: the tab to press" if half == "female" else "latch: the opening it drops into",
            )
        )
    return items


def _key(way: Place, radius: float, kind: str) -> list[Item]:
    """A ridge stands in from the shell, a slot is cut into its edge, a notch is a dent in it."""
    along, across = way, (-way[1], way[0])

    def corner(r: float, side: float) -> Place:
        return along[0] * r + across[0] * side, along[1] * r + across[1] * side

    if kind == "notch":
        bend = [
            corner(radius + 2, -9),
            corner(radius - 12, -6),
            corner(radius - 12, 6),
            corner(radius + 2, 9),
        ]
        return [polyline(bend, "cutout", False), polyline(bend, "heavy", False)]
    inner, outer, wide = (radius - 12, radius + 1, 7) if kind == "ridge" else (radius - 9, radius + 3, 8)
    shape = [corner(outer, -wide), corner(inner, -wide), corner(inner, wide), corner(outer, wide)]
    return (
        [polyline(shape, "solid", True)]
        if kind == "ridge"
        else [polyline(shape, "cutout", False), polyline(shape, "line", False)]
    )
