"""What is plugged into what, read a second time: numbered nets, parts, contacts that may touch.

Which halves go into each other and which contacts touch on the way is the engine's (`ways`, `assemble`,
`mate`); which states follow from it (`states.py`), which nets there are and what stands in their equations
are worked out here again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from states import States, states

from generator.catalogue.records import Catalogue, Lead, Limit, Part, Port
from generator.engine.assemble import assemble, ways

CONTACT = 0.01  # ohm, of a closed contact
AIR = 1e-12  # S from each net to ground, so that nothing hangs in the air: 48 picoamperes of 48 V
THIN = 1e-6  # ohm in series with every source and winding, so that a loop of them has a solution
LARGE = 1e-6  # F; smaller capacitors are full or empty before a plug has moved


class Piece(NamedTuple):
    """A part with its place and the nets of its two ends."""

    place: str
    part: Part
    a: int
    b: int

    @property
    def id(self) -> str:
        return f"{self.place}/{self.part.id}"


class Rated(NamedTuple):
    """A limit with its place, the number of the piece it is about (None where it is about two nets) and
    the two nets."""

    place: str
    limit: Limit
    piece: int | None
    a: int
    b: int


@dataclass(frozen=True)
class Wiring:
    """One way of plugging a chain, with every state it can be in. Unknowns are the voltages of all nets,
    then a current, a to b, of every source and winding."""

    places: dict[str, Port | Lead]
    pieces: tuple[Piece, ...]
    couplings: tuple[tuple[int, int, float], ...]
    contacts: tuple[tuple[int, int], ...]
    states: States
    rated: tuple[Rated, ...]
    nets: int

    @property
    def closed(self) -> np.ndarray:
        return self.states.closed

    @property
    def kinds(self) -> np.ndarray:
        return self.states.kinds

    @property
    def ports(self) -> dict[str, Port]:
        return {place: record for place, record in self.places.items() if isinstance(record, Port)}

    def of(self, *kinds: str) -> tuple[int, ...]:
        """The numbers of the pieces of some kinds."""
        return tuple(i for i, piece in enumerate(self.pieces) if piece.part.kind in kinds)

    @cached_property
    def large(self) -> tuple[int, ...]:
        """The capacitors that hold what they hold while a plug moves."""
        return tuple(i for i in self.of("capacitor") if self.pieces[i].part.value.nominal >= LARGE)

    @cached_property
    def supplies(self) -> tuple[int, ...]:
        """The sources that push direct current."""
        return tuple(i for i in self.of("emf") if self.pieces[i].part.value.nominal)

    @cached_property
    def branch(self) -> dict[int, int]:
        """Piece -> which unknown is its current."""
        return {i: self.nets + k for k, i in enumerate(self.of("emf", "inductor"))}

    @cached_property
    def size(self) -> int:
        return self.nets + len(self.branch)

    @cached_property
    def frame(self) -> np.ndarray:
        """What does not depend on values: the leak of every net, and v(a) - v(b) = ... of every branch,
        (size, size)."""
        matrix = np.diag([AIR] * self.nets + [-THIN] * len(self.branch))
        for i, row in self.branch.items():
            for net, sign in ((self.pieces[i].a, 1.0), (self.pieces[i].b, -1.0)):
                matrix[net, row] += sign
                matrix[row, net] += sign
        return matrix

    @cached_property
    def stamps(self) -> np.ndarray:
        """What a siemens in place of each piece adds, (pieces, size * size)."""
        return _siemens([(piece.a, piece.b) for piece in self.pieces], self.size)

    @cached_property
    def touching(self) -> np.ndarray:
        """What closed contacts add in each state, (states, size, size)."""
        added = (self.closed / CONTACT) @ _siemens(self.contacts, self.size)
        return added.reshape(len(self.closed), self.size, self.size)

    @cached_property
    def joined(self) -> dict:
        """What `islands` has found out so far."""
        return {}


def wirings(
    catalogue: Catalogue, pairing: tuple[str, Sequence[str], str], partners: bool = False
) -> Iterator[Wiring]:
    """Every way of plugging a pairing that its verdict rests on; with `partners` the others: spare ends of
    a lead that is made for several like devices, in something else. Raises CircuitError where no circuit
    can have these values."""
    start, target = catalogue.ports[pairing[0]], catalogue.ports[pairing[2]]
    leads = [catalogue.leads[name] for name in pairing[1]]
    for way in ways(catalogue, start, leads, target):
        if (bool(way.plugged) and not getattr(way, "meant", True)) != partners:
            continue
        made = assemble(catalogue, start, leads, target, way)
        yield wiring(dict(made.places), made.interfaces, len(leads) + 1)


def wiring(places: dict[str, Port | Lead], interfaces: Sequence, main: int) -> Wiring:
    """The wiring of some places; the first `main` interfaces lead from outlet to inlet, the others are of
    spare ends."""
    touches = [
        sorted({touch for state in (*made.mating.home, *made.mating.travel) for touch in state})
        for made in interfaces
    ]
    pairs = [(made.nodes[0][a], made.nodes[1][b]) for made, some in zip(interfaces, touches) for a, b in some]
    earth = _may_be_earthed(places)
    if earth:
        pairs.append(("from/chassis", "into/chassis"))
    net = _Nets(
        (f"{place}/{part.a}", f"{place}/{part.b}")
        for place, record in places.items()
        for part in record.network.parts
        if part.kind == "wire"
    )
    pieces = tuple(
        Piece(place, part, net(f"{place}/{part.a}"), net(f"{place}/{part.b}"))
        for place, record in places.items()
        for part in record.network.parts
        if part.kind != "wire"
    )
    contacts = tuple((net(a), net(b)) for a, b in pairs)
    at = {piece.id: i for i, piece in enumerate(pieces)}
    couplings = tuple(
        (at[f"{place}/{c.first}"], at[f"{place}/{c.second}"], c.k)
        for place, record in places.items()
        for c in record.network.couplings
    )
    rated = []
    for place, record in places.items():
        for limit in record.network.limits:
            piece = at.get(f"{place}/{limit.part}") if limit.part else None
            if limit.part and piece is None or limit.settled is None and limit.momentary is None:
                continue  # a wire carries no number; a rating nobody knows is not for this reader
            nodes = limit.between or (pieces[piece].part.a, pieces[piece].part.b)
            rated.append(Rated(place, limit, piece, *(net(f"{place}/{node}") for node in nodes)))
    found = states(interfaces, touches, main, earth)
    return Wiring(places, pieces, couplings, contacts, found, tuple(rated), net.count)


class _Nets:
    """Nodes that wires join have one number."""

    def __init__(self, wires: Iterator[tuple[str, str]]) -> None:
        self._stands_for: dict[str, str] = {}
        self._numbers: dict[str, int] = {}
        for a, b in wires:
            self._stands_for[self._root(a)] = self._root(b)

    def _root(self, node: str) -> str:
        while (other := self._stands_for.get(node, node)) != node:
            node = other
        return node

    def __call__(self, node: str) -> int:
        return self._numbers.setdefault(self._root(node), len(self._numbers))

    @property
    def count(self) -> int:
        return len(self._numbers)


def _may_be_earthed(places: dict[str, Port | Lead]) -> bool:
    """Both devices have metalwork, and neither says that mains earth cannot reach it."""

    def has_metal(port: Port) -> bool:
        return any("chassis" in (part.a, part.b) for part in port.network.parts)

    return all(has_metal(places[side]) and places[side].earthed != "no" for side in ("from", "into"))


def _siemens(pairs: Sequence[tuple[int, int]], size: int) -> np.ndarray:
    legs = np.zeros((len(pairs), size))
    for leg, (a, b) in zip(legs, pairs):
        leg[a] += 1
        leg[b] -= 1
    return (legs[:, :, None] * legs[:, None]).reshape(len(pairs), size * size)
