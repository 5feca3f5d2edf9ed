"""What a connector is known by from outside: its side view, how its face is held, its key, and which
assignments one meets first.

Nothing here decides a verdict; `Outside` is left out of what a verdict rests on. A side view is a row
of pieces from the mating end to the cable, each as long and as wide as it is seen. A piece without a
width is as wide as its half.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .records import Evidence

PIECES = {  # in the words an author writes; how each is painted stands in drawing/bodies.py
    "barrel": "a phone plug's bands, as long as its segments say",
    "tube": "a plain tube",
    "shell": "a metal shell around the contacts",
    "petals": "a shell slit into springy leaves",
    "pin": "one pin in the middle",
    "pins": "a pin at every place of the face",
    "posts": "a round post at every place of the face",
    "strands": "bare strands at every place of the face",
    "collar": "a ring one turns or pulls",
    "thread": "an outside thread",
    "nut": "a nut",
    "block": "a plain body",
    "hood": "a hood with screws",
    "grip": "a handle",
    "boot": "strain relief, tapering",
    "flange": "a plate that is screwed down",
    "wall": "the panel it is built into",
    "tags": "solder tags",
}
MARKS = {
    "latch": "a catch that springs out",
    "tab": "a tab one presses",
    "window": "the opening a catch drops into",
    "clip": "a springy tab below",
    "dot": "a red dot",
    "lugs": "two studs of a bayonet",
    "slot": "the slot of a bayonet",
    "key": "a key along it",
    "screws": "two screws",
    "inside-thread": "a thread inside",
    "insulator": "an insulating rim at the front",
    "stripe": "a stripe on one side",
}
MOUNTS = ("cable", "panel")
SEEN_FROM = ("the side", "above")
HELD = ("latch up", "key up", "notch down", "tab down", "long row up", "any way")
KEYS = ("ridge", "slot", "notch", "tab")


@dataclass(frozen=True)
class Piece:
    """A stretch of a side view, in mm: `wide` in front, `back` where it ends."""

    kind: str
    long: float
    wide: float
    back: float
    marks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Outside:
    """`body`: half -> mount (cable, panel) -> pieces from the mating end; `evidence` is the body's
    own. `held` is which way up the pictures hold the face, `keyed` what the key is on each half.
    `usual` are assignments in the order in which one meets them, `seldom` those one hardly ever does;
    the others lie between."""

    body: Mapping[str, Mapping[str, tuple[Piece, ...]]] = field(default_factory=dict)
    seen_from: str = SEEN_FROM[0]
    evidence: Evidence | None = None
    held: str = "any way"
    keyed: Mapping[str, str] = field(default_factory=dict)
    usual: tuple[str, ...] = ()
    seldom: tuple[str, ...] = ()
