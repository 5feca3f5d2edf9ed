"""A solved case in words and numbers: what touches, the nets with their volts, the parts that
matter, the sum of currents."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import atan2, degrees

from .assembly import EARTHS, Assembly
from .cases import Case
from .constants import CONTACT_OHM, FAINT, SMALL_TERM
from .naming import Places, conductors, contact_name, element_name, in_words, net_labels, owner
from .relevant import Element, Relevant, relevant
from .words import fixed, quantity
from .working import Equation, Net, Term, Worked, Working

CORNERS = {
    "nominal": "every part at its nominal value",
    "strong": "supplies at their highest, resistances at their lowest",
    "weak": "supplies at their lowest, resistances at their highest",
    "high": "one device's supply at its highest, the other's at its lowest",
    "low": "one device's supply at its lowest, the other's at its highest",
    "skewed": "matched pairs as far apart as they may be",
}
UNITS = {"resistor": "ohm", "capacitor": "F", "inductor": "H", "emf": "V", "sink": "A", "clamp": "V"}
ONE_NET = "Both points the number is measured between are one net: they are shorted together."
NOWHERE = "Nothing joins the two points: a test current has nowhere to go."


def _phase(amps: complex) -> float:
    """Degrees, above -180 to 180: half a turn back is half a turn on, whatever the sign of a zero."""
    turn = degrees(atan2(amps.imag, amps.real))
    return 180.0 if turn == -180.0 else turn


def shown(base: Working, assembly: Assembly, case: Case) -> Working:
    """`base` with the case filled in."""
    places = assembly.places
    found = relevant(case, conductors(places))
    groups: dict[int, list[str]] = {}
    for net, into in enumerate(found.merged):
        groups.setdefault(into, []).extend(case.nodes[net])
    drawn = list(dict.fromkeys(net for e in found.kept for net in (e.a, e.b)))
    labels = net_labels(places, {net: groups[net] for net in drawn})
    signal = case.nature == "signal"
    size = (lambda number: float(abs(number))) if signal else (lambda number: float(number.real))
    level = lambda number: float(-abs(number) if number.real < -FAINT * abs(number) else abs(number))
    nets = tuple(
        Net(
            labels[net],
            tuple(dict.fromkeys(contact_name(places, node) for node in groups[net])),
            level(case.unknowns[net]),
            net in found.zeros,
            tuple(level(row[net]) for row in case.spectrum) if case.spectrum is not None else (),
        )
        for net in drawn
    )
    listening = _meter(base, assembly, case)
    parts = tuple(_worked(places, case, e, labels, size, listening) for e in found.kept)
    apart = next(e for e in found.kept if e.decides)
    note = ONE_NET if apart.a == apart.b else NOWHERE if case.nature == "test" and not case.level else ""
    return replace(
        base,
        nature=case.nature,
        corner=CORNERS[case.corner.split()[0]],
        touching=_touching(assembly, case),
        hertz=case.hertz,
        level=case.level if case.hertz is not None else None,
        source=_source(places, case),
        terms=tuple(Term(_term(places, words), value, unit) for words, value, unit in case.terms),
        nets=nets,
        parts=parts,
        left_out=sum(e.kind != "contact" for e in found.elements)
        - sum(e.kind != "contact" for e in found.kept),
        equation=None if note == NOWHERE else _equation(places, case, found, labels, listening),
        note=note,
    )


def _meter(base: Working, assembly: Assembly, case: Case) -> str:
    """What the meter is called: where it is put."""
    if case.nature == "test":
        return "test current"
    places = {node.split("/")[0] for node in case.decides} if isinstance(case.decides, tuple) else set()
    heard = (
        (
            f"what {owner(assembly.places, places.pop())} "
            f"{'gives' if base.quantity.startswith('load') else 'hears'}"
        )
        if len(places) == 1
        else base.where
    )
    return heard if case.nature == "signal" else base.where


def _source(places: Places, case: Case) -> str:
    if case.source in ("", EARTHS):
        return "difference between the chassis" if case.source else ""
    if "/" not in case.source:
        return f"every channel of {owner(places, case.source)} alike"
    place, name = case.source.split("/", 1)
    channel = next(s.channel for s in places[place].sources if s.id == name)
    return owner(places, place) if len(places[place].sources) == 1 else f"{channel} of {owner(places, place)}"


def _term(places: Places, words: str) -> str:
    """Part and source ids in a term's words become names."""
    found = [word for word in words.split() if word.split("/")[0] in places and "/" in word]
    for word in found:
        place, name = word.split("/", 1)
        words = words.replace(
            word,
            f"{name.removeprefix('main.').replace('-', ' ').replace('.', ' ')} of {owner(places, place)}",
        )
    return words


