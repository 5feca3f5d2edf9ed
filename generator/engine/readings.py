"""What an instrument would show: the numbers a verdict rests on, before any rule has looked at them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.catalogue.records import Evidence, Lead, Port

MAIN = "main"  # the channel of a device that has one only
Decides = str | tuple[str, str]  # a part's id, or two nodes between which a number is measured
Term = tuple[str, float, str]  # words, number, unit


@dataclass(frozen=True)
class Named:
    """A device or lead of the connection, to be named when a sentence is made: readings of equal circuits are
    equal, names are not."""

    place: str
    channel: str = MAIN

    def __call__(self, places: Mapping[str, Port | Lead]) -> str:
        """`the mixer line input`, or `the left channel of the camera` where a device has several; `my
        microphone` for one's own."""
        name = spoken(short(places[self.place]))
        name = name if name.startswith("my ") else f"the {name}"
        return name if self.channel == MAIN else f"the {side(self.channel)} of {name}"


@dataclass(frozen=True)
class At:
    """Where in the stack of cases a number was found: enough to solve that one case again. `state` is the
    number of a state of the assembly; `corner` the tolerances, `off` what a supply does that is switched
    off; `decides` the part, or the two nodes, the number is read at; `shared` whether hanging pieces are
    where their charge is shared.
    For an instant `before` tells the position (a setting with one kind of off) and the state, of
    `Capacitors.settled`, in which the capacitors were charged, `driven` the position now. For signal `source`
    is the one that is shown, at `level` V and `hertz`; for hum `pair` numbers the powering."""

    nature: str  # direct | instant | signal | hum | test
    state: int
    decides: Decides
    corner: str = "nominal"
    off: str = ""
    shared: bool = False
    before: tuple[int, int] = (0, 0)
    driven: int = 0
    hertz: float = 1000.0
    source: str = ""
    level: float = 1.0
    bare: bool = False
    pair: int = 0


@dataclass(frozen=True)
class Reading:
    """One number. `subject` tells readings of one quantity apart (place/part), `where` says it in words.
    `state` is settled, plugging, switching or signal; `setting` is the number of the supply setting, None
    where supplies do not matter. `limit` is the part's own rating where it has one; `evidence` says how
    that is known. `words` fill the {names} in the rulebook's sentences; `flags` are what a rule's `only`
    looks at. `at` is where it was found, None where no voltage or current decides; `terms` are the
    numbers it is made of."""

    quantity: str
    subject: str
    where: str
    value: float
    unit: str
    state: str
    setting: int | None = None
    limit: float | None = None
    evidence: Evidence | None = None
    words: Mapping[str, str | float | Named] = field(default_factory=dict)
    flags: Mapping[str, str] = field(default_factory=dict)
    at: At | None = None
    terms: tuple[Term, ...] = ()


def short(record: Port | Lead) -> str:
    """A device's or lead's name up to its first comma: enough in a sentence that shows
    it in full elsewhere."""
    return record.name.split(",")[0]


def spoken(name: str) -> str:
    """A name inside a sentence: `mixer line input`, but `XLR lead`, `USB-C headset` and `T-power input`."""
    return name[0].lower() + name[1:] if name[1:2].islower() else name


def side(channel: str) -> str:
    """`left channel`; `channel 7` for `ch7`."""
    number = re.fullmatch(r"ch(?:annel-)?(\d+)", channel)
    return f"channel {number[1]}" if number else f"{channel} channel"


def part_name(record: Port | Lead, part: str) -> str | None:
    """The words the catalogue has for a part, from a limit on it; with its channel where the
    device has several alike."""
    return next((limit_name(record, limit) for limit in record.network.limits if limit.part == part), None)


def limit_name(record: Port | Lead, limit) -> str:
    """A limit's `where`, with its channel, or which conductor of a cable, where there are several alike."""
    alike = [
        other
        for other in record.network.limits
        if other.where == limit.where and other.quantity == limit.quantity
    ]
    channel, _, rest = limit.id.partition(".")
    which = rest if channel == limit.where else channel
    return f"{limit.where} ({which})" if len(alike) > 1 and rest and which != MAIN else limit.where


def channel_word(channel: str) -> str:
    """What a channel is called in a sentence: `signal` where a device has one only."""
    return "signal" if channel == MAIN else channel
