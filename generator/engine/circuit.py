"""A circuit of two-terminal parts and switches, ready to be solved: nets, values and the
stamps of nodal analysis.

Modified nodal analysis: unknowns are the net voltages, then one current for each emf and inductor (flowing
from a to b inside the part). Nothing here knows what the circuit is for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import isfinite, nan

import numpy as np

from generator.catalogue.records import Coupling, Part

BRANCHED = ("emf", "inductor")
# kinds no direct current, no signal passes through
DIRECT_OPENS, SIGNAL_OPENS = ("capacitor",), ("sink", "clamp")


class CircuitError(ValueError):
    """The circuit has no single solution; the message names the parts."""


@dataclass(frozen=True)
class Circuit:
    """Parts between numbered nets; `switches` are contacts that may be closed (CONTACT_OHM) or open.

    `nets` maps a node name to its number; `anchors` are nets that serve as an island's 0 V, best first.
    """

    parts: tuple[Part, ...]
    couplings: tuple[Coupling, ...]
    ends: tuple[tuple[int, int], ...]
    switches: tuple[tuple[int, int], ...]
    nets: Mapping[str, int]
    net_count: int
    anchors: tuple[int, ...]

    @cached_property
    def size(self) -> int:
        """Unknowns of the nodal equations."""
        return self.net_count + len(self.branches)

    @cached_property
    def branches(self) -> dict[str, int]:
        """Part id -> index of its current among the unknowns."""
        names = [part.id for part in self.parts if part.kind in BRANCHED]
        return {name: self.net_count + i for i, name in enumerate(names)}

    @cached_property
    def index(self) -> dict[str, int]:
        """Part id -> its number."""
        return {part.id: i for i, part in enumerate(self.parts)}

    @cached_property
    def kinds(self) -> np.ndarray:
        """The kind of each part, (parts,)."""
        return np.array([part.kind for part in self.parts], dtype="U9")

    @cached_property
    def part_patterns(self) -> np.ndarray:
        """What one siemens in place of each part adds to the matrix: (parts, size * size)."""
        return conductances(self.ends, self.size)

    @cached_property
    def switch_patterns(self) -> np.ndarray:
        """What one siemens in place of each switch adds to the matrix: (switches, size * size)."""
        return conductances(self.switches, self.size)

    @cached_property
    def frame(self) -> np.ndarray:
        """What stands in the matrix whatever the values are: the currents of emfs and windings and their v(a)
        - v(b) = ..., (size, size)."""
        matrix = np.zeros((self.size, self.size))
        for part, (a, b) in zip(self.parts, self.ends):
            if part.kind in BRANCHED:
                row = self.branches[part.id]
                for net, sign in ((a, 1), (b, -1)):  # the current leaves net a and enters net b
                    matrix[net, row] += sign
                    matrix[row, net] += sign
        return matrix

    @cached_property
    def links(self) -> np.ndarray:
        """Every two nets that a part or a switch lies between, (2, links)."""
        pairs = sorted(
            {(min(pair), max(pair)) for pair in (*self.ends, *self.switches) if pair[0] != pair[1]}
        )
        return np.array(pairs, dtype=int).reshape(-1, 2).T

    @cached_property
    def into_nets(self) -> np.ndarray:
        """How the currents of `links`, and after them those of emfs and windings, sum up in the nets: (nets,
        currents)."""
        incidence = np.zeros((self.net_count, self.links.shape[1]))
        for link, (a, b) in enumerate(self.links.T):
            incidence[a, link], incidence[b, link] = 1, -1
        return np.hstack([incidence, -self.frame[: self.net_count, self.net_count :]])

    def zeros(self, closed: np.ndarray, opens: Sequence[str] = DIRECT_OPENS) -> np.ndarray:
        """For every switch state and net the net taken as 0 V of its connected piece: an anchor where there
        is one, else the lowest net.

        `closed` (states, switches) -> (states, nets). Two nets are in one piece exactly if
        their entries are equal.
        """
        if opens not in self._pieces:
            self._pieces[opens] = self._apart(opens)
        lows, within, links = self._pieces[opens]
        reach = np.zeros((len(closed), len(lows), len(lows)), dtype=np.float32)
        reach[:, range(len(lows)), range(len(lows))] = 1
        for (one, two), shut in zip(links, closed.T):
            reach[:, one, two] = reach[:, two, one] = np.maximum(reach[:, one, two], shut)
        # each round doubles the number of switches a step may cross
        for _ in range((len(lows) - 1).bit_length()):
            reach = np.minimum(reach @ reach, 1)
        return lows[reach.argmax(axis=-1)][:, within]

    @cached_property
    def _pieces(self) -> dict:
        return {}

    def _apart(self, opens: Sequence[str]) -> tuple[np.ndarray, np.ndarray, list[tuple[int, int]]]:
        """With all switches open: the 0 V of each piece, for each net the number of its piece, and for each
        switch the pieces it joins."""
        order = list(dict.fromkeys((*self.anchors, *range(self.net_count))))
        rank = {net: i for i, net in enumerate(order)}
        joined = _Union(self.net_count)  # by rank, so that the lowest stands for its piece
        for part, (a, b) in zip(self.parts, self.ends):
            if part.kind not in opens:
                joined.join(rank[a], rank[b])
        lows = [joined.find(rank[net]) for net in range(self.net_count)]
        pieces = sorted(set(lows))
        place = {low: i for i, low in enumerate(pieces)}
        within = [place[low] for low in lows]
        return np.array(order)[pieces], np.array(within), [(within[a], within[b]) for a, b in self.switches]

    def islands(self, closed: Sequence[bool], opens: Sequence[str] = DIRECT_OPENS) -> list[int]:
        """The 0 V nets of one switch state, one for each connected piece."""
        return sorted(set(self.zeros(np.array([closed], dtype=bool).reshape(1, -1), opens)[0].tolist()))


def build(
    parts: Iterable[Part],
    couplings: Iterable[Coupling],
    switches: Iterable[tuple[str, str]],
    anchors: Iterable[str] = (),
) -> Circuit:
    """Merge what wires join into nets and number them in order of first mention."""
    parts, switches, anchors = tuple(parts), tuple(switches), tuple(anchors)
    names: dict[str, int] = {}
    for node in (
        *anchors,
        *(n for part in parts for n in (part.a, part.b)),
        *(n for pair in switches for n in pair),
    ):
        names.setdefault(node, len(names))
    joined = _Union(len(names))
    for part in parts:
        if part.kind == "wire":
            joined.join(names[part.a], names[part.b])
    numbers: dict[int, int] = {}
    nets = {node: numbers.setdefault(joined.find(i), len(numbers)) for node, i in names.items()}
    # A part with both ends on one net carries nothing that matters; an emf there would be
    # a short across itself.
    kept = tuple(
        part
        for part in parts
        if part.kind != "wire" and (nets[part.a] != nets[part.b] or part.kind in BRANCHED)
    )
    for part in kept:
        if part.kind == "emf" and nets[part.a] == nets[part.b]:
            raise CircuitError(f"emf '{part.id}' is shorted by wire: both its ends are on one net")
    return Circuit(
        kept,
        tuple(couplings),
        tuple((nets[p.a], nets[p.b]) for p in kept),
        tuple((nets[a], nets[b]) for a, b in switches),
        nets,
        len(numbers),
        tuple(nets[a] for a in anchors),
    )


def hold_possible(parts: Iterable[Part], couplings: Iterable[Coupling]) -> None:
    """Raise CircuitError for a value no part can have. The catalogue refuses such files; records
    may come from elsewhere."""
    for part in parts:
        if part.kind == "wire":
            continue
        values = [part.value.nominal, part.value.low, part.value.high] if part.value else [nan]
        bend = (
            [{"sink": part.knee, "clamp": part.series}[part.kind] or nan]
            if part.kind in ("sink", "clamp")
            else []
        )
        above_zero = [*bend, *(values if part.kind in ("resistor", "capacitor", "inductor") else ())]
        not_below = values if part.kind in ("sink", "clamp") else []
        if not (
            all(map(isfinite, (*values, *bend)))
            and all(n > 0 for n in above_zero)
            and all(n >= 0 for n in not_below)
            and 0 <= part.match < 2
        ):
            raise CircuitError(f"part '{part.id}' has no possible value")
    for coupling in couplings:
        if not 0 < coupling.k < 1:
            raise CircuitError(
                f"windings '{coupling.first}' and '{coupling.second}' have no possible coupling"
            )


def resistive(circuit: Circuit) -> Circuit:
    """The circuit without its capacitors: what direct current sees."""
    return rebuilt(
        circuit,
        [(part, *ends) for part, ends in zip(circuit.parts, circuit.ends) if part.kind != "capacitor"],
    )


def rebuilt(circuit: Circuit, parts: Iterable[tuple[Part, int, int]], extra: Iterable[Part] = ()) -> Circuit:
    """A circuit on the same nets, switches and anchors with other parts (each with its nets); nets are then
    named `net0`, `net1` ..."""
    moved = [replace(part, a=f"net{a}", b=f"net{b}") for part, a, b in parts]
    keep = [(f"net{a}", f"net{b}") for a, b in circuit.switches]
    return build([*moved, *extra], circuit.couplings, keep, [f"net{net}" for net in circuit.anchors])


def value_at(part: Part, corner: str) -> float:
    """A part's value at a tolerance corner: `strong` has the highest sources and the lowest resistances and
    loads, `weak` the opposite, `skewed` pulls matched pairs apart by their mismatch."""
    quantity = part.value
    if corner == "nominal" or quantity is None:
        return quantity.nominal if quantity else 0.0
    if corner == "skewed":
        return quantity.nominal * (1 + part.skew * part.match / 2)
    # An emf may be written negative (a rail below 0 V); strong means the larger magnitude.
    low, high = sorted((quantity.low, quantity.high), key=abs)
    raised = part.kind == "emf"
    if part.kind in ("capacitor", "inductor", "clamp"):
        return quantity.nominal
    return high if raised == (corner == "strong") else low


class _Union:
    """Disjoint sets; the lowest member stands for its set, so numbering never depends on order of joining."""

    def __init__(self, count: int) -> None:
        self.parent = list(range(count))

    def find(self, item: int) -> int:
        while self.parent[item] != item:
            self.parent[item] = self.parent[self.parent[item]]
            item = self.parent[item]
        return item

    def join(self, one: int, two: int) -> None:
        one, two = self.find(one), self.find(two)
        self.parent[max(one, two)] = min(one, two)


def conductances(pairs: Sequence[tuple[int, int]], size: int) -> np.ndarray:
    """What one siemens between each pair of nets adds to the matrix: (pairs, size * size)."""
    incidence = np.zeros((len(pairs), size))
    rows = np.arange(len(pairs))
    ends = np.array(pairs, dtype=int).reshape(-1, 2)
    np.add.at(incidence, (rows, ends[:, 0]), 1.0)
    np.add.at(incidence, (rows, ends[:, 1]), -1.0)
    return (incidence[:, :, None] * incidence[:, None, :]).reshape(len(pairs), size * size)
