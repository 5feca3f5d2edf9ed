"""From, Through, Into -> circuits: which contacts can touch, in which states, and what lies behind them.

A place is `from`, `lead1` ..., `into`, or `extra1` ... for the usual partner of an end that is not part of the question;
its nodes are called `place/node`. Contacts that may touch are switches, so every state of plugging is the same circuit.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from generator.catalogue.records import Catalogue, Coupling, Lead, Part, Port, Quantity

from .circuit import Circuit, build, hold_possible
from .mate import PLUGS, Mating, State, Touch, mate

EARTHS = "earths"  # the emf that stands for a difference between two chassis
UNITY = Quantity(0.0, 0.0, 0.0, "V", "0 V")


@dataclass(frozen=True)
class Way:
    """One way to connect: for each lead its end towards From and towards Into, and which spare ends have their usual partner."""

    ends: tuple[tuple[str, str], ...]
    plugged: tuple[tuple[int, str], ...] = ()  # (lead number from 0, end)


@dataclass(frozen=True)
class Interface:
    """Two halves meeting: the places on both sides, their contacts' nodes, the mating, and whether the second half is the plug."""

    sides: tuple[str, str]
    nodes: tuple[Mapping[str, str], Mapping[str, str]]
    mating: Mating
    plug_last: bool


@dataclass(frozen=True)
class Assembly:
    """Everything the measurements need. `touches` are the interface and the contacts of each switch; `home` and `plugging` list switch states;
    `plugging_at` names the interface of each of the latter; `joined` are the home states with both chassis tied by mains earth as well (empty where that cannot be)."""

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

    @property
    def ports(self) -> dict[str, Port]:
        """The ports by place: from, into, then extras."""
        return {place: record for place, record in self.places.items() if isinstance(record, Port)}


def ways(catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port) -> list[Way]:
    """Every way the halves allow, spare ends open and plugged; empty when something does not fit."""
    routes: list[tuple[tuple[tuple[str, str], ...], tuple[str, str]]] = [((), (start.connector, start.half))]
    for lead in leads:
        routes = [((*taken, (near, far)), (lead.ends[far].connector, lead.ends[far].half))
                  for taken, open_half in routes
                  for near in lead.ends if _mating(catalogue, open_half, _half(lead.ends[near]))
                  for far in lead.ends if far != near]
    fitting = [taken for taken, open_half in routes if _mating(catalogue, open_half, _half(target))]
    return [Way(taken, plugged) for taken in fitting for plugged in _partners(catalogue, leads, taken)]


def _partners(catalogue: Catalogue, leads: Sequence[Lead], taken: Sequence[tuple[str, str]]) -> Iterator[tuple[tuple[int, str], ...]]:
    spare = [(i, end.id) for i, lead in enumerate(leads) for end in lead.ends.values()
             if end.id not in taken[i] and end.usual in catalogue.ports]
    yield ()
    if len(spare) > 1:
        for one in spare:
            yield (one,)
    if spare:
        yield tuple(spare)


def placed(catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port, way: Way) -> dict[str, Port | Lead]:
    """What is where: from, lead1 ..., into, extra1 ..."""
    places: dict[str, Port | Lead] = {"from": start, **{f"lead{i}": lead for i, lead in enumerate(leads, 1)}, "into": target}
    return places | {f"extra{i}": catalogue.ports[leads[lead].ends[end].usual] for i, (lead, end) in enumerate(way.plugged, 1)}


