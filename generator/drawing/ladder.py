"""How a schematic stands: rails by voltage, the highest on top, and parts side by side in columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import permutations

from generator.drawing import symbols, text
from generator.drawing.scene import SMALLEST
from generator.engine.words import quantity
from generator.engine.working import Net, Worked, Working

COLUMNS = 3  # to a ladder
BESIDES = 56  # how wide the words beside a part may be
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


def without_meter(working: Working) -> Working:
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


def _by_volts(nets: Sequence[Net]) -> list[Net]:
    return sorted(nets, key=lambda net: -net.volts if not net.zero else 0.0)


def in_order(working: Working) -> list[Net]:
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


def volts_of(net: Net) -> str:
    return "0 V" if net.zero else quantity(net.volts, "V")


def keys_of(working: Working) -> list[str]:
    """R1, R2, C1 ... in order."""
    counts: dict[str, int] = {}
    found = []
    for part in working.parts:
        letter = LETTER[part.kind]
        counts[letter] = counts.get(letter, 0) + 1
        found.append(f"{letter}{counts[letter]}")
    return found


def read(part: Worked, working: Working) -> list[str]:
    """The voltage and current beside a part; a source's voltage is its value."""
    if part.kind == "meter" and working.nature == "test" and not working.level:
        return ["no path"]
    volts = [] if part.kind == "emf" else [quantity(abs(part.volts), "V")]
    flows = part.kind != "meter" and abs(part.amps) > LEAST_AMPS
    return [*volts, *([quantity(abs(part.amps), "A")] if flows else [] if part.kind == "meter" else ["0 A"])]


def ladders(working: Working) -> Iterator[tuple[list[Net], list[Standing]]]:
    """Parts in columns, first fit; so many columns to a ladder, each with the rails it needs."""
    order = in_order(working)
    rank = {net.name: i for i, net in enumerate(order)}
    columns: list[list[tuple[int, int]]] = []
    placed: list[tuple[int, Worked, str]] = []
    spans = [
        (*sorted((rank[part.a], rank[part.b])), part, key)
        for part, key in zip(working.parts, keys_of(working))
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
        for words in dict.fromkeys(filter(None, [part.value, *read(part, working)]))
        for line in text.wrap(words, SMALLEST, BESIDES, "bold")
    ]
    return key, *said
