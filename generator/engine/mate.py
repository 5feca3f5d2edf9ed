"""Which contacts touch when two halves are pushed together: fully home, and at every step on the way in.

Concentric connectors are worked out from dimensions. A spring at position p (mm from the tip end of a plug
that is fully home) touches the plug at p - x while the plug is still x mm short of home. Makers place springs
differently, so a spring may be anywhere in its interval and every place it can land is a state of its own.
Circular, coaxial and rectangular ones follow the order of make: what stands further forward touches first,
contacts that stand equal touch in any order. A plug that goes in two ways round is home in both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, pairwise, product

from generator.catalogue.records import Connector, Half, Spring

from .constants import SMALL_GROUP

Touch = tuple[str, str]  # contact of the first half, contact of the second
State = frozenset[Touch]

PLUGS, RECEPTACLES = ("plug", "male"), ("jack", "female")
OPPOSITE = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}


@dataclass(frozen=True)
class Mating:
    """How two halves meet: every way they can sit fully home, and every state met before that. `turned` are
    the home states of a plug put in the other way round."""

    home: tuple[State, ...]
    travel: tuple[State, ...]
    turned: frozenset[State] = frozenset()

    def swapped(self) -> "Mating":
        """The same with the halves named the other way round."""
        swap = lambda state: frozenset((b, a) for a, b in state)
        return Mating(
            tuple(map(swap, self.home)), tuple(map(swap, self.travel)), frozenset(map(swap, self.turned))
        )


def fits(first: tuple[Connector, str], second: tuple[Connector, str]) -> bool:
    """Do these two halves go into each other?"""
    (one, half_one), (two, half_two) = first, second
    if half_one in PLUGS and half_two in RECEPTACLES:
        return fits(second, first)
    if half_one not in RECEPTACLES or half_two not in PLUGS or one.shape != two.shape:
        return False
    return one.bore == two.bore or two.id in one.takes


@lru_cache(maxsize=4096)
def mate(first: tuple[Connector, str], second: tuple[Connector, str]) -> Mating | None:
    """The mating of two halves with touches as (first's contact, second's contact);
    None if they do not fit."""
    if not fits(first, second):
        return None
    if first[1] in PLUGS:
        return mate(second, first).swapped()
    receptacle, plug = first[0].halves[first[1]], second[0].halves[second[1]]
    if first[0].shape == "concentric":
        return _concentric(receptacle, plug)
    matings = [_by_order_of_make(receptacle, touches) for touches in _ways_round(first[0], second[0])]
    home = _unique(state for mating in matings for state in mating.home)
    travel = _unique(state for mating in matings for state in mating.travel if state not in home)
    return Mating(home, travel, frozenset(home) - frozenset(matings[0].home))


def _concentric(jack: Half, plug: Half) -> Mating:
    home = _unique(_states(jack.springs, plug.segments, 0.0))
    travel = _unique(
        state for x in _withdrawals(jack, plug) for state in _states(jack.springs, plug.segments, x)
    )
    return Mating(home, tuple(state for state in travel if state and state not in home))


def _states(
    springs: Mapping[str, Spring], segments: Mapping[str, tuple[float, float]], x: float
) -> Iterator[State]:
    """Every combination of landings with the plug x mm short of home."""
    names = list(springs)
    for landings in product(*(_landings(springs[name], segments, x) for name in names)):
        yield frozenset((name, segment) for name, landing in zip(names, landings) for segment in landing)


def _landings(spring: Spring, segments: Mapping[str, tuple[float, float]], x: float) -> list[tuple[str, ...]]:
    """The sets of segments a spring can touch, over all the places its maker may have put it."""
    half = spring.width / 2
    edges = {edge + x + side for low_high in segments.values() for edge in low_high for side in (-half, half)}
    places = _middles(sorted({spring.near, spring.far} | {e for e in edges if spring.near < e < spring.far}))
    found = []
    for place in places:
        low, high = place - x - half, place - x + half
        landing = tuple(name for name, (start, end) in segments.items() if low < end and start < high)
        if landing not in found:
            found.append(landing)
    return found


def _withdrawals(jack: Half, plug: Half) -> list[float]:
    """One x for each stretch of the way in over which nothing changes, from first touch to home."""
    ends = [end for segment in plug.segments.values() for end in segment]
    edges = {
        p + side - end
        for spring in jack.springs.values()
        for p in (spring.near, spring.far)
        for side in (-spring.width / 2, spring.width / 2)
        for end in ends
    }
    return _middles(sorted({0.0} | {edge for edge in edges if edge > 0}))[::-1]


def _middles(points: list[float]) -> list[float]:
    if len(points) == 1:
        return points
    return [(low + high) / 2 for low, high in pairwise(points)]


def _ways_round(receptacle: Connector, plug: Connector) -> list[dict[str, str]]:
    """Which contact of the plug each one of the receptacle meets, straight and, where it goes in
    that way too, turned."""
    straight = {contact: contact for contact in receptacle.contacts}
    ways = [straight, straight | receptacle.turned] if receptacle.turned else [straight]
    return [{own: other for own, other in way.items() if other in plug.contacts} for way in ways]


def _by_order_of_make(receptacle: Half, shared: Mapping[str, str]) -> Mating:
    def same(contacts: Iterable[str]) -> State:
        return frozenset((contact, shared[contact]) for contact in contacts)

    forward = {contact: receptacle.forward.get(contact, 0.0) for contact in shared}
    travel, made = [], []
    for reach in sorted(set(forward.values()), reverse=True):
        group = sorted(contact for contact in shared if forward[contact] == reach)
        sizes = range(1, len(group) + 1) if len(group) <= SMALL_GROUP else (1, len(group) - 1, len(group))
        travel += [same([*made, *some]) for size in sizes for some in combinations(group, size)]
        made += group
    return Mating((same(shared),), tuple(state for state in _unique(travel) if len(state) < len(shared)))


def _unique(states: Iterable[State]) -> tuple[State, ...]:
    return tuple(dict.fromkeys(states))