def assemble(catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port, way: Way, travel: bool = True) -> Assembly:
    """Build the circuits and states of one way; without `travel` those of everything fully home alone. Raises CircuitError where no circuit
    can have these values."""
    places = placed(catalogue, start, leads, target, way)
    interfaces, side = [], ("from", start, None)
    for i, (lead, (near, far)) in enumerate(zip(leads, way.ends)):
        here = (f"lead{i + 1}", lead, near)
        interfaces.append(_interface(catalogue, side, here))
        side = (f"lead{i + 1}", lead, far)
    interfaces.append(_interface(catalogue, side, ("into", target, None)))
    for number, (i, end) in enumerate(way.plugged, 1):
        interfaces.append(_interface(catalogue, (f"lead{i + 1}", leads[i], end), (f"extra{number}", places[f"extra{number}"], None)))

    if not travel:
        interfaces = [replace(interface, mating=replace(interface.mating, travel=())) for interface in interfaces]
    touches = [(k, touch) for k, interface in enumerate(interfaces)
               for touch in sorted({t for state in (*interface.mating.home, *interface.mating.travel) for t in state})]
    switches = [(interfaces[k].nodes[0][a], interfaces[k].nodes[1][b]) for k, (a, b) in touches]
    chassis = [f"{place}/chassis" for place in _chassis_order(places) if has_chassis(places[place])]
    both = "from/chassis" in chassis and "into/chassis" in chassis
    if both:
        switches.append(("from/chassis", "into/chassis"))
    parts, strays, couplings = _network(places)
    full = [*parts, *strays]
    hold_possible(full, couplings)
    main = len(leads) + 1
    home, plugging, plugging_at = _states(interfaces, touches, main if travel else 0, int(both))
    may_join = both and start.earthed != "no" and target.earthed != "no"
    return Assembly(
        places, tuple(interfaces), tuple(touches),
        build(full, couplings, switches, chassis),
        build([*full, Part(EARTHS, "emf", "from/chassis", "into/chassis", UNITY)], couplings, switches, chassis) if both else None,
        build(parts, couplings, switches, chassis),
        home, tuple((*state[:-1], True) for state in home) if may_join else (), plugging, plugging_at)


def has_chassis(record: Port | Lead) -> bool:
    """Does anything in this device meet its metalwork?"""
    return isinstance(record, Port) and any("chassis" in (part.a, part.b) for part in record.network.parts)


def _chassis_order(places: Mapping[str, Port | Lead]) -> list[str]:
    return ["into", "from", *(place for place in places if place.startswith("extra"))]


def _half(thing) -> tuple[str, str]:
    return thing.connector, thing.half


def _mating(catalogue: Catalogue, one: tuple[str, str], two: tuple[str, str]) -> Mating | None:
    return mate((catalogue.connectors[one[0]], one[1]), (catalogue.connectors[two[0]], two[1]))


def _interface(catalogue: Catalogue, one, two) -> Interface:
    def halves_and_nodes(place: str, record: Port | Lead, end: str | None):
        if isinstance(record, Lead):
            half = record.ends[end]
            named = {contact: f"{end}.{contact}" for contact in catalogue.connectors[half.connector].contacts}
        else:
            half = record
            # A contact nothing is known of stands alone.
            named = {contact: record.contacts.get(contact, f"open.{contact}") for contact in catalogue.connectors[half.connector].contacts}
        return _half(half), {contact: f"{place}/{node}" for contact, node in named.items()}

    (half_one, nodes_one), (half_two, nodes_two) = halves_and_nodes(*one), halves_and_nodes(*two)
    return Interface((one[0], two[0]), (nodes_one, nodes_two), _mating(catalogue, half_one, half_two), half_two[1] in PLUGS)


def _network(places: Mapping[str, Port | Lead]) -> tuple[list[Part], list[Part], list[Coupling]]:
    """All parts, the stray capacitances of cables apart from the rest, and all couplings."""
    parts, strays, couplings = [], [], []
    for place, record in places.items():
        for part in record.network.parts:
            stray = isinstance(record, Lead) and part.kind == "capacitor" and part.id not in record.parts
            moved = replace(part, id=f"{place}/{part.id}", a=f"{place}/{part.a}", b=f"{place}/{part.b}")
            (strays if stray else parts).append(moved)
        couplings += [Coupling(f"{place}/{c.first}", f"{place}/{c.second}", c.k) for c in record.network.couplings]
    return parts, strays, couplings


def _states(interfaces: Sequence[Interface], touches: Sequence, main: int, earth: int):
    """Switch states: all home; and each main interface on its way, the others home, or open on one side of it."""
    def switched(landed: Sequence[State]) -> tuple[bool, ...]:
        return (*(touch in landed[k] for k, touch in touches), *(False,) * earth)

    homes = [interface.mating.home for interface in interfaces]
    home = dict.fromkeys(switched(landed) for landed in product(*homes))
    plugging: dict[tuple[bool, ...], int] = {}
    nothing: tuple[State, ...] = (frozenset(),)
    for k in range(main):
        moving = (*interfaces[k].mating.travel, frozenset())
        before, after, extras = homes[:k], homes[k + 1:main], homes[main:]
        for left, right in ((before, after), (before, [nothing] * len(after)), ([nothing] * len(before), after)):
            for landed in product(*left, moving, *right, *extras):
                state = switched(landed)
                if state not in home:
                    plugging.setdefault(state, k)
    return tuple(home), tuple(plugging), tuple(plugging.values())