def _worked(
    places: Places,
    case: Case,
    e: Element,
    labels: Mapping[int, str],
    size: Callable[[complex], float],
    listening: str,
) -> Worked:
    part = case.circuit.parts[e.part] if e.part is not None else None
    place = e.id.split("/")[0]
    turn = round(_phase(e.amps), 3) if case.nature == "signal" and abs(e.amps) > FAINT else 0.0
    return Worked(
        e.id,
        element_name(places, part, e.id, listening),
        owner(places, place) if place in places else "",
        e.kind,
        _value(case, e),
        labels[e.a],
        labels[e.b],
        size(e.volts),
        size(e.amps),
        turn,
        e.decides,
    )


def _value(case: Case, e: Element) -> str:
    if e.kind == "contact":
        return quantity(CONTACT_OHM, "ohm")
    if e.kind == "meter":
        return quantity(case.level, "A") if case.nature == "test" and case.level else ""
    amount = float(case.values[e.part])
    if amount != amount:  # OPEN
        return "disconnected"
    if e.kind == "emf" and case.nature in ("signal", "test"):
        amount = abs(case.drive.get(e.id, 0.0)) * case.level
        return quantity(amount, "V") if amount else "silent"
    if e.kind == "emf" and not amount:
        return "silent"
    return (
        quantity(amount * 1e12, "pF")
        if e.kind == "capacitor" and amount < 1e-9
        else quantity(amount, UNITS[e.kind])
    )


def _touching(assembly: Assembly, case: Case) -> tuple[str, ...]:
    """The contacts that meet in this case, in words; and what earth does."""
    pairs = [
        (interface, touch)
        for interface in assembly.interfaces
        for touch in sorted(
            {t for state in (*interface.mating.home, *interface.mating.travel) for t in state}
        )
    ]
    met = [
        (
            f"{contact_name(assembly.places, interface.nodes[0][a])} meets "
            f"{contact_name(assembly.places, interface.nodes[1][b])}"
        )
        for (interface, (a, b)), shut in zip(pairs, case.closed)
        if shut
    ]
    earthed = len(case.closed) > len(pairs) and case.closed[-1]
    return (*met, "both chassis are tied by mains earth as well") if earthed else tuple(met)


def _equation(
    places: Places, case: Case, found: Relevant, labels: Mapping[int, str], listening: str
) -> Equation | None:
    """The currents that leave the deciding net."""
    here = [
        (e, e.amps if e.a == found.at else -e.amps)
        for e in found.elements
        if found.at in (e.a, e.b) and e.a != e.b
    ]
    largest = max((abs(amps) for _, amps in here), default=0.0)
    told = [(e, amps) for e, amps in here if largest >= FAINT and abs(amps) >= SMALL_TERM * largest]
    total = sum(amps for _, amps in here)
    names = tuple(
        in_words(
            element_name(places, case.circuit.parts[e.part] if e.part is not None else None, e.id, listening),
            e.kind,
        )
        for e, _ in told
    )
    net, noise = labels[found.at], quantity(0.0, "A")
    if largest < FAINT:
        says = f"No current flows at {net}, so nothing is dropped on the way to it."
    else:
        each = [_current(amps, name) for (_, amps), name in zip(told, names)]
        rest = "" if len(told) == len(here) else ", the rest below a ten-thousandth"
        says = (
            f"Currents at {net} sum to zero: {'; '.join(each)}{rest}. Sum "
            f"{quantity(abs(total), 'A') if abs(total) > 1e-6 * largest else noise}."
        )
    return Equation(
        net,
        names,
        tuple(float(amps.real) for _, amps in told),
        tuple(float(amps.imag) for _, amps in told),
        float(abs(total)),
        says,
    )


def _current(amps: complex, name: str) -> str:
    turned = abs(amps.imag) > 0.02 * abs(amps)
    if not turned:
        return f"{quantity(abs(amps), 'A')} {'out' if amps.real > 0 else 'in'} through the {name}"
    return f"{quantity(abs(amps), 'A')} at {fixed(_phase(amps), 0)}° out through the {name}"
