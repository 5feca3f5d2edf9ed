"""The part of a circuit that decides a verdict, as a small schematic: nets are level rails, the highest
voltage on top, parts stand between.

A rail is named at its left. A line that crosses a rail in a bow does not touch it; a dot is a joint. What
does not fit side by side goes into a further ladder below, where rails return under the same name.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import permutations

from generator.drawing import symbols, text
from generator.drawing.layout import Block, paragraph, picture, small_print, stack
from generator.drawing.nets import in_words
from generator.drawing.scene import SMALLEST, WIDE, Circle, Group, Item, Line, Path, Scene, Text
from generator.engine.told import hertz, number_words
from generator.engine.words import quantity
from generator.engine.working import Net, Worked, Working

LEFT, GUTTER, RIGHT = 5, 71, WIDE - 6  # where the names of rails begin, the rails, and where they end
COLUMNS, PITCH = 3, 81
STEP = SMALLEST * text.LEADING
BESIDE, BESIDES = 14, 56  # from a part's middle to its words, and how wide those may be
HOP, DOT = 5, 2.8
LETTER = symbols.LETTER | {"contact": "K", "meter": "M"}
LEAST_AMPS = 1e-12
ALIKE = 0.02  # rails whose voltages differ by less than this share of the largest may change places
MOST_ORDERS = 6  # so many alike are tried in every order


@dataclass(frozen=True)
class Standing:
    """A part in a ladder: its key, the name of its upper rail, the numbers of its upper and lower rail, its
    column, and the words beside it."""

    part: Worked
    key: str
    above: str
    top: int
    foot: int
    column: int
    words: tuple[str, ...]


def schematic(working: Working) -> Scene:
    """The picture of a working. One that no circuit decides says so in words."""
    working = in_words(_without_meter(working))
    blocks = [_ladder(rails, standing, working) for rails, standing in _ladders(working)]
    keys = _keys(working)
    legend = [
        f"{key}: {part.name}{f', {part.owner}' if part.owner else ''}{' (decides)' if part.decides else ''}"
        for part, key in zip(working.parts, keys)
    ]
    said = [paragraph(line) for line in number_words(working)]
    notes = [
        *legend,
        *([working.note] if working.note else []),
        *([working.equation.says] if working.equation else []),
    ]
    return picture(
        working.says,
        _case(working),
        " ".join([*_described(working, keys), *notes]),
        [*blocks, stack(said, gap=2), *small_print(notes)],
    )


def _without_meter(working: Working) -> Working:
    """Where a part already stands between the two points that are measured, the number is
    told beside that part."""
    meter = next((part for part in working.parts if part.kind == "meter"), None)
    beside = next(
        (
            part
            for part in working.parts
            if meter
            and part.kind not in ("meter", "emf", "contact")
            and {part.a, part.b} == {meter.a, meter.b}
        ),
        None,
    )
    if not beside or working.nature == "test":
        return working
    return replace(
        working,
        parts=tuple(replace(part, decides=part is beside) for part in working.parts if part is not meter),
    )


def _case(working: Working) -> str:
    supplies = [f"{name} {state}" for name, state in working.setting.items()]
    source = (
        [f"{working.source}, {quantity(working.level, 'V')} at {hertz(working.hertz)}"]
        if working.nature == "signal"
        else []
    )
    return "; ".join(
        [
            *supplies,
            *source,
            *filter(None, [working.state if working.state != "signal" else "", working.corner]),
        ]
    )


def _described(working: Working, keys: Sequence[str]) -> Iterator[str]:
    yield "Rails from the top: " + ", ".join(f"{net.name} {_volts(net)}" for net in _order(working)) + "."
    for part, key in zip(working.parts, keys):
        yield f"{key} {part.value} between {part.a} and {part.b}: {', '.join(_read(part, working))}."


def _by_volts(nets: Sequence[Net]) -> list[Net]:
    return sorted(nets, key=lambda net: -net.volts if not net.zero else 0.0)


def _order(working: Working) -> list[Net]:
    """The nets from the highest voltage down; of those alike, so that parts in a row
    stand under one another."""
    order = _by_volts(working.nets)
    near = ALIKE * max((abs(net.volts) for net in order), default=0.0)
    first = 0
    while first < len(order):
        last = first + 1
        while (
            last < len(order)
            and not order[first].zero
            and not order[last].zero
            and order[last - 1].volts - order[last].volts <= near
        ):
            last += 1
        if 1 < last - first <= MOST_ORDERS:
            tried = ([*order[:first], *middle, *order[last:]] for middle in permutations(order[first:last]))
            order = min(tried, key=lambda nets: _crowding(nets, working))
        first = last
    return order


def _crowding(order: Sequence[Net], working: Working) -> tuple[int, int]:
    """How many columns an order of rails needs, and how far its parts reach."""
    rank = {net.name: i for i, net in enumerate(order)}
    spans = [sorted((rank[part.a], rank[part.b])) for part in working.parts]
    widest = max(sum(top <= band < foot for top, foot in spans) for band in range(len(order)))
    return widest, sum(foot - top for top, foot in spans)


def _volts(net: Net) -> str:
    return "0 V" if net.zero else quantity(net.volts, "V")


def _keys(working: Working) -> list[str]:
    """R1, R2, C1 ... in order."""
    counts: dict[str, int] = {}
    found = []
    for part in working.parts:
        letter = LETTER[part.kind]
        counts[letter] = counts.get(letter, 0) + 1
        found.append(f"{letter}{counts[letter]}")
    return found


def _read(part: Worked, working: Working) -> list[str]:
    """The voltage and current beside a part; a source's voltage is its value."""
    if part.kind == "meter" and working.nature == "test" and not working.level:
        return ["no path"]
    volts = [] if part.kind == "emf" else [quantity(abs(part.volts), "V")]
    flows = part.kind != "meter" and abs(part.amps) > LEAST_AMPS
    return [*volts, *([quantity(abs(part.amps), "A")] if flows else [] if part.kind == "meter" else ["0 A"])]


