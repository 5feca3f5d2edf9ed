"""Leads nobody would make: random joins, resistors, capacitors, windings and batteries between the contacts
of random ends; and real leads in chains that few would make."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from generator.catalogue.records import (
    Catalogue,
    Coupling,
    End,
    Evidence,
    Lead,
    Limit,
    Network,
    Part,
    Quantity,
)
from generator.engine.mate import fits

SEED = 20251125
EVIDENCE = Evidence("derived")
OPPOSITE = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}
DECADES = {"resistor": (-1, 6), "capacitor": (-11, -4), "inductor": (-4, 1)}  # of ohm, F, H
CORE, CAPACITANCE = 0.08, 1e-10  # ohm and F per metre of cable


def wirings(catalogue: Catalogue, count: int) -> tuple[Catalogue, list[tuple[str, tuple[str, ...], str]]]:
    """The catalogue with `count` random leads, and for each a connection in which its ends fit."""
    chance = Random(SEED)
    ports = list(catalogue.ports.values())
    outlets, inlets = [port for port in ports if port.sources], [port for port in ports if port.listeners]
    leads, questions = {}, []
    for number in range(count):
        outlet, inlet = chance.choice(outlets), chance.choice(inlets)
        lead = _lead(
            chance,
            catalogue,
            f"wiring-{number}",
            outlet,
            inlet,
            chance.choice(ports) if chance.random() < 0.2 else None,
        )
        leads[lead.id] = lead
        questions.append((outlet.id, (lead.id,), inlet.id))
    return replace(catalogue, leads={**catalogue.leads, **leads}), questions


def chains(catalogue: Catalogue, count: int) -> list[tuple[str, tuple[str, ...], str]]:
    """Connections through two or three random leads of the catalogue that go into each other."""
    chance = Random(SEED)
    outlets = [port for port in catalogue.ports.values() if port.sources]
    questions = []
    while len(questions) < count:
        outlet = chance.choice(outlets)
        through, open_half = [], (outlet.connector, outlet.half)
        for _ in range(chance.choice([2, 3])):
            fitting = [
                (lead, near, far)
                for lead in catalogue.leads.values()
                for near in lead.ends.values()
                for far in lead.ends.values()
                if far is not near and _goes(catalogue, open_half, near)
            ]
            if fitting:
                lead, _, far = chance.choice(fitting)
                through.append(lead.id)
                open_half = far.connector, far.half
        inlets = [
            port for port in catalogue.ports.values() if port.listeners and _goes(catalogue, open_half, port)
        ]
        if len(through) > 1 and inlets:
            questions.append((outlet.id, tuple(through), chance.choice(inlets).id))
    return questions


def _goes(catalogue: Catalogue, open_half: tuple[str, str], other) -> bool:
    return fits(
        (catalogue.connectors[open_half[0]], open_half[1]),
        (catalogue.connectors[other.connector], other.half),
    )


def _lead(chance: Random, catalogue: Catalogue, name: str, outlet, inlet, spare) -> Lead:
    ends = {"a": _end(chance, catalogue, "a", outlet), "b": _end(chance, catalogue, "b", inlet)}
    if spare:
        ends["c"] = replace(_end(chance, catalogue, "c", spare), usual=chance.choice([spare.id, None]))
    contacts = [
        f"{end.id}.{contact}"
        for end in ends.values()
        for contact in catalogue.connectors[end.connector].contacts
    ]
    length = chance.choice([None, None, 1.5, 30.0])
    groups = _groups(chance, contacts)
    cable = [*_joined(groups, length), *(_strays(groups, length) if length else ())]
    nodes = [*contacts, "x", "y"]
    added = [
        _part(chance, f"{kind}-{i}", kind, *chance.sample(nodes, 2))
        for i, kind in enumerate(
            chance.choices(
                ["resistor", "capacitor", "inductor", "emf"], [6, 4, 1, 0.4], k=chance.choice([0, 1, 2, 4])
            )
        )
    ]
    added += [
        _part(chance, f"{emf.id}-inside", "resistor", emf.b, chance.choice(nodes))
        for emf in added
        if emf.kind == "emf"
    ]
    added = [part for part in added if part.a != part.b]
    windings = [part.id for part in added if part.kind == "inductor"]
    couplings = (
        (Coupling(windings[0], windings[1], chance.choice([chance.uniform(0.5, 0.999), 1.0])),)
        if len(windings) > 1
        else ()
    )
    limits = tuple(limit for part in added for limit in _limits(chance, part))
    return Lead(
        name,
        f"Wiring {name}, random",
        "cable",
        ends,
        (),
        tuple(part.id for part in added),
        Network((*cable, *added), couplings, limits),
        length,
        None,
        chance.choice([None, 110.0]),
        (),
        "",
        (),
        (),
        EVIDENCE,
    )


def _end(chance: Random, catalogue: Catalogue, id: str, port) -> End:
    """An end that goes into a port."""
    family, half = catalogue.connectors[port.connector], OPPOSITE[port.half]
    fitting = [
        one.id
        for one in catalogue.connectors.values()
        if half in one.halves and fits((one, half), (family, port.half))
    ]
    return End(id, chance.choice(fitting), half, chance.choice(["one", "other"]), None)


def _groups(chance: Random, contacts: list[str]) -> list[list[str]]:
    """Some of the contacts, shuffled into conductors."""
    groups: list[list[str]] = [[] for _ in range(chance.randint(1, 4))]
    for contact in chance.sample(contacts, len(contacts)):
        if chance.random() < 0.85:
            chance.choice(groups).append(contact)
    return [group for group in groups if len(group) > 1]


def _joined(groups: list[list[str]], length: float | None):
    for i, group in enumerate(groups):
        for k, node in enumerate(group[1:]):
            ohm = (
                Quantity(CORE * length, CORE * length, CORE * length, "ohm", "")
                if length and node[0] != group[0][0]
                else None
            )
            yield Part(f"cable.{i}.{k}", "resistor" if ohm else "wire", group[0], node, ohm)


def _strays(groups: list[list[str]], length: float):
    farad = CAPACITANCE * length
    for i, one in enumerate(groups):
        for k, other in enumerate(groups[:i]):
            yield Part(
                f"cable.{i}-{k}", "capacitor", one[0], other[-1], Quantity(farad, farad, farad, "F", "")
            )


def _part(chance: Random, id: str, kind: str, a: str, b: str) -> Part:
    if kind == "emf":
        volts = chance.choice([-1, 1]) * chance.uniform(1, 50)
        return Part(id, kind, a, b, Quantity(volts, volts - 1, volts + 1, "V", ""))
    # no part has nothing or less
    value = 10 ** chance.uniform(*DECADES[kind]) * chance.choices([1, 0, -1], [98, 1, 1])[0]
    return Part(
        id,
        kind,
        a,
        b,
        Quantity(
            value,
            *sorted((0.8 * value, 1.2 * value)),
            {"resistor": "ohm", "capacitor": "F", "inductor": "H"}[kind],
            "",
        ),
        coil="winding" if kind == "inductor" and chance.random() < 0.5 else None,
    )


def _limits(chance: Random, part: Part):
    if chance.random() < 0.5:
        quantity = {"capacitor": chance.choice(["volts", "reverse"]), "resistor": "watts"}.get(
            part.kind, "amps"
        )
        least = {"volts": 1, "reverse": 0.5, "watts": 0.01, "amps": 1e-4}[quantity]
        yield Limit(
            f"{part.id}.{quantity}",
            f"{part.kind} of the wiring",
            quantity,
            part.id,
            None,
            *(chance.choice([None, least * 10 ** chance.uniform(0, 2)]) for _ in range(2)),
            EVIDENCE,
        )
