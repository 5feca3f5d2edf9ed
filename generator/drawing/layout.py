"""Putting blocks under one another, and labels where they touch neither each other nor the edge."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.drawing import text
from generator.drawing.scene import BODY, HEAD, MARGIN, WIDE, Group, Item, Scene, Text, polyline

ROOM = WIDE - 2 * MARGIN
ROW = BODY * text.LEADING


@dataclass(frozen=True)
class Block:
    """Shapes measured as one piece, as wide as the picture and `height` high."""

    items: tuple[Item, ...]
    height: float


@dataclass(frozen=True)
class Label:
    """What is said about a contact at x: its name in bold, then its role or landing."""

    x: float
    name: str
    role: str | None = None


def picture(title: str, subtitle: str, desc: str, blocks: Iterable[Block]) -> Scene:
    """A whole picture: heading, then the blocks."""
    body = stack([heading(title, subtitle), *blocks], gap=8)
    height = round(body.height + 2 * MARGIN)
    return Scene(
        WIDE, height, f"{title}: {subtitle}" if subtitle else title, desc, (Group(body.items, 0, MARGIN),)
    )


def stack(blocks: Iterable[Block], gap: float = 0) -> Block:
    """The blocks one under the other."""
    items: list[Item] = []
    y = -gap
    for block in blocks:
        y += gap
        items.append(Group(block.items, 0, y) if y else Group(block.items))
        y += block.height
    return Block(tuple(items), max(y, 0))


def heading(title: str, subtitle: str) -> Block:
    """The picture's title in bold and a quieter line under it."""
    return stack([paragraph(title, HEAD, "bold"), paragraph(subtitle, look="quiet")], gap=2)


def paragraph(words: str, size: float = BODY, weight: str = "normal", look: str = "ink") -> Block:
    """Words set over the full width, in as many lines as they need."""
    lines = text.wrap(words, size, ROOM, weight)
    return Block(
        tuple(text.block(lines, MARGIN, 0, size=size, weight=weight, look=look)),
        len(lines) * size * text.LEADING,
    )


def ladder(labels: Sequence[Label], reach: float, upward: bool = False) -> Block:
    """Labels under (or over) points of a row, each on rungs of its own at the foot of a thin line.

    The rightmost label is nearest to the row, so a line never crosses a text. `reach` is how far the lines
    stand in beyond the block's edge to meet what they name.
    """
    rungs, depth = [], 6.0
    for label in sorted(labels, key=lambda label: -label.x):
        left = label.x + 6
        lines = _lines(label, WIDE - MARGIN / 2 - left)
        rungs.append((label, left, lines, depth))
        depth += len(lines) * ROW + 3
    items: list[Item] = []
    for label, left, lines, at in rungs:
        top = depth - at - len(lines) * ROW if upward else at
        foot = top + ROW / 2
        items.append(
            polyline(
                [(label.x, depth + reach if upward else -reach), (label.x, foot), (label.x + 4, foot)], "hair"
            )
        )
        items += [
            Text(left, top + BODY * 0.95 + number * ROW, words, strong=strong)
            for number, (strong, words) in enumerate(lines)
        ]
    return Block(tuple(items), depth)


def _lines(label: Label, room: float) -> list[tuple[str, str]]:
    """(bold, plain) for each line of a label."""
    role = label.role or ""
    if text.box(Text(0, 0, role, strong=label.name)).right <= room:
        return [(label.name, role)]
    return [(label.name, ""), *(("", line) for line in text.wrap(role, BODY, room))]


def carried(role: str) -> str:
    """A role in words: `timecode out`; `unknown-2` only keeps two unknown contacts apart."""
    return "not known" if role.startswith("unknown") else role.split(".")[-1].replace("-", " ")


def in_words(carries: Mapping[str, str]) -> dict[str, str]:
    return {contact: carried(role) for contact, role in carries.items()}


def named(contact: str, role: str | None) -> str:
    """How a contact is told in words: `2 (hot)`."""
    return f"{contact} ({role})" if role else contact


def listed(names: Sequence[str], last: str = "and") -> str:
    """`a, b and c`."""
    return f" {last} ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def small_print(notes: Iterable[str]) -> list[Block]:
    """Quiet lines under a picture, or nothing where there are none."""
    lines = [paragraph(note, look="quiet") for note in notes]
    return [stack(lines, gap=1)] if lines else []
