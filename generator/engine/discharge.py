"""What charged capacitors do at the moment a contact closes or opens.

In the first instant a capacitor holds its voltage: it acts as an emf behind a contact's resistance. For every supply setting the capacitors
are charged as they are when fully plugged, then each plugging state is struck with those charges. How long one takes to fill follows from the
resistance it sees, the other capacitors full.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from generator.catalogue.records import Part, Quantity

from .assemble import Assembly
from .circuit import CONTACT_OHM, SIGNAL_OPENS, Circuit, build
from .direct import drive_values, live_volts, settings
from .readings import Named, Reading, part_name
from .solve import closed_array, part_amps, solve_ac, solve_dc

LEAST_CHARGE = 1.0  # V; below this a capacitor is of no interest
LEAST_CAPACITANCE = 1e-7  # F; below this it empties before anything notices
CONTACT = ":contact"


def discharge_readings(assembly: Assembly) -> Iterator[Reading]:
    """Peak current (A) with charge and energy, and time to settle (s), of every capacitor that a supply charges."""
    circuit = assembly.circuit
    big = {part.id: i for i, part in enumerate(circuit.parts) if part.kind == "capacitor" and part.value.nominal >= LEAST_CAPACITANCE}
    if not big:
        return
    struck = _struck(circuit, big)
    home = closed_array(assembly.home[:1], len(circuit.switches))
    moving = closed_array(assembly.plugging, len(circuit.switches))
    for number, setting in enumerate(settings(assembly.ports)):
        values = drive_values(circuit, live_volts(circuit, assembly.ports, setting), "nominal")
        if not any(values[i] for i, part in enumerate(circuit.parts) if part.kind == "emf"):
            continue
        settled = solve_dc(circuit, values[None], home)
        volts = {name: float(settled.part_volts(i)[0, 0]) for name, i in big.items()}
        charges = {name: v for name, v in volts.items() if abs(v) >= LEAST_CHARGE}
        if not charges:
            continue
        held = {part.id: value for part, value in zip(circuit.parts, values)}
        yield _slowest(assembly, charges, number)
        emptying = _strike(struck, held | dict.fromkeys(big, 0.0) | charges, big, moving) if len(moving) else {}
        for name, charge in charges.items():
            if name in emptying:
                yield _emptied(assembly, circuit.parts[big[name]], number, charge, emptying[name])


def _struck(circuit: Circuit, big: Mapping[str, int]) -> Circuit:
    """The circuit with every large capacitor as an emf behind a contact's resistance, and the small ones left out."""
    names = {net: node for node, net in reversed(circuit.nets.items())}
    contact = Quantity(CONTACT_OHM, CONTACT_OHM, CONTACT_OHM, "ohm", "")
    parts: list[Part] = []
    for part, (a, b) in zip(circuit.parts, circuit.ends):
        if part.id in big:
            parts += [replace(part, kind="emf", a=part.id + CONTACT, b=names[b]), Part(part.id + CONTACT, "resistor", names[a], part.id + CONTACT, contact)]
        elif part.kind != "capacitor":
            parts.append(replace(part, a=names[a], b=names[b]))
    return build(parts, circuit.couplings, [(names[a], names[b]) for a, b in circuit.switches], [names[net] for net in circuit.anchors])


def _strike(struck: Circuit, held: Mapping[str, float], big: Mapping[str, int], closed: np.ndarray) -> dict[str, np.ndarray]:
    """Current into each large capacitor in the first instant (A, one per state); `held` gives every part's value, a capacitor's in V."""
    values = np.array([[held.get(part.id, CONTACT_OHM) for part in struck.parts]])
    solution = solve_dc(struck, values, closed)
    return {part.id: part_amps(solution, i)[0] for i, part in enumerate(struck.parts) if part.id in big}


def _emptied(assembly: Assembly, part: Part, setting: int, charge: float, amps: np.ndarray) -> Reading:
    words = _words(assembly, part.id) | {"energy": part.value.nominal * charge * charge / 2, "charge": abs(charge)}
    return Reading("discharge-amps", part.id, words["part"], float(np.abs(amps).max()), "A", "plugging", setting, words=words)


def _slowest(assembly: Assembly, charges: Mapping[str, float], setting: int) -> Reading:
    """Five time constants of the charged capacitor that takes longest."""
    circuit = assembly.circuit
    names = {net: node for node, net in reversed(circuit.nets.items())}
    seconds: dict[str, float] = {}
    resistive = build([replace(part, a=names[a], b=names[b]) for part, (a, b) in zip(circuit.parts, circuit.ends) if part.kind != "capacitor"],
                      circuit.couplings, [(names[a], names[b]) for a, b in circuit.switches], [names[net] for net in circuit.anchors])
    piece = resistive.zeros(closed_array(assembly.home[:1], len(circuit.switches)), SIGNAL_OPENS)[0]
    ends = {part.id: (names[a], names[b], part.value.nominal) for part, (a, b) in zip(circuit.parts, circuit.ends) if part.id in charges}
    values = np.array([[part.value.nominal for part in resistive.parts]])
    for name, (a, b, farads) in ends.items():
        known = a in resistive.nets and b in resistive.nets  # else only capacitors meet there
        if known and piece[resistive.nets[a]] == piece[resistive.nets[b]]:
            found = solve_ac(resistive, values, [0.0], closed_array(assembly.home[:1], len(circuit.switches)), [{(a, b): -1.0}])[0, 0, 0, 0]
            seconds[name] = 5 * farads * abs(found[resistive.nets[a]] - found[resistive.nets[b]])
    slowest = max(seconds, key=seconds.get, default=next(iter(charges)))
    words = _words(assembly, slowest)
    return Reading("settle-seconds", "connection", words["part"], float(seconds.get(slowest, 0.0)), "s", "plugging", setting, words=words)


def _words(assembly: Assembly, part: str) -> dict[str, str | Named]:
    place, name = part.split("/", 1)
    record = assembly.places[place]
    return {"device": Named(place), "part": part_name(record, name) or "capacitor"}
