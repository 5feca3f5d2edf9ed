"""A run as it lies: two devices, the lead, the loop of both earths shaded, what is beside it. The
path that dominates is marked and named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drawing.layout import Block, picture, small_print
from generator.drawing.scene import MARGIN, SMALLEST, WIDE, Circle, Item, Line, Rect, Scene, Text, polyline
from generator.drawing.text import ASCENT, wrap

BOX, HIGH = 94, 46  # a device
EARTH = 112  # where the earth line runs below the top of the devices
POWER = {"earthed": "earthed mains", "insulated": "two-pin mains", "battery": "no mains"}


@dataclass(frozen=True)
class Laid:
    """A run in words a picture needs. `powered` are the two classes of powering; `closed`: the screen joins
    both cases;
    `beside` what lies there, top down, each with its distance; `above` transmitters; `marked` one of chassis,
    induced, electric, spare."""

    title: str
    source: str
    input: str
    powered: tuple[str, str]
    lead: str
    balanced: bool
    closed: bool
    beside: tuple[str, ...] = ()
    crossing: tuple[bool, ...] = ()
    above: tuple[str, ...] = ()
    spare: str = ""
    marked: str = ""
    most: str = ""


def laid(run: Laid) -> Scene:
    """The picture. What the mark stands for is written below it."""
    left, right = MARGIN, WIDE - MARGIN - BOX
    items: list[Item] = []
    lead = _lead(run, left + BOX, right)
    loop = _loop(run, left + BOX / 2, right + BOX / 2)
    head = _above(run.above)
    items += [*loop, *lead, *_device(left, run.source), *_device(right, run.input)]
    items += _earth(left + BOX / 2, run.powered[0]) + _earth(right + BOX / 2, run.powered[1])
    blocks = [head, Block(tuple(items), EARTH + 42)] if run.above else [Block(tuple(items), EARTH + 42)]
    beside = _beside(run)
    blocks += [beside] if beside.height else []
    notes = [note for note in (_most(run), run.spare) if note]
    return picture(run.title, run.lead, _told(run), [*blocks, *small_print(notes)])


def _most(run: Laid) -> str:
    return f"Marked: {run.most}" if run.marked and run.most else ""


def _device(x: float, name: str) -> list[Item]:
    lines = wrap(name, SMALLEST, BOX - 8)[:3]
    top = HIGH / 2 - len(lines) * SMALLEST * 1.2 / 2
    words = [
        Text(x + BOX / 2, top + SMALLEST * ASCENT + i * SMALLEST * 1.2, line, SMALLEST, "middle")
        for i, line in enumerate(lines)
    ]
    return [Rect(x, 0, BOX, HIGH, "device", 5), *words]


def _lead(run: Laid, left: float, right: float) -> list[Item]:
    """Screen as an envelope, one core or two inside; a gap where the screen is open."""
    y = HIGH / 2
    items: list[Item] = []
    if run.marked == "induced":
        items.append(Line(left, y, right, y, "marked"))
    items.append(Rect(left, y - 9, right - left - (0 if run.closed else 14), 18, "envelope", 8))
    cores = (y - 3, y + 3) if run.balanced else (y,)
    items += [Line(left, at, right, at, "core-1") for at in cores]
    if run.spare:
        middle = (left + right) / 2
        turns = [Circle(middle + i * 7, y - 20, 9, "line") for i in (-1, 0, 1)]
        if run.marked == "spare":
            turns.append(Rect(middle - 20, y - 34, 40, 28, "marked", 6))
        items += turns
    return items


def _loop(run: Laid, left: float, right: float) -> list[Item]:
    """The loop of screen and earths: shaded where both devices are earthed, told by dots where only
    a capacitance closes it.
    """
    both = run.powered == ("earthed", "earthed")
    corners = [(left, HIGH), (left, EARTH), (right, EARTH), (right, HIGH)]
    items: list[Item] = []
    if both and run.closed:
        items.append(Rect(left, HIGH, right - left, EARTH - HIGH, "shade"))
        items.append(Rect(left + BOX / 2, HIGH / 2 + 9, right - left - BOX, HIGH / 2 - 9, "shade"))
        items.append(
            Text(
                (left + right) / 2,
                (EARTH + HIGH) / 2 + 8,
                "loop of both earths",
                SMALLEST,
                "middle",
                look="quiet",
            )
        )
    if run.marked == "chassis":
        items.append(polyline(corners, "marked"))
    if "battery" not in run.powered:
        items.append(polyline(corners, "line" if both else "dots"))
    return items


def _earth(x: float, powered: str) -> list[Item]:
    """Earth sign, capacitor or nothing, and the words."""
    items: list[Item] = []
    if powered == "earthed":
        items += [
            Line(x - w, EARTH + 5 + i * 4, x + w, EARTH + 5 + i * 4, "heavy")
            for i, w in enumerate((11, 7, 3))
        ]
        items.append(Line(x, EARTH, x, EARTH + 5, "line"))
    elif powered == "insulated":
        items += [
            Line(x - 10, EARTH - 22, x + 10, EARTH - 22, "heavy"),
            Line(x - 10, EARTH - 16, x + 10, EARTH - 16, "heavy"),
        ]
    return [*items, Text(x, EARTH + 32, POWER[powered], SMALLEST, "middle", look="quiet")]


def _beside(run: Laid) -> Block:
    items: list[Item] = []
    y = 0.0
    for words, crossing in zip(run.beside, run.crossing):
        lines = wrap(words, SMALLEST, WIDE - 2 * MARGIN - 74)
        at = y + 9
        if run.marked in ("induced", "electric"):
            items.append(Line(MARGIN, at, MARGIN + 60, at, "marked"))
        if crossing:
            items += [
                Line(MARGIN + 28, y, MARGIN + 28, y + 20, "heavy"),
                Line(MARGIN + 34, y, MARGIN + 34, y + 20, "heavy"),
            ]
        else:
            items += [
                Line(MARGIN, at - 3, MARGIN + 60, at - 3, "heavy"),
                Line(MARGIN, at + 3, MARGIN + 60, at + 3, "heavy"),
            ]
        items += [
            Text(MARGIN + 70, y + SMALLEST * ASCENT + 4 + i * SMALLEST * 1.25, line, SMALLEST)
            for i, line in enumerate(lines)
        ]
        y += max(24, len(lines) * SMALLEST * 1.25 + 8)
    return Block(tuple(items), y)


def _above(words: Sequence[str]) -> Block:
    lines = [line for one in words for line in wrap(one, SMALLEST, WIDE - 2 * MARGIN - 40)]
    waves = [Circle(MARGIN + 14, 12, r, "hair") for r in (4, 8, 12)]
    texts = [
        Text(MARGIN + 36, SMALLEST * ASCENT + 4 + i * SMALLEST * 1.25, line, SMALLEST)
        for i, line in enumerate(lines)
    ]
    return Block((*waves, *texts), max(26, len(lines) * SMALLEST * 1.25 + 6))


def _told(run: Laid) -> str:
    """All of it in words."""
    loop = (
        " Both are earthed, and the loop through both earths is closed."
        if run.powered == ("earthed", "earthed") and run.closed
        else ""
    )
    beside = f" Beside it: {'; '.join(run.beside)}." if run.beside else ""
    above = f" Near it transmits: {'; '.join(run.above)}." if run.above else ""
    return (
        f"{run.source} ({POWER[run.powered[0]]}) into {run.input} ({POWER[run.powered[1]]}) by {run.lead}, "
        f"{'two cores' if run.balanced else 'one core'} and a screen that is "
        f"{'joined' if run.closed else 'open'}.{loop}{beside}{above} {_most(run)}"
    ).strip()