def _ladders(working: Working) -> Iterator[tuple[list[Net], list[Standing]]]:
    """Parts in columns, first fit; so many columns to a ladder, each with the rails it needs."""
    order = _order(working)
    rank = {net.name: i for i, net in enumerate(order)}
    columns: list[list[tuple[int, int]]] = []
    placed: list[tuple[int, Worked, str]] = []
    spans = [
        (*sorted((rank[part.a], rank[part.b])), part, key)
        for part, key in zip(working.parts, _keys(working))
        if part.a != part.b
    ]
    for top, foot, part, key in sorted(spans, key=lambda span: span[:2]):
        free = next(
            (c for c, taken in enumerate(columns) if all(foot <= t or f <= top for t, f in taken)), None
        )
        if free is None:
            free = len(columns)
            columns.append([])
        columns[free].append((top, foot))
        placed.append((free, part, key))
    for first in range(0, len(columns), COLUMNS):
        mine = [
            (column - first, part, key) for column, part, key in placed if first <= column < first + COLUMNS
        ]
        used = {net for _, part, _ in mine for net in (part.a, part.b)}
        rails = [net for net in order if net.name in used]
        at = {net.name: i for i, net in enumerate(rails)}
        yield (
            rails,
            [
                Standing(
                    part,
                    key,
                    min(part.a, part.b, key=at.get),
                    *sorted((at[part.a], at[part.b])),
                    column,
                    _words(part, key, working),
                )
                for column, part, key in mine
            ],
        )
    lonely = [
        net
        for net in order
        if all(part.a == part.b for part in working.parts if net.name in (part.a, part.b))
    ]
    if lonely:
        yield lonely, []


def _words(part: Worked, key: str, working: Working) -> tuple[str, ...]:
    said = [
        line
        for words in dict.fromkeys(filter(None, [part.value, *_read(part, working)]))
        for line in text.wrap(words, SMALLEST, BESIDES, "bold")
    ]
    return key, *said


def _ladder(rails: Sequence[Net], standing: Sequence[Standing], working: Working) -> Block:
    names = [
        (
            text.wrap(net.name, SMALLEST, GUTTER - LEFT - 2, "bold"),
            text.wrap(_volts(net), SMALLEST, GUTTER - LEFT - 2),
        )
        for net in rails
    ]
    bands = _bands(standing, len(rails))
    heights = [
        _height(names[i], names[i + 1], [s for s in standing if bands[s.key] == i])
        for i in range(len(rails) - 1)
    ]
    ys = [len(names[0][0]) * STEP + 6.0]
    for height in heights:
        ys.append(ys[-1] + height)
    items: list[Item] = []
    shorted = {part.a for part in working.parts if part.decides and part.a == part.b}
    for net, (name, volts), y in zip(rails, names, ys):
        if net.name in shorted:
            items.append(Line(GUTTER, y, RIGHT, y, "marked"))
        items.append(Line(GUTTER, y, RIGHT, y, "heavy" if net.zero else "line"))
        items += text.block(name, LEFT, y - len(name) * STEP, size=SMALLEST, weight="bold")
        items += text.block(volts, LEFT, y + 1, size=SMALLEST)
    for s in standing:
        items.append(
            Group(
                tuple(_stand(s, ys, bands[s.key], working)),
                title=" ".join([s.key, s.part.name, *s.words[1:]]),
            )
        )
    return Block(tuple(items), ys[-1] + len(names[-1][1]) * STEP + 4)


