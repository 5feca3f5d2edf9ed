"""The parts of a lead where they stand between its wires: symbol, letter, and the joints with the wires."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from generator.catalogue.records import Part
from generator.drawing import symbols, text
from generator.drawing.scene import BODY, MARGIN, WIDE, Circle, Group, Item, Line, Text
from generator.drawing.wiring import Plan, Step

WINDING = 16  # from the middle of a transformer to its windings


def drawn(step: Step, y: float, x: Mapping[int, float], letters: Mapping[str, str], plan: Plan) -> list[Item]:
    """The part of a step around its height `y`; `x` are the lanes' places."""
    letter = letters[step.parts[0].id]
    if step.kind == "series":
        return _series(step, y, x[step.lanes[0]], letter)
    if step.kind == "across":
        return _across(step, y, x, letter)
    joined = not any(step.level == cut for lane in plan.lanes for cut in lane.cuts)
    return _transformer(step, y, x, letter, joined)


def winding(step: Step, lane: int) -> float:
    """How far from a part's middle its wire on a lane ends, of a transformer whose windings
    stand above and below it."""
    return 0 if step.kind != "transformer" else -WINDING if lane in step.lanes[:2] else WINDING


def _symbol(part: Part, x: float, y: float, turn: float) -> Group:
    title = f"{symbols.NOUN[part.kind]} {part.id}"
    return Group(tuple(symbols.symbol(part.kind)), x, y, title=title, turn=turn)


def _series(step: Step, y: float, x: float, letter: str) -> list[Item]:
    part = step.parts[0]
    off = 10 if part.kind == "resistor" else 15
    fits = x + off + text.width(letter, BODY, "bold") <= WIDE - MARGIN / 2  # else to the left
    return [
        _symbol(part, x, y, 180 if step.turned else 0),
        Text(x + off if fits else x - off, y + BODY * 0.36, letter, BODY, "start" if fits else "end", "bold"),
    ]


def _across(step: Step, y: float, x: Mapping[int, float], letter: str) -> list[Item]:
    one, two = (x[n] for n in step.lanes)
    left, right = min(one, two), max(one, two)
    middle = sum(_widest(left, right, x)) / 2
    return [
        *_over_wires(left, middle - symbols.HALF, y),
        *_over_wires(middle + symbols.HALF, right, y),
        _symbol(step.parts[0], middle, y, -90 if one < two else 90),
        *(Circle(end, y, 3.5, "solid") for end in (left, right)),
        Text(middle, y - 14, letter, BODY, "middle", "bold"),
    ]


def _widest(left: float, right: float, x: Mapping[int, float]) -> tuple[float, float]:
    """The widest room between two wires from left to right: a wire through a symbol would
    read as a part of it."""
    stops = sorted({left, right, *(one for one in x.values() if left < one < right)})
    return max(pairwise(stops), key=lambda gap: gap[1] - gap[0])


def _transformer(step: Step, y: float, x: Mapping[int, float], letter: str, joined: bool) -> list[Item]:
    """`joined` where its windings meet wires that go on."""
    windings = [tuple(x[n] for n in step.lanes[:2]), tuple(x[n] for n in step.lanes[2:])]
    # where both windings can stand face to face
    left, right = max(map(min, windings)), min(map(max, windings))
    if right - left < 30:
        left, right = min(map(min, windings)), max(map(max, windings))
    left, right = _widest(left, right, x)
    bumps = min(max(int((right - left - 8) // (2 * symbols.BUMP)), 2), 8)
    long = bumps * 2 * symbols.BUMP
    start = (left + right - long) / 2
    joints: list[Item] = []
    items: list[Item] = [Line(start, y - 3, start + long, y - 3), Line(start, y + 3, start + long, y + 3)]
    for (one, two), side in zip(windings, (-1, 1)):
        level = y + side * WINDING
        items.append(symbols.coil(start, level, bumps, side=side))
        for lane_x, end in ((min(one, two), start), (max(one, two), start + long)):
            items += _over_wires(min(lane_x, end), max(lane_x, end), level)
            if joined:
                joints.append(Circle(lane_x, level, 3.5, "solid"))
        # on no wire, where it would be a joint
        items.append(Circle(start + 5 if one < two else start + long - 5, level + side * 6, 2.2, "solid"))
    named = Text(start + long / 2, y - 30, letter, BODY, "middle", "bold")
    return [*joints, Group(tuple(items), title="transformer"), named]


def _over_wires(start: float, end: float, y: float) -> list[Item]:
    """A level wire from start to end that breaks those it crosses without a joint."""
    return [Line(start + 5, y, end - 5, y, "gap"), Line(start, y, end, y)] if end > start else []
