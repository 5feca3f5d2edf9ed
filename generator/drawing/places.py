"""Where the wires of a lead go before any is drawn: lanes, links, rows of names, and the parts' letters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.drawing import symbols, text
from generator.drawing.scene import SMALLEST
from generator.drawing.wiring import Net, Pin, Plan, Step

STUB, BRIDGE = 12, 9  # first straight bit of a wire, step from link to link


def bridge_levels(nets: Sequence[Net], side: Mapping[Pin, float]) -> dict[tuple[int, str], int]:
    """How deep the link of each net at each end lies, so that links of different nets keep apart."""
    levels: dict[tuple[int, str], int] = {}
    spans: list[tuple[float, float, int]] = []
    for net in nets:
        for end in dict.fromkeys(pin[0] for pin in side):
            xs = [side[pin] for pin in (*net.tops, *net.bottoms) if pin in side and pin[0] == end]
            if len(xs) < 2:
                continue
            low, high = min(xs), max(xs)
            level = next(
                n
                for n in range(len(side) + 1)
                if not any(n == other and low <= b and a <= high for a, b, other in spans)
            )
            spans.append((low, high, level))
            levels[id(net), end] = level
    return levels


def bridge_depth(nets: Sequence[Net], side: Mapping[Pin, float]) -> float:
    levels = bridge_levels(nets, side)
    return STUB + 6 + (BRIDGE * max(levels.values()) if levels else 0)


def lane_places(plan: Plan, pins: Mapping[Pin, float]) -> dict[int, float]:
    """x of each lane: straight below (or above) a contact where it can be, else where its parts
    cross the fewest wires."""
    places: dict[int, float] = {}
    for number, lane in enumerate(plan.lanes):
        tops, bottoms = lane.nets[0].tops, lane.nets[-1].bottoms
        sides = [side for side in (tops, bottoms) if len({pin[0] for pin in side}) == 1] or [
            side for side in (tops, bottoms) if side
        ]
        if not sides or not tops and any(number in step.lanes for step in plan.steps):
            continue
        others = [pins[pin] for pin in (*tops, *bottoms) if pin not in sides[0]]
        target = sum(others) / len(others) if others else 0
        wished = min((pins[pin] for pin in sides[0]), key=lambda x: abs(x - target))
        if all(abs(wished - x) >= 30 for x in places.values()):
            places[number] = wished
    for number in range(len(plan.lanes)):
        if number not in places:
            places[number] = min(range(28, 296, 4), key=lambda x: _cost(plan, pins, places, number, x))
    return places


def _cost(
    plan: Plan, pins: Mapping[Pin, float], places: Mapping[int, float], number: int, x: float
) -> tuple[float, float]:
    """How unsuitable x is for a lane: too near to another, then wires crossed by its parts, then
    how far it has to run."""
    room = min((abs(x - other) for other in places.values()), default=99)
    mates = [
        places[n]
        for step in plan.steps
        if number in step.lanes
        for n in step.lanes
        if n in places and n != number
    ]
    crossed = sum(min(x, mate) < other < max(x, mate) for mate in mates for other in places.values())
    ends = [pins[pin] for pin in plan.lanes[number].nets[-1].bottoms] or mates or [x]
    far = sum(abs(x - end) for end in ends) / len(ends)
    return max(40 - room, 0), 60 * crossed + far + 2 * max(56 - room, 0)


def label_rows(labels: Sequence[tuple[float, str, int]]) -> list[list[tuple[float, str, int]]]:
    """Names in one row, or in two where neighbours would touch."""
    rows: list[list[tuple[float, str, int]]] = []
    for label in labels:
        for row in rows:
            gap = (
                label[0]
                - row[-1][0]
                - (text.width(label[1], SMALLEST) + text.width(row[-1][1], SMALLEST)) / 2
            )
            if gap >= 6:
                row.append(label)
                break
        else:
            rows.append([label])
    return rows


def letters(steps: Sequence[Step]) -> dict[str, str]:
    """R1, R2, C1, T1 ... in the order the parts stand down the page."""
    counts: dict[str, int] = {}
    given: dict[str, str] = {}
    for step in sorted(steps, key=lambda step: step.level):
        letter = "T" if step.kind == "transformer" else symbols.LETTER[step.parts[0].kind]
        counts[letter] = counts.get(letter, 0) + 1
        for part in step.parts:
            given[part.id] = f"{letter}{counts[letter]}"
    return given
