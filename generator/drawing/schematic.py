"""The part of a circuit that decides a verdict, as a small schematic: nets are level rails, the highest
voltage on top, parts stand between.

A rail is named at its left. A line that crosses a rail in a bow does not touch it; a dot is a joint. What
does not fit side by side goes into a further ladder below, where rails return under the same name.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.drawing import symbols, text
from generator.drawing.ladder import (
    LEAST_AMPS,
    Standing,
    in_order,
    keys_of,
    ladders,
    read,
    volts_of,
    without_meter,
)
from generator.drawing.layout import Block, paragraph, picture, small_print, stack
from generator.drawing.nets import in_words
from generator.drawing.scene import SMALLEST, WIDE, Circle, Group, Item, Line, Path, Scene, Text
from generator.engine.told import hertz, number_words
from generator.engine.words import quantity
from generator.engine.working import Net, Worked, Working

LEFT, GUTTER, RIGHT = 5, 71, WIDE - 6  # where the names of rails begin, the rails, and where they end
PITCH = 81  # from column to column
STEP = SMALLEST * text.LEADING
BESIDE = 14  # from a part's middle to its words
HOP, DOT = 5, 2.8


def schematic(working: Working) -> Scene:
    """The picture of a working. One that no circuit decides says so in words."""
    working = in_words(without_meter(working))
    blocks = [_ladder(rails, standing, working) for rails, standing in ladders(working)]
    keys = keys_of(working)
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
    yield "Rails from the top: " + ", ".join(f"{net.name} {volts_of(net)}" for net in in_order(working)) + "."
    for part, key in zip(working.parts, keys):
        yield f"{key} {part.value} between {part.a} and {part.b}: {', '.join(read(part, working))}."


def _ladder(rails: Sequence[Net], standing: Sequence[Standing], working: Working) -> Block:
    names = [
        (
            text.wrap(net.name, SMALLEST, GUTTER - LEFT - 2, "bold"),
            text.wrap(volts_of(net), SMALLEST, GUTTER - LEFT - 2),
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
