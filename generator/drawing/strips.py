"""One end of a lead, or the connector on a device, unrolled into a row of contacts that
wires can leave from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from generator.catalogue.records import Connector
from generator.drawing import small, text
from generator.drawing.layout import ROW, named
from generator.drawing.scene import BODY, SMALLEST, Circle, Group, Item, Line, Path, Rect, Text, polyline

PITCH = 84  # widest step from contact to contact
BAND, DOT = 24, 7
PAD = 6
ROOMY = 200  # px; an end at least so wide has its face beside its heading


@dataclass(frozen=True)
class Strip:
    """A measured row: `pins` is x for each contact; wires leave at `edge` (the strip's top or its bottom)."""

    items: tuple[Item, ...]
    height: float
    pins: Mapping[str, float]
    edge: float


def strip(
    connector: Connector,
    half: str,
    heading: tuple[str, str],
    roles: Mapping[str, str],
    left: float,
    room: float,
    upward: bool = False,
    marked: frozenset[str] = frozenset(),
    look: str = "plate",
    least: float = 0,
    seen: bool = False,
) -> Strip:
    """The row of one half; `heading` is its bold name and a quieter line, `upward` lets the wires leave at
    the top. `seen` adds what one has in the hand: the small face with its numbers, and the side view."""
    contacts = connector.contacts
    tail = {"plug": 18, "jack": 9}[half] if connector.shape == "concentric" else 0
    pitch = min(PITCH, (room - 2 * PAD - tail) / len(contacts))
    first = left + (room - tail - pitch * (len(contacts) - 1)) / 2
    pins = {contact: first + pitch * number for number, contact in enumerate(contacts)}
    head = _headed(connector, half, heading, left, room) if seen else _lines(heading, left, room)
    banded = connector.shape == "concentric"
    inside = banded and max(text.width(c, SMALLEST, "bold") for c in contacts) <= pitch - 8
    said_rows = [_names([(pins[c], roles[c]) for c in contacts if c in roles], left, room, upward, "normal")]
    if not inside:
        said_rows.append(_names([(pins[c], c) for c in contacts], left, room, upward, "bold"))
    parts: list[tuple[float, list[Item]]] = [(high, [line]) for high, line in head]
    parts.append((3, []))  # grows where a taller neighbour sets the height
    parts += [(high, [Group(items)]) for items, high in said_rows if items]
    if banded:
        make = _barrel if connector.light else _bands
        glyphs = make(pins, pitch, half, tail, inside)
    else:
        glyphs = _dots(pins, half, min(DOT, pitch * 0.4))
    halos = [
        Circle(pins[c], BAND / 2 - 1 if banded else DOT + 2, 9, "marked") for c in contacts if c in marked
    ]
    parts.append((BAND if banded else DOT * 2 + 4, [Group((*halos, *glyphs))]))
    if upward:  # glyphs, names and roles first; the heading keeps its reading order at the foot
        parts = [*reversed(parts[len(head) + 1 :]), parts[len(head)], *parts[: len(head)]]
    short = max(least - PAD - sum(high for high, _ in parts), 0)
    items: list[Item] = []
    y = 0.0 if upward else PAD
    for high, row in parts:
        for item in row:
            items.append(replace(item, y=y + ROW * 0.76) if isinstance(item, Text) else Group((item,), 0, y))
        y += high if row else high + short
    height = y + (PAD if upward else 0)
    said = ", ".join(named(c, roles.get(c)) for c in contacts)
    plate = Rect(left, 0, room, height, look, 6)
    return Strip(
        (Group((plate, *items), title=f"{heading[0]}, {heading[1]}: {said}"),),
        height,
        pins,
        0 if upward else height,
    )


def _lines(
    heading: tuple[str, str], left: float, room: float, anchor: str = "middle"
) -> list[tuple[float, Item]]:
    """The heading's lines, each with its height."""
    x = left + room / 2 if anchor == "middle" else left
    return [
        (ROW, Text(x, 0, line, size, anchor, weight, look))
        for words, weight, look in ((heading[0], "bold", "ink"), (heading[1], "normal", "quiet"))
        for size, within in [_fitting(words, room, weight)]
        for line in text.wrap(words, size, within, weight)
    ]


def _headed(
    connector: Connector, half: str, heading: tuple[str, str], left: float, room: float
) -> list[tuple[float, Item]]:
    """The heading with what one sees: face at the left, side view under the words; all below one another
    where there is no room."""
    face, wide, high = small.face(connector, half)
    view, long, tall = small.side(connector, half)
    if room < ROOMY:
        views = [(tall + 6, Group((view,), left + (room - long) / 2, 3))] if view and long <= room - 4 else []
        faces = [(high + 4, Group(face, left + room / 2, high / 2 + 2))] if face and wide <= room - 4 else []
        return [*_lines(heading, left, room), *views, *faces]
    beside = left + PAD + (wide + 10 if face else 2)
    lines = _lines(heading, beside, left + room - beside, "start")
    inner = sum(step for step, _ in lines) + (tall + 6 if view else 0)
    whole, y = max(inner, high), max(high - inner, 0) / 2
    items: list[Item] = [Group(face, left + PAD + wide / 2, whole / 2)] if face else []
    for step, line in lines:
        items.append(replace(line, y=y + step * 0.76))
        y += step
    if view:
        items.append(Group((view,), beside, y + 4))
    return [(whole + 2, Group(tuple(items)))]


def _fitting(words: str, room: float, weight: str) -> tuple[float, float]:
    """Type size and room of a heading; in a narrow end smaller and nearer to the edge, so
    that no word is broken."""
    longest = max(text.width(word, BODY, weight) for word in map(str.strip, text.pieces(words)))
    return (BODY, room - 2 * PAD) if longest <= room - 2 * PAD else (SMALLEST, room - 4)


def _names(
    labels: Sequence[tuple[float, str]], left: float, room: float, upward: bool, weight: str
) -> tuple[tuple[Item, ...], float]:
    """Words centred over (or under) their contacts, on as few rows as keep them apart, far ones with a thin
    line; and their height."""
    rows: list[list[tuple[float, Text]]] = []
    for x, words in labels:
        wide = text.width(words, SMALLEST, weight)
        made = Text(
            min(max(x, left + 3 + wide / 2), left + room - 3 - wide / 2), 0, words, SMALLEST, "middle", weight
        )
        row = next((row for row in rows if text.box(row[-1][1]).right + 5 <= text.box(made).left), None)
        if row is None:
            rows.append(row := [])
        row.append((x, made))
    items: list[Item] = []
    # the first row is nearest to the contacts
    tops = [(number if upward else len(rows) - 1 - number) * ROW for number in range(len(rows))]
    for number, row in enumerate(rows):
        for x, made in row:
            items.append(replace(made, y=tops[number] + ROW * 0.76))
            clear = [
                y
                for y, nearer in zip(tops, rows[:number])
                if not any(
                    box.left - 1 < x < box.right + 1 for box in (text.box(words) for _, words in nearer)
                )
            ]
            # it stops short of a word it would run through
            items += [Line(x, y, x, y + ROW, "hair") for y in clear]
    return tuple(items), len(rows) * ROW


def _bands(pins: Mapping[str, float], pitch: float, half: str, tail: float, inside: bool) -> list[Item]:
    """The metal bands of a phone plug, tip to the left, or a jack's hollow with its mouth to the right;
    names in them if `inside`."""
    names = [
        Text(x, BAND / 2 + 3, contact, SMALLEST, "middle", "bold") for contact, x in pins.items() if inside
    ]
    edges = [(x - pitch / 2 + 2, x + pitch / 2 - 2) for x in pins.values()]
    left, right, low = edges[0][0], edges[-1][1], BAND - 4
    if half == "jack":
        parted = (Line(start - 2, 6, start - 2, low - 4, "dots") for start, _ in edges[1:])
        return [*_hollow(left, right), *parted, *names]
    tip = edges[0][1]
    nose = Path(
        (
            ("M", tip, 2),
            ("L", left + 11, 2),
            ("C", left - 4, 4, left - 4, low - 2, left + 11, low),
            ("L", tip, low),
            ("Z",),
        ),
        "metal",
    )
    bands = [Rect(start, 2, end - start, low - 2, "metal", 2) for start, end in edges[1:]]
    rings = [Rect(start - 4, 3, 4, low - 4, "insulator") for start, _ in edges[1:]]
    return [nose, *bands, *rings, Rect(right, 0, tail, BAND - 2, "plate", 3), *names]


def _hollow(left: float, right: float) -> list[Item]:
    """The bore of a jack, its mouth to the right."""
    low = BAND - 4
    bush = [Rect(right, y, 9, 6, "insulator", 1) for y in (-1, low - 3)]
    return [polyline([(right, 2), (left, 2), (left, low), (right, low)]), *bush]


def _barrel(pins: Mapping[str, float], pitch: float, half: str, tail: float, inside: bool) -> list[Item]:
    """A plug for light: no metal, and a fibre along it that ends at its very end; or a jack's hollow with the
    lamp or eye at its bottom. As `plugs.plug_parts` and `plugs.touching` draw them."""
    [(contact, x)] = pins.items()
    left, right, middle = x - pitch / 2 + 2, x + pitch / 2 - 2, BAND / 2 - 1
    said = text.width(contact, SMALLEST, "bold") / 2 + 4 if inside else 0
    name = [Text(x, BAND / 2 + 3, contact, SMALLEST, "middle", "bold")] if inside else []
    point = Rect(left, middle - 4, 7, 8, "insulator", 1)
    if half == "jack":
        return [*_hollow(left, right), Group((point,), title="lamp or eye"), *name]
    fibre = [
        Line(start, y, stop, y, "hair")
        for y in (middle - 3, middle + 3)
        for start, stop in ((left + 7, x - said), (x + said, right))
    ]
    return [
        Rect(left, 2, right - left, BAND - 6, "plate", 4),
        *fibre,
        Group((point,), title="end of the fibre"),
        Rect(right, 0, tail, BAND - 2, "plate", 3),
        *name,
    ]


def _dots(pins: Mapping[str, float], half: str, radius: float) -> list[Item]:
    look = "pin" if half in ("male", "plug") else "socket"
    return [Circle(x, DOT + 2, radius, look) for x in pins.values()]