def _bands(standing: Sequence[Standing], rails: int) -> dict[str, int]:
    """Which space between two rails holds each symbol: its only one, else one that holds symbols already."""
    found = {s.key: s.top for s in standing if s.foot == s.top + 1}
    for s in standing:
        if s.key not in found:
            found[s.key] = next((band for band in range(s.top, s.foot) if band in found.values()), s.top)
    return found


def _height(
    above: tuple[list[str], list[str]], below: tuple[list[str], list[str]], inside: Sequence[Standing]
) -> float:
    """A space that holds the volts of the rail above, the name of the rail below, and the
    symbols with their words."""
    named = (len(above[1]) + len(below[0])) * STEP + 8
    return max([named, *(max(2 * symbols.HALF + 24, len(s.words) * STEP + 14) for s in inside)])


def _stand(s: Standing, ys: Sequence[float], band: int, working: Working) -> Iterator[Item]:
    """A part between its rails: line, bows over rails it does not touch, symbol, words."""
    x = GUTTER + 11 + s.column * PITCH
    top, foot, middle = ys[s.top], ys[s.foot], (ys[band] + ys[band + 1]) / 2
    if s.part.decides:
        yield Line(x, top, x, foot, "marked")
    start = top
    for y in (*ys[s.top + 1 : s.foot], foot):
        stop = y if y == foot else y - HOP
        pieces = (
            [(start, middle - symbols.HALF), (middle + symbols.HALF, stop)]
            if start < middle < stop
            else [(start, stop)]
        )
        yield from (Line(x, low, x, high) for low, high in pieces if high > low)
        if y != foot:
            yield Path((("M", x, y - HOP), ("A", HOP, HOP, 0, 0, 1, x, y + HOP)))
            start = y + HOP
    upside = s.part.a != s.above
    yield Group(tuple(_symbol(s.part, working)), x, middle, turn=180 if upside else 0)
    if working.nature != "signal" and abs(s.part.amps) > LEAST_AMPS and s.part.kind not in ("meter", "sink"):
        yield _arrow(x, middle - symbols.HALF - 2, (s.part.amps > 0) != upside)
    yield from (Circle(x, y, DOT, "solid") for y in (top, foot))
    if s.part.kind == "meter":
        yield Text(
            x, middle + SMALLEST * 0.36, "Ω" if working.nature == "test" else "V", SMALLEST, "middle", "bold"
        )
    for number, line in enumerate(
        text.block(list(s.words), x + BESIDE, middle - len(s.words) * STEP / 2, size=SMALLEST)
    ):
        yield Text(
            line.x, line.y, line.words, SMALLEST, weight="bold" if not number or s.part.decides else "normal"
        )


def _arrow(x: float, y: float, down: bool) -> Path:
    """Which way current flows."""
    tip = 4 if down else -4
    return Path((("M", x - 4, y - tip), ("L", x + 4, y - tip), ("L", x, y + tip), ("Z",)), "solid")


def _symbol(part: Worked, working: Working) -> list[Item]:
    ends = [Line(0, -symbols.HALF, 0, -11), Line(0, 11, 0, symbols.HALF)]
    if part.kind == "meter":
        return [*ends, Circle(0, 0, 11)]
    if part.kind == "contact":
        return [Line(0, -symbols.HALF, 0, symbols.HALF), Circle(0, -8, 3, "solid"), Circle(0, 8, 3, "solid")]
    if part.kind == "emf" and (working.nature in ("signal", "test") or part.value == "silent"):
        wave = Path((("M", -6, 0), ("C", -4, -7, -1, -7, 0, 0), ("C", 1, 7, 4, 7, 6, 0)))
        return [*ends, Circle(0, 0, 11), wave]
    if part.kind == "emf":  # with its + on the left, where no number follows
        return [*symbols.symbol("emf")[:-2], Line(-13, -12, -7, -12), Line(-10, -15, -10, -9)]
    return symbols.symbol(part.kind)
