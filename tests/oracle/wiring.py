"""What is plugged into what, read a second time: numbered nets, contacts that may touch, and every state they can be in.

Which halves go into each other and which contacts touch on the way is the engine's (`ways`, `assemble`, `mate`); which states follow from it, which
nets there are and what each part is worth at a tolerance corner are worked out here again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from typing import NamedTuple

import numpy as np

from generator.catalogue.records import Catalogue, Lead, Limit, Part, Port
from generator.engine.assemble import assemble, ways

HOME, PLUGGING, APART = "home", "plugging", "apart"
CORNERS = ("nominal", "weak", "strong", "apart pairs")
CONTACT = 0.01  # ohm, of a closed contact
AIR = 1e-11  # S from each net to ground, so that nothing hangs in the air: half a nanoampere of 48 V
THIN = 1e-6  # ohm in series with every source and winding, so that a loop of them has a solution
LARGE = 1e-6  # F; smaller capacitors are full or empty before a plug has moved


class Piece(NamedTuple):
    """A part with its place, the nets of its two ends, and its number among the pieces."""

    place: str
    part: Part
    a: int
    b: int

    @property
    def id(self) -> str:
        return f"{self.place}/{self.part.id}"


class Rated(NamedTuple):
    """A limit with its place, the piece it is about (None where it is about two nets) and the two nets."""

    place: str
    limit: Limit
    piece: int | None
    a: int
    b: int


@dataclass(frozen=True)
class Wiring:
    """One way of plugging a chain. `closed` (states, contacts); `kinds` and `earthed` tell of each state whether it is home, plugging or
    apart, and whether both chassis are tied by mains earth. The last state is everything apart. Unknowns are the voltages of all nets, then a
    current, a to b, of every source and winding."""

    places: dict[str, Port | Lead]
    pieces: tuple[Piece, ...]
    couplings: tuple[tuple[int, int, float], ...]
    contacts: tuple[tuple[int, int], ...]
    closed: np.ndarray
    kinds: np.ndarray
    earthed: np.ndarray
    rated: tuple[Rated, ...]
    nets: int

    @cached_property
    def branch(self) -> dict[int, int]:
        """Piece -> which unknown is its current."""
        carrying = [i for i, piece in enumerate(self.pieces) if piece.part.kind in ("emf", "inductor")]
        return {i: self.nets + k for k, i in enumerate(carrying)}

    @cached_property
    def size(self) -> int:
        return self.nets + len(self.branch)

    @cached_property
    def frame(self) -> np.ndarray:
        """What does not depend on values: a leak from every net to ground, and v(a) - v(b) = ... of every branch, (size, size)."""
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
    def large(self) -> tuple[int, ...]:
        """The capacitors that hold what they hold while a plug moves."""
        return tuple(i for i, piece in enumerate(self.pieces) if piece.part.kind == "capacitor" and piece.part.value.nominal >= LARGE)

    @cached_property
    def joined(self) -> dict:
        """What `islands` has found out so far."""
        return {}

    @property
    def ports(self) -> dict[str, Port]:
        return {place: record for place, record in self.places.items() if isinstance(record, Port)}


def wirings(catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port) -> Iterator[Wiring]:
    """Every way of plugging, in the engine's order. Raises CircuitError where no circuit can have these values."""
    for way in ways(catalogue, start, leads, target):
        made = assemble(catalogue, start, leads, target, way)
        yield wiring(dict(made.places), made.interfaces, len(leads) + 1)


