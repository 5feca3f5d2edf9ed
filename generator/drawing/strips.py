"""One end of a lead, or the connector on a device, unrolled into a row of contacts that wires can leave from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.catalogue.records import Connector
from generator.drawing import text
from generator.drawing.layout import ROW, named
from generator.drawing.scene import BODY, SMALLEST, Circle, Group, Item, Line, Path, Rect, Text

PITCH = 84  # widest step from contact to contact
BAND, DOT = 24, 7
PAD = 6


@dataclass(frozen=True)
class Strip:
    """A measured row: `pins` is x for each contact; wires leave at `edge` (the strip's top or its bottom)."""

    items: tuple[Item, ...]
    height: float
    pins: Mapping[str, float]
    edge: float


def strip(connector: Connector, half: str, heading: tuple[str, str], roles: Mapping[str, str], left: float, room: float,
          upward: bool = False, marked: frozenset[str] = frozenset()) -> Strip:
    """The row of one half; `heading` is its bold name and a quieter line, `upward` lets the wires leave at the top."""
    contacts = connector.contacts
    tail = 18 if half == "plug" and connector.shape == "concentric" else 0
    pitch = min(PITCH, (room - 2 * PAD - tail) / len(contacts))
    first = left + (room - tail - pitch * (len(contacts) - 1)) / 2
    pins = {contact: first + pitch * number for number, contact in enumerate(contacts)}
    head = [Text(left + room / 2, 0, line, BODY, "middle", weight, look) for words, weight, look in
            ((heading[0], "bold", "ink"), (heading[1], "normal", "quiet")) for line in text.wrap(words, BODY, room - 2 * PAD, weight)]
    banded = connector.shape == "concentric"
    rows = _rows([(pins[c], roles[c]) for c in contacts if c in roles], left + 3, left + room - 3)
    parts: list[tuple[float, list[Item]]] = [(ROW, [line]) for line in head]
    parts.append((3, []))
    parts += [(ROW, list(row)) for row in rows]
    if not banded:
        parts.append((ROW, [Text(pins[c], 0, c, BODY, "middle", "bold") for c in contacts]))
    glyphs = _bands(pins, pitch, half, tail) if banded else _dots(pins, half)
    glyphs += [Circle(pins[c], BAND / 2 - 1 if banded else DOT + 2, 12, "marked") for c in contacts if c in marked]
    parts.append((BAND if banded else DOT * 2 + 4, [Group(tuple(glyphs))]))
    if upward:  # glyphs, names and roles first; the heading keeps its reading order at the foot
        parts = [*reversed(parts[len(head) + 1:]), parts[len(head)], *parts[:len(head)]]
    items: list[Item] = []
    y = 0.0 if upward else PAD
    for high, row in parts:
        for item in row:
            items.append(Text(item.x, y + ROW * 0.76, item.words, item.size, item.anchor, item.weight, item.look) if isinstance(item, Text) else Group((item,), 0, y))
        y += high
    height = y + (PAD if upward else 0)
    said = ", ".join(named(c, roles.get(c)) for c in contacts)
    plate = Rect(left, 0, room, height, "plate", 6)
    return Strip((Group((plate, *items), title=f"{heading[0]}, {heading[1]}: {said}"),), height, pins, 0 if upward else height)


def _rows(labels: Sequence[tuple[float, str]], low: float, high: float) -> list[list[Text]]:
    """Centred words on as few rows as keep them apart; the fullest row is nearest to the contacts."""
    rows: list[list[Text]] = []
    for x, words in labels:
        wide = text.width(words, SMALLEST)
        made = Text(min(max(x, low + wide / 2), high - wide / 2), 0, words, SMALLEST, "middle")
        for row in rows:
            if text.box(row[-1]).right + 5 <= text.box(made).left:
                row.append(made)
                break
        else:
            rows.append([made])
    return rows[::-1]


def _bands(pins: Mapping[str, float], pitch: float, half: str, tail: float) -> list[Item]:
    """The metal bands of a phone plug, tip to the left, or the springs of a jack as open boxes."""
    look = "metal" if half == "plug" else "line"
    items: list[Item] = []
    for number, (contact, x) in enumerate(pins.items()):
        left, right = x - pitch / 2 + 2, x + pitch / 2 - 2
        if number == 0:
            items.append(Path((("M", right, 2), ("L", left + 11, 2), ("C", left - 4, 4, left - 4, BAND - 6, left + 11, BAND - 4), ("L", right, BAND - 4), ("Z",)), look))
        else:
            items.append(Rect(left, 2, right - left, BAND - 6, look, 2))
        if number:
            items.append(Rect(left - 4, 3, 4, BAND - 8, "insulator" if half == "plug" else "shade"))
        items.append(Text(x, BAND / 2 + 3, contact, SMALLEST, "middle", "bold"))
    if tail:
        items.append(Rect(right, 0, tail, BAND - 2, "plate", 3))
    return items


def _dots(pins: Mapping[str, float], half: str) -> list[Item]:
    look = "pin" if half in ("male", "plug") else "socket"
    return [Circle(x, DOT + 2, DOT, look) for x in pins.values()]
