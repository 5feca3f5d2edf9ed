"""Connectors with a face as one looks at them: mating face or solder side, either half. Round ones are drawn here."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import hypot

from generator.catalogue.records import Connector
from generator.drawing import text
from generator.drawing.flat import flat
from generator.drawing.layout import ROW, Block, listed, named, paragraph, picture
from generator.drawing.scene import BODY, MARGIN, WIDE, Circle, Group, Item, Line, Path, Scene, Text, polyline
from generator.drawing.sides import Place, facing, painted, places

VIEWS = {"face": "mating face", "solder": "seen from the solder side"}
LARGEST, SMALLEST_SHELL = 78, 50  # radius of the shell in pixels
MIDDLE = WIDE / 2
NEAR_KEY = 20  # a number nearer to the middle of the key's outer edge would touch the key


def face(connector: Connector, half: str, view: str, roles: Mapping[str, str], name: str | None = None) -> Scene:
    """The picture of one half from one side. `roles` maps contacts to what they carry; empty for the bare connector."""
    subtitle = f"{half} half, {VIEWS[view]}".capitalize()
    drawn = {"circular": _circular, "coaxial": _coaxial, "rectangular": flat}[connector.shape]
    block, order = drawn(connector, half, view, roles)
    desc = f"{subtitle} of {connector.name}. {order}"
    return picture(name or connector.name, subtitle if not name else f"{connector.name}: {subtitle.lower()}", desc,
                   [block, paragraph(_captions(connector, half, view), look="quiet")])


def _captions(connector: Connector, half: str, view: str) -> str:
    if view == "solder":
        what = "Half-filled: solder cups, seen from where the wires go in."
    elif _pinned(connector, half):
        what = "Filled: pins."
    else:
        what = "Open: sockets."
    return what + (" The notch is the key." if connector.key_angle is not None else "")


def _pinned(connector: Connector, half: str) -> bool:
    """Has this half the pins? A coaxial plug may go over the pin of its jack instead."""
    return "pin" in connector.halves[half].sizes if connector.shape == "coaxial" else half == "male"


def _circular(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> tuple[Block, str]:
    spots = places(connector, half, view)
    farthest = max(hypot(x, y) for x, y in spots.values())
    sizes = [each.sizes for each in connector.halves.values()]
    across = {name: max(part.sizes.get("diameter", 0) / 2, farthest * 2) for name, part in connector.halves.items()}
    scale = _shell_radius(roles) / max(across.values())  # one scale for both halves, so that their contacts agree
    radius = across[half] * scale
    apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(spots.values(), 2)) * scale
    pin = min(max(max(size.get("pin", 2.4) for size in sizes) / 2 * scale, 5), 11, apart * 0.34)
    free = 1 if any(y < 0 and abs(x) < -0.3 * y for x, y in spots.values()) else -1
    notch = None if connector.key_angle is None else facing(connector.key_angle, half, view)
    labels = [_Callout(contact, roles.get(contact), x * scale, y * scale, pin, free) for contact, (x, y) in spots.items()]
    for callout in labels:
        if notch and hypot(callout.at[0] - notch[0] * radius, callout.at[1] - notch[1] * radius) < NEAR_KEY:
            callout.inwards()
    top = ROW + 10 if any(callout.side == "top" and callout.role for callout in labels) else 6
    items: list[Item] = [*_shell(half, view, radius)]
    if notch:
        items.append(_key(notch, radius))
    items += [Group((*painted(half, view, callout.x, callout.y, pin), callout.number()),
                    title=f"contact {named(callout.contact, callout.role)}") for callout in labels]
    under = 0.0
    for side in ("left", "right", "top", "bottom"):
        texts, depth = _place([callout for callout in labels if callout.side == side and callout.role], side, radius, notch)
        items += texts
        under = max(under, depth)
    in_order = sorted(spots, key=lambda contact: (round(spots[contact][0], 2), spots[contact][1]))
    order = listed([named(contact, roles.get(contact)) for contact in in_order])
    block = Block((Group(tuple(items), MIDDLE, top + radius),), top + radius + max(radius + 6, under))
    return block, f"Contacts from left to right: {order}."


class _Callout:
    """A contact, its number beside it and its role outside the shell."""

    def __init__(self, contact: str, role: str | None, x: float, y: float, pin: float, free: int):
        """`free` is the way out from the middle where no other contact stands: -1 above, 1 below."""
        self.contact, self.role, self.x, self.y = contact, role, x, y
        away = hypot(x, y)
        self.way = (x / away, y / away) if away > 1 else (0, free)
        self.clear = clear = pin + 5 + max(text.width(contact, BODY + 1, "bold"), BODY * 0.7) / 2
        self.at = (x + self.way[0] * clear, y + self.way[1] * clear)
        self.out = (x + self.way[0] * (clear + 10), y + self.way[1] * (clear + 10))
        across = self.way[0]
        self.side = "right" if across > 0.3 else "left" if across < -0.3 else "top" if self.way[1] < 0 else "bottom"

    def inwards(self) -> None:
        """The number on the other side of its contact, where the key leaves it no room outside."""
        self.at = (self.x - self.way[0] * self.clear, self.y - self.way[1] * self.clear)

    def number(self) -> Text:
        return Text(self.at[0], self.at[1] + BODY * 0.38, self.contact, BODY + 1, "middle", "bold")


def _place(callouts: list[_Callout], side: str, radius: float, notch: Place | None) -> tuple[list[Item], float]:
    """Roles of one side with thin lines to their contacts; also how far below the centre they reach."""
    items: list[Item] = []
    if side in ("top", "bottom"):
        sign = -1 if side == "top" else 1
        for callout in callouts:
            y = sign * (radius + 10)
            items += [Line(*callout.out, callout.out[0], y, "hair"),
                      Text(callout.out[0], y - 3 if side == "top" else y + BODY, callout.role, anchor="middle")]
        return items, radius + 10 + ROW if callouts else 0
    sign, anchor = (1, "start") if side == "right" else (-1, "end")
    column, lowest = radius + 12, -10_000.0
    for callout in sorted(callouts, key=lambda callout: callout.y):
        lines = text.wrap(callout.role, BODY, MIDDLE - column - 8)
        behind = notch and notch[0] * sign > 0.9 and abs(callout.out[1] - notch[1] * radius) < 10
        y = max(callout.out[1] * 1.25 + (20 if behind else 0), lowest)  # the line passes below the notch, not through it
        lowest = y + len(lines) * ROW + 2
        items.append(polyline([callout.out, (sign * (column - 2), y)], "hair"))
        items += [Text(sign * (column + 2), y + BODY * 0.36 + number * ROW, line, anchor=anchor)
                  for number, line in enumerate(lines)]
    return items, lowest if callouts else 0


def _shell_radius(roles: Mapping[str, str]) -> float:
    """As large as the longest role beside it allows."""
    widest = max((text.width(role, BODY) for role in roles.values()), default=0)
    return max(min(LARGEST, MIDDLE - MARGIN - 12 - widest), SMALLEST_SHELL)


def _shell(half: str, view: str, radius: float) -> list[Item]:
    if view == "solder":
        return [Circle(0, 0, radius, "plate"), Circle(0, 0, radius - 6, "dots")]
    if half == "male":
        return [Circle(0, 0, radius, "metal"), Circle(0, 0, radius - 6, "line")]
    return [Circle(0, 0, radius, "heavy"), Circle(0, 0, radius - 6, "plate")]


def _key(way: Place, radius: float) -> Item:
    along, across = way, (-way[1], way[0])

    def corner(r: float, side: float) -> Place:
        return along[0] * r + across[0] * side, along[1] * r + across[1] * side

    corners = [corner(radius + 1, -6), corner(radius - 9, -6), corner(radius - 9, 6), corner(radius + 1, 6)]
    return Group((polyline(corners, "solid", True),), title="key")


def _coaxial(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> tuple[Block, str]:
    """Centre and shell: alike from left and right, so only what is filled and what is open tells the halves apart."""
    centre, shell = connector.contacts[:2]
    sizes = {key: size for each in (*connector.halves.values(), connector.halves[half]) for key, size in each.sizes.items()}
    pinned = _pinned(connector, half)
    radius = 62.0
    pin = max(min(radius * sizes.get("pin", 3.2) / sizes.get("diameter", 8.3), radius * 0.45), 10)
    x = MIDDLE - 48
    ring: list[Item] = [Circle(0, 0, radius, "metal"), Circle(0, 0, radius - 8, "line")]
    if view == "solder":
        lug = (("M", -12, radius - 4), ("L", -12, radius + 12), ("A", 12, 12, 0, 0, 0, 12, radius + 12), ("L", 12, radius - 4))
        ring.append(Path(lug, "metal"))
    elif half == "plug" and pinned and connector.looks.get("latch") != "bayonet":
        outer, inner = radius * 0.71, (radius - 8) * 0.71
        ring += [Line(sx * outer, sy * outer, sx * inner, sy * inner, "heavy") for sx in (-1, 1) for sy in (-1, 1)]  # petals
    middle = [Circle(0, 0, pin + 12, "dots"), *painted("male" if pinned else "female", view, 0, 0, pin)]
    items: list[Item] = [Group(tuple(ring), title=f"contact {named(shell, roles.get(shell))}"),
                         Group(tuple(middle), title=f"contact {named(centre, roles.get(centre))}")]
    column = radius + 18
    for contact, start, y in ((centre, (pin * 0.5, -pin * 0.5), -30), (shell, ((radius - 4) * 0.85, (radius - 4) * 0.53), 32)):
        lines = [("", line) for line in text.wrap(roles.get(contact, ""), BODY, WIDE - x - column - MARGIN)]
        items.append(polyline([start, (column - 4, y)], "hair"))
        items += [Text(column, y + BODY * 0.36 + number * ROW, words, strong=strong)
                  for number, (strong, words) in enumerate([(contact, ""), *lines])]
    foot = 30 if view == "solder" else 6
    block = Block((Group(tuple(items), x, radius + 6),), 2 * radius + 6 + foot)
    return block, f"In the middle: {named(centre, roles.get(centre))}. Around it: {named(shell, roles.get(shell))}."
