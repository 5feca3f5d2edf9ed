"""What is put together for one way to connect: the places, where they meet, and the states of plugging."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.catalogue.records import Lead, Port

from .circuit import Circuit
from .mate import Mating, Touch
from .powering import Pair

EARTHS = "earths"  # the emf that stands for a difference between two chassis
RESISTANCE, CAPACITANCE = "earths/resistance", "earths/capacitance"  # what limits its current


@dataclass(frozen=True)
class Plugged:
    """A spare end in use: lead number from 0, end, the port it is in, and what that is called
    (from2, into2, extra1 ...)."""

    lead: int
    end: str
    port: str
    place: str


@dataclass(frozen=True)
class Way:
    """One way to connect: for each lead its end towards From and towards Into, and what its spare ends are
    in. `meant` is False for another use of a lead than the one it is made for: only a danger counts there."""

    ends: tuple[tuple[str, str], ...]
    plugged: tuple[Plugged, ...] = ()
    meant: bool = True


@dataclass(frozen=True)
class Interface:
    """Two halves meeting: the places on both sides, their contacts' nodes, the mating, and whether the
    second half is the plug."""

    sides: tuple[str, str]
    nodes: tuple[Mapping[str, str], Mapping[str, str]]
    mating: Mating
    plug_last: bool


@dataclass(frozen=True)
class Assembly:
    """Everything the measurements need. `touches` are the interface and the contacts of each switch, in the
    order of the circuit's switches. `home` are the switch states fully plugged, `joined` the same with both
    chassis tied by mains earth (none where that cannot be), `plugging` those on the way, without and with
    that earth; `plugging_at` names the interface of each of the latter. `turned` tells of each home state
    whether a plug sits the other way round; `halves` are states with one joint still open and all others
    home; `pairs` are the ways the two devices may be powered, worst first."""

    places: Mapping[str, Port | Lead]
    interfaces: tuple[Interface, ...]
    touches: tuple[tuple[int, Touch], ...]
    circuit: Circuit  # as it is
    linked: Circuit | None  # with an emf between the chassis of From and Into; None where one has no chassis
    bare: Circuit  # without the capacitance of the cables
    home: tuple[tuple[bool, ...], ...]
    joined: tuple[tuple[bool, ...], ...]
    plugging: tuple[tuple[bool, ...], ...]
    plugging_at: tuple[int, ...]
    turned: tuple[bool, ...]
    halves: tuple[tuple[bool, ...], ...]
    pairs: tuple[Pair, ...]

    @cached_property
    def ports(self) -> dict[str, Port]:
        """The ports by place: from, into, then further ones."""
        return {place: record for place, record in self.places.items() if isinstance(record, Port)}

    @property
    def settled(self) -> tuple[tuple[bool, ...], ...]:
        """All states fully plugged."""
        return (*self.home, *self.joined)

    @property
    def states(self) -> tuple[tuple[bool, ...], ...]:
        """All states: home, joined, plugging."""
        return (*self.home, *self.joined, *self.plugging)

    @property
    def apart(self) -> tuple[bool, ...]:
        """The state with nothing plugged."""
        return tuple(False for _ in self.circuit.switches)

    def group(self, side: str) -> list[str]:
        """The places on one side of the question: `from` or `into`, and further devices of that kind."""
        return [place for place in self.ports if place == side or place.removeprefix(side).isdigit()]