def wiring(places: dict[str, Port | Lead], interfaces: Sequence, main: int) -> Wiring:
    """The wiring of some places whose first `main` interfaces lead from outlet to inlet; at the others a spare end is plugged and stays so."""
    named: dict[str, str] = {}

    def root(node: str) -> str:
        while named.setdefault(node, node) != node:
            node = named[node]
        return node

    for place, record in places.items():
        for part in record.network.parts:
            one, other = root(f"{place}/{part.a}"), root(f"{place}/{part.b}")
            if part.kind == "wire":
                named[one] = other
    touches = [sorted({touch for state in (*made.mating.home, *made.mating.travel) for touch in state}) for made in interfaces]
    pairs = [(made.nodes[0][a], made.nodes[1][b]) for made, some in zip(interfaces, touches) for a, b in some]
    earth = _may_be_earthed(places)
    if earth:
        pairs.append(("from/chassis", "into/chassis"))
    numbers: dict[str, int] = {}

    def net(node: str) -> int:
        return numbers.setdefault(root(node), len(numbers))

    pieces = tuple(Piece(place, part, net(f"{place}/{part.a}"), net(f"{place}/{part.b}"))
                   for place, record in places.items() for part in record.network.parts if part.kind != "wire")
    contacts = tuple((net(a), net(b)) for a, b in pairs)
    at = {piece.id: i for i, piece in enumerate(pieces)}
    couplings = tuple((at[f"{place}/{c.first}"], at[f"{place}/{c.second}"], c.k)
                      for place, record in places.items() for c in record.network.couplings)
    rated = []
    for place, record in places.items():
        for limit in record.network.limits:
            piece = at.get(f"{place}/{limit.part}") if limit.part else None
            if limit.part and piece is None or limit.settled is None and limit.momentary is None:
                continue  # a wire carries no number; a rating nobody knows is not for this reader
            ends = (pieces[piece].a, pieces[piece].b) if limit.part else tuple(net(f"{place}/{node}") for node in limit.between)
            rated.append(Rated(place, limit, piece, *ends))
    closed, kinds, earthed = _states(interfaces, touches, main, earth)
    return Wiring(places, pieces, couplings, contacts, closed, kinds, earthed, tuple(rated), len(numbers))


def _may_be_earthed(places: dict[str, Port | Lead]) -> bool:
    """Both devices have metalwork, and neither says that mains earth cannot reach it."""
    def has_metal(port: Port) -> bool:
        return any("chassis" in (part.a, part.b) for part in port.network.parts)

    return all(has_metal(places[side]) and places[side].earthed != "no" for side in ("from", "into"))


def _states(interfaces: Sequence, touches: Sequence, main: int, earth: bool) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """All home; one plug on its way, what lies beyond it on either side plugged or not yet; a spare end on its way, the rest home; apart."""
    homes = [made.mating.home for made in interfaces]
    found = {landed: HOME for landed in product(*homes)}
    nothing = [(frozenset(),)] * len(homes)
    for k in range(main):
        moving = [(*interfaces[k].mating.travel, frozenset())]
        for near, far in ((homes, homes), (homes, nothing), (nothing, homes)):
            for landed in product(*near[:k], *moving, *far[k + 1:main], *homes[main:]):
                found.setdefault(landed, PLUGGING)
    for k in range(main, len(interfaces)):
        for landed in product(*homes[:k], (*interfaces[k].mating.travel, frozenset()), *homes[k + 1:]):
            found.setdefault(landed, PLUGGING)
    rows = [[touch in landed[k] for k, some in enumerate(touches) for touch in some] for landed in found]
    kinds = [*found.values()]
    earthed = [False] * len(rows)
    if earth:
        rows, kinds, earthed = [[*row, tied] for tied in (False, True) for row in rows], kinds * 2, [*earthed, *(True for _ in rows)]
    rows.append([False] * (sum(map(len, touches)) + earth))
    return np.array(rows, dtype=bool).reshape(len(rows), -1), np.array([*kinds, APART]), np.array([*earthed, False])


def _siemens(pairs: Sequence[tuple[int, int]], size: int) -> np.ndarray:
    legs = np.zeros((len(pairs), size))
    for leg, (a, b) in zip(legs, pairs):
        leg[a] += 1
        leg[b] -= 1
    return (legs[:, :, None] * legs[:, None]).reshape(len(pairs), size * size)


def worth(part: Part, corner: str) -> float:
    """A part's value at a corner. Strong: sources at their highest, resistances and loads at their lowest; weak the other way round; apart
    pairs: what is only matched is off by its mismatch, one up and one down. Capacitors, windings and clamps stay nominal."""
    value = part.value
    if corner == "apart pairs":
        return value.nominal * (1 + part.skew * part.match / 2)
    if corner == "nominal" or part.kind not in ("emf", "resistor", "sink"):
        return value.nominal
    small, large = (value.low, value.high) if abs(value.low) <= abs(value.high) else (value.high, value.low)
    return large if (part.kind == "emf") == (corner == "strong") else small


def corners(wired: Wiring) -> tuple[str, ...]:
    """Those at which anything differs from nominal."""
    parts = [piece.part for piece in wired.pieces]
    spread = any(part.value.low != part.value.high for part in parts)
    return tuple(corner for corner, differs in zip(CORNERS, (True, spread, spread, any(p.skew and p.match for p in parts))) if differs)
