"""A contact of a face: its disc, the ring around it in the pattern of what it carries, its name, and the
place where the role is written.

The place (`Slot`) is the same whatever the contact carries, so that a page may change the
words without drawing anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drawing import roles, text
from generator.drawing.scene import Circle, Group, Item, Path, Text, polyline

NUMERAL = 24  # px, as large as one reads at arm's length
FEWEST = 13  # px, the smallest a long name may become
RING = 4  # px from a disc to the middle of its ring


@dataclass(frozen=True)
class Slot:
    """Where a role is written: the middle of its lines in y, `room` px wide."""

    x: float
    y: float
    anchor: str
    size: float
    room: float

    def lines(self, words: str) -> list[str]:
        return text.wrap(words, self.size, self.room) if words else []

    def texts(self, words: str) -> list[Text]:
        lines, pitch = self.lines(words), self.size * text.LEADING
        top = self.y - (len(lines) - 1) * pitch / 2 + self.size * 0.36
        return [
            Text(self.x, top + number * pitch, line, self.size, self.anchor, look="word")
            for number, line in enumerate(lines)
        ]


def contact(
    name: str,
    role: str | None,
    slot: Slot,
    drawn: Sequence[Item],
    paths: Sequence[Item],
    names: Sequence[Item],
    said: bool,
) -> Group:
    """One contact as a group a page can light up: what carries it (`paths`, any look), what it is, its name
    once or twice, its role in words if any assignment is shown at all (`said`)."""
    kind = roles.kind(role) if said else "nothing"
    lines = [replace(path, look=look) for path in paths for look in _looks(kind, said)]
    return Group(
        (*lines, *drawn, *names, *(slot.texts(roles.words(role)) if said else [])),
        title=roles.spoken(name, role),
        name=name,
        slot=(slot.x, slot.y, slot.anchor, slot.size, slot.room),
    )


def _looks(kind: str, said: bool) -> tuple[str, ...]:
    """An edge in ink and the pattern over it; a hair line where nothing is known to be carried."""
    if not said:
        return ("role-none",)
    return ("role-nothing", "role-nothing") if kind == "nothing" else ("role-edge", f"role-{kind}")


def numeral(
    name: str,
    x: float,
    y: float,
    room: float,
    anchor: str = "middle",
    filled: bool = False,
    weight: str = "bold",
) -> Text:
    """A contact's name in the middle of its disc (or beside it), as large as fits into
    `room` px, NUMERAL at most."""
    size = min(NUMERAL, max(FEWEST, room / max(text.width(name, 1, weight), 0.01)))
    return Text(x, y + size * 0.365, name, round(size, 1), anchor, weight, "knock" if filled else "ink")


def ring(x: float, y: float, radius: float) -> Circle:
    return Circle(x, y, radius + RING)


def wire(points: Sequence[tuple[float, float]]) -> Path:
    """A conductor from a contact to its word."""
    return polyline(points)
