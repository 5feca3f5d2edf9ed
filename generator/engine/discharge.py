"""Readings of charged capacitors: what they put on every rated part in the first instant, what stays beyond a
rating for seconds, what they give when emptied, how long they take to settle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from generator.catalogue.records import Lead, Limit, Port

from .assembly import Assembly
from .circuit import SIGNAL_OPENS, resistive
from .constants import ALIKE, LEAST_CHARGE, MORE, NOTICED
from .currents import most_at, part_amps
from .instants import Afterwards, Capacitors, Struck, at_limit, instants, seconds_beyond
from .limits import stress
from .readings import At, Named, Reading, part_name
from .solve import closed_array, solve_ac
from .switches import supply_switches


def discharge_readings(assembly: Assembly) -> Iterator[Reading]:
    """What capacitors bring to rated parts in the first instant and for seconds after; peak current (A) with
    charge and energy of every one that a supply charges; and the time (s) the slowest takes to settle."""
    capacitors = Capacitors(assembly)
    for struck in instants(capacitors):
        after = Afterwards(capacitors, struck)
        for place, record in assembly.places.items():
            for limit in record.network.limits:
                if limit.quantity != "watts":  # heat takes longer than an instant
                    yield from _struck(capacitors, struck, after, place, record, limit)
        if struck.moment == "plugging" and struck.before[1] < len(assembly.home):  # fully plugged
            yield from _emptied(assembly, struck)
            charges = {name: volts for name, volts in struck.charges.items() if abs(volts) >= LEAST_CHARGE}
            if charges:
                yield _slowest(assembly, charges, struck.setting)


def _struck(
    capacitors: Capacitors, struck: Struck, after: Afterwards, place: str, record: Port | Lead, limit: Limit
) -> Iterator[Reading]:
    """What passes a rating: what it stands for a moment at once, or what it stands for seconds and longer
    than a moment. A rating that is not known counts where a supply elsewhere is on, and where the connection
    makes the device's own do more to it."""
    sizes = at_limit(capacitors.assembly, struck.solution, place, limit)
    state = most_at(sizes[0])[0]
    most = float(sizes[0, state])
    acts = lambda: (
        bool(struck.live - {place}) or most > MORE * capacitors.alone(struck.driven, place, limit) + NOTICED
    )
    if most > NOTICED and acts() if limit.momentary is None else most > limit.momentary:
        at = struck.at(state, "")
        yield stress(
            place, record, limit, limit.momentary, most, struck.moment, struck.setting, at, struck.terms()
        )
        return
    lasting = limit.seconds if limit.momentary is not None else None
    settled = sizes[0, : len(capacitors.assembly.settled)]
    if lasting is None or not (settled > lasting).any():
        return
    lasts = seconds_beyond(after, place, limit, lasting, settled > lasting)
    state = int(lasts.argmax())
    seconds = float(lasts[state])
    if seconds:
        at = struck.at(state, "")
        words = {"seconds": seconds, "supply": _supply(capacitors, struck)}
        found = stress(
            place,
            record,
            limit,
            lasting,
            float(settled[state]),
            struck.moment,
            struck.setting,
            at,
            struck.terms(),
            words,
        )
        yield Reading(**{**vars(found), "quantity": found.quantity.replace("part", "lasting")})


def _supply(capacitors: Capacitors, struck: Struck) -> str:
    """The supplies that are on in a setting, in words."""
    setting = capacitors.settings[struck.setting]
    names = [
        switch.name
        for switch in supply_switches(capacitors.assembly.ports)
        if setting[switch.key] == switch.states[0]
    ]
    return " and ".join(names) or "the supply"


def _emptied(assembly: Assembly, struck: Struck) -> Iterator[Reading]:
    """Every charged capacitor at the instant a contact closes on it."""
    settled = len(assembly.settled)
    for name, charge in struck.charges.items():
        if abs(charge) < LEAST_CHARGE:
            continue
        index = struck.solution.circuit.index[name]
        amps = np.abs(part_amps(struck.solution, index)[0, settled:])
        state = most_at(amps)[0] if amps.size else 0
        farads = assembly.circuit.parts[assembly.circuit.index[name]].value.nominal
        words = _words(assembly, name) | {"energy": farads * charge * charge / 2, "charge": abs(charge)}
        yield Reading(
            "discharge-amps",
            name,
            words["part"],
            float(amps[state]) if amps.size else 0.0,
            "A",
            "plugging",
            struck.setting,
            words=words,
            at=struck.at(state + settled, name),
            terms=((f"{name} charged to", charge, "V"),),
        )


def _slowest(assembly: Assembly, charges: Mapping[str, float], setting: int) -> Reading:
    """Five time constants of the charged capacitor that takes longest; of those alike, the first."""
    seconds = settling(assembly, charges)
    most = max(seconds.values(), default=0.0)
    slowest = next(
        (name for name, taken in seconds.items() if taken >= most * (1 - ALIKE)), next(iter(charges))
    )
    words, circuit = _words(assembly, slowest), assembly.circuit
    index = circuit.index[slowest]
    farads, taken = circuit.parts[index].value.nominal, seconds.get(slowest, 0.0)
    terms = (
        ("capacitance", farads, "F"),
        ("resistance it sees", taken / 5 / farads, "ohm"),
        ("charge", charges[slowest], "V"),
    )
    nodes = tuple(f"net{net}" for net in circuit.ends[index])
    return Reading(
        "settle-seconds",
        "connection",
        words["part"],
        taken,
        "s",
        "plugging",
        setting,
        words=words,
        at=At("test", 0, nodes) if taken else None,
        terms=terms,
    )


def settling(assembly: Assembly, charges: Mapping[str, float]) -> dict[str, float]:
    """Five time constants, s, of every charged capacitor that fills through resistance."""
    circuit, lean = assembly.circuit, resistive(assembly.circuit)
    home = closed_array(assembly.home[:1], len(circuit.switches))
    piece, nets = lean.zeros(home, SIGNAL_OPENS)[0], lean.nets
    ends = {
        part.id: (f"net{a}", f"net{b}", part.value.nominal)
        for part, (a, b) in zip(circuit.parts, circuit.ends)
        if part.id in charges
    }
    # Where only capacitors meet, or nothing leads round, a capacitor never fills through resistance.
    ends = {
        name: (a, b, farads)
        for name, (a, b, farads) in ends.items()
        if a in nets and b in nets and piece[nets[a]] == piece[nets[b]]
    }
    values = np.array([[part.value.nominal for part in lean.parts]])
    found = (
        solve_ac(lean, values, [0.0], home, [{(a, b): -1.0} for a, b, _ in ends.values()])[0, 0, 0]
        if ends
        else []
    )
    return {
        name: 5 * farads * float(abs(volts[nets[a]] - volts[nets[b]]))
        for volts, (name, (a, b, farads)) in zip(found, ends.items())
    }


def _words(assembly: Assembly, part: str) -> dict[str, str | Named]:
    place, name = part.split("/", 1)
    record = assembly.places[place]
    return {"device": Named(place), "part": part_name(record, name) or "capacitor"}
