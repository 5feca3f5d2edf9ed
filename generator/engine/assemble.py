"""From, Through, Into -> circuits: which contacts can touch, in which states, and what lies behind them.

A place is `from`, `lead1` ..., `into`; `from2`, `into2` ... for further devices of the same kind, where a
lead with several like tails is used as it is meant; `extra1` ... for the usual partner of an end that is not
part of the question. Its nodes are called `place/node`. Contacts that may touch are switches, so every state
of plugging is the same circuit.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product

from generator.catalogue.records import Catalogue, End, Lead, Part, Port, Quantity

from .assembly import CAPACITANCE, EARTHS, RESISTANCE, Assembly, Interface, Plugged, Way
from .circuit import build, hold_possible
from .mate import PLUGS, Mating, State, mate
from .network import network
from .powering import pairs

BETWEEN, BEHIND = "from/earth wiring", "from/mains leakage"  # the nodes between these three
UNITY = Quantity(1.0, 1.0, 1.0, "", "")


def ways(catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port) -> list[Way]:
    """Every way the halves allow, the meant ones first; empty when something does not fit."""
    routes: list[tuple[tuple[tuple[str, str], ...], tuple[str, str]]] = [((), (start.connector, start.half))]
    for lead in leads:
        routes = [
            ((*taken, (near, far)), (lead.ends[far].connector, lead.ends[far].half))
            for taken, open_half in routes
            for near in lead.ends
            if _mating(catalogue, open_half, _half(lead.ends[near]))
            for far in lead.ends
            if far != near
        ]
    fitting = [taken for taken, open_half in routes if _mating(catalogue, open_half, _half(target))]
    found = [way for taken in fitting for way in _uses(catalogue, start, leads, target, taken)]
    return list(dict.fromkeys(sorted(found, key=lambda way: not way.meant)))


def _uses(
    catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port, taken: Sequence[tuple[str, str]]
) -> Iterator[Way]:
    """What the spare ends of a way can be in. Like tails go into as many of the same device; any other use of
    such a lead is not the meant one."""
    ends = tuple(taken)
    spare = [(i, end) for i, lead in enumerate(leads) for end in lead.ends.values() if end.id not in taken[i]]
    copies: list[Plugged] = []
    for side, port, lead, own in (("from", start, 0, 0), ("into", target, len(leads) - 1, 1)):
        alike = [end.id for i, end in spare if i == lead and _alike(end, leads[lead].ends[taken[lead][own]])]
        copies += [Plugged(lead, end, port.id, f"{side}{number}") for number, end in enumerate(alike, 2)]
    usual = [
        Plugged(i, end.id, end.usual, f"extra{number}")
        for number, (i, end) in enumerate([(i, end) for i, end in spare if end.usual in catalogue.ports], 1)
    ]
    if {(one.end, one.port) for one in usual} == {(one.end, one.port) for one in copies}:
        usual = []  # what it is usually in is what it is in
    if copies and _first(leads, taken, copies):  # tails that are alike may change places
        yield Way(ends, tuple(copies))
    yield Way(ends, (), not copies)
    if len(usual) > 1:
        yield from (Way(ends, (replace(one, place="extra1"),), not copies) for one in usual)
    if usual:
        yield Way(ends, tuple(usual), not copies)


def _alike(one: End, other: End) -> bool:
    return (one.connector, one.half, one.usual) == (other.connector, other.half, other.usual)


def _first(leads: Sequence[Lead], taken: Sequence[tuple[str, str]], copies: Sequence[Plugged]) -> bool:
    """Of like tails, is the first one taken on either side?"""
    for own, copy in ((taken[c.lead][c.place.startswith("into")], c) for c in copies):
        order = list(leads[copy.lead].ends)
        if order.index(own) > order.index(copy.end):
            return False
    return True


def placed(
    catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port, way: Way
) -> dict[str, Port | Lead]:
    """What is where: from, lead1 ..., into, then from2, into2 ..., extra1 ..."""
    places: dict[str, Port | Lead] = {
        "from": start,
        **{f"lead{i}": lead for i, lead in enumerate(leads, 1)},
        "into": target,
    }
    given = {start.id: start, target.id: target}
    return places | {one.place: given.get(one.port) or catalogue.ports[one.port] for one in way.plugged}


def assemble(
    catalogue: Catalogue, start: Port, leads: Sequence[Lead], target: Port, way: Way, travel: bool = True
) -> Assembly:
    """Build the circuits and states of one way; without `travel` those of everything fully home alone. Raises
    CircuitError where no circuit can have these values."""
    places = placed(catalogue, start, leads, target, way)
    interfaces, side = [], ("from", start, None)
    for i, (lead, (near, far)) in enumerate(zip(leads, way.ends)):
        here = (f"lead{i + 1}", lead, near)
        interfaces.append(_interface(catalogue, side, here))
        side = (f"lead{i + 1}", lead, far)
    interfaces.append(_interface(catalogue, side, ("into", target, None)))
    for one in way.plugged:
        interfaces.append(
            _interface(
                catalogue,
                (f"lead{one.lead + 1}", leads[one.lead], one.end),
                (one.place, places[one.place], None),
            )
        )

    if not travel:
        interfaces = [
            replace(interface, mating=replace(interface.mating, travel=())) for interface in interfaces
        ]
    touches = [
        (k, touch)
        for k, interface in enumerate(interfaces)
        for touch in sorted(
            {t for state in (*interface.mating.home, *interface.mating.travel) for t in state}
        )
    ]
    switches = [(interfaces[k].nodes[0][a], interfaces[k].nodes[1][b]) for k, (a, b) in touches]
    chassis = [f"{place}/chassis" for place in _chassis_order(places) if has_chassis(places[place])]
    both = "from/chassis" in chassis and "into/chassis" in chassis
    if both:
        switches.append(("from/chassis", "into/chassis"))
    parts, strays, couplings = network(places)
    full = [*parts, *strays]
    hold_possible(full, couplings)
    main = len(leads) + 1
    home, plugging = (
        _states(interfaces, touches, main, int(both))
        if travel
        else _states(interfaces, touches, 0, int(both))
    )
    plugging_at = tuple(plugging.values())
    may_join = both and start.earthed != "no" and target.earthed != "no"
    earthed = lambda states: tuple((*state[:-1], True) for state in states) if may_join else ()
    difference = [
        Part(EARTHS, "emf", BEHIND, "into/chassis", UNITY),
        Part(RESISTANCE, "resistor", "from/chassis", BETWEEN, UNITY),
        Part(CAPACITANCE, "capacitor", BETWEEN, BEHIND, UNITY),
    ]
    return Assembly(
        places,
        tuple(interfaces),
        tuple(touches),
        build(full, couplings, switches, chassis),
        build([*full, *difference], couplings, switches, chassis) if both else None,
        build(parts, couplings, switches, chassis),
        tuple(home),
        earthed(home),
        (*plugging, *earthed(plugging)),
        plugging_at * (2 if may_join else 1),
        tuple(home.values()),
        _halves(next(iter(home)), touches, len(interfaces)),
        pairs(start.powered_by, target.powered_by) if both else (),
    )


def _halves(home: Sequence[bool], touches: Sequence, joints: int) -> tuple[tuple[bool, ...], ...]:
    """The first home state with one joint after the other left open; none where that is the
    same as nothing plugged."""
    found = [
        (*(shut and at != k for (at, _), shut in zip(touches, home)), *home[len(touches) :])
        for k in range(joints)
    ]
    return tuple(dict.fromkeys(state for state in found if any(state)))


def has_chassis(record: Port | Lead) -> bool:
    """Does anything in this device meet its metalwork?"""
    return isinstance(record, Port) and any("chassis" in (part.a, part.b) for part in record.network.parts)


def _chassis_order(places: Mapping[str, Port | Lead]) -> list[str]:
    return [
        "into",
        "from",
        *(
            place
            for place, record in places.items()
            if isinstance(record, Port) and place not in ("into", "from")
        ),
    ]


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
            named = {
                contact: record.contacts.get(contact, f"open.{contact}")
                for contact in catalogue.connectors[half.connector].contacts
            }
        return _half(half), {contact: f"{place}/{node}" for contact, node in named.items()}

    (half_one, nodes_one), (half_two, nodes_two) = halves_and_nodes(*one), halves_and_nodes(*two)
    mating = _mating(catalogue, half_one, half_two)
    if mating.turned and any(isinstance(record, Port) and record.follows for _, record, _ in (one, two)):
        mating = replace(
            mating,
            home=tuple(state for state in mating.home if state not in mating.turned),
            turned=frozenset(),
        )
    return Interface((one[0], two[0]), (nodes_one, nodes_two), mating, half_two[1] in PLUGS)


def _states(interfaces: Sequence[Interface], touches: Sequence, main: int, earth: int):
    """Switch states: all home, with whether a plug is turned; and, with its interface, each main one on its
    way, the others home, or open on one side of it; what is in spare ends on its way with all else home.
    Without main ones nothing is on its way."""

    def switched(landed: Sequence[State]) -> tuple[bool, ...]:
        return (*(touch in landed[k] for k, touch in touches), *(False,) * earth)

    homes = [interface.mating.home for interface in interfaces]
    home: dict[tuple[bool, ...], bool] = {}
    for landed in product(*homes):
        home.setdefault(
            switched(landed),
            any(state in interface.mating.turned for state, interface in zip(landed, interfaces)),
        )
    plugging: dict[tuple[bool, ...], int] = {}
    nothing: tuple[State, ...] = (frozenset(),)
    for k in range(len(interfaces) if main else 0):
        moving = (*interfaces[k].mating.travel, frozenset())
        before, after, rest = homes[:k], homes[k + 1 : main], homes[max(main, k + 1) :]
        others = (
            ((before, after), (before, [nothing] * len(after)), ([nothing] * len(before), after))
            if k < main
            else ((before, []),)
        )
        for left, right in others:
            for landed in product(*left, moving, *right, *rest):
                state = switched(landed)
                if state not in home:
                    plugging.setdefault(state, k)
    return home, plugging
