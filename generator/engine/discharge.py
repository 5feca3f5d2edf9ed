"""What charged capacitors do at the moment a contact closes or opens.

In the first instant a capacitor holds its voltage: it acts as an emf behind a contact's resistance. For every supply setting the capacitors
are charged as they are when fully plugged, then each plugging state is struck with those charges. How long one takes to fill follows from the
resistance it sees, the other capacitors full.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from generator.catalogue.records import Part, Quantity

from .assemble import Assembly
from .circuit import CONTACT_OHM, SIGNAL_OPENS, Circuit, rebuilt, resistive
from .direct import drive_values, live_volts, settings
from .readings import Named, Reading, limit_name, part_name
from .solve import ALIKE, Solution, closed_array, part_amps, solve_ac, solve_dc

LEAST_CHARGE = 0.97  # V; below this a capacitor is of no interest. Not 1 V: what sources give must not hang on rounding
LEAST_CAPACITANCE = 1e-6  # F; below this it fills and empties before anything notices
CONTACT = ":contact"


def discharge_readings(assembly: Assembly) -> Iterator[Reading]:
    """Peak current (A) with charge and energy, and time to settle (s), of every capacitor that a supply charges; and the current (A) that
    filling or emptying them drives through windings, which is held against what those stand while plugging."""
    for number, charges, filling, emptying in instants(assembly):
        yield from _windings(assembly, number, filling, emptying)
        if charges:
            yield _slowest(assembly, charges, number)
        parts = {part.id: part for part in assembly.circuit.parts}
        for name, charge in charges.items():
            yield _emptied(assembly, parts[name], number, charge, struck_amps(emptying, name)[len(assembly.home):])


def instants(assembly: Assembly) -> Iterator[tuple[int, dict[str, float], Solution, Solution]]:
    """For each setting that feeds anything: its number, the charge of every large capacitor (V), and the first instant of all home, then
    all plugging states, with the capacitors empty and with them charged."""
    circuit = assembly.circuit
    big = {part.id: i for i, part in enumerate(circuit.parts) if part.kind == "capacitor" and part.value.nominal >= LEAST_CAPACITANCE}
    if not big:
        return
    home = closed_array(assembly.home[:1], len(circuit.switches))
    every = closed_array([*assembly.home, *assembly.plugging], len(circuit.switches))
    driven = [drive_values(circuit, live_volts(circuit, assembly.ports, setting), "nominal") for setting in settings(assembly.ports)]
    fed = {number: values for number, values in enumerate(driven) if values[circuit.kinds == "emf"].any()}
    if not fed:
        return
    settled = solve_dc(circuit, np.array(list(fed.values())), home)
    volts = {name: settled.part_volts(i)[:, 0].tolist() for name, i in big.items()}
    charges = [{name: v[k] for name, v in volts.items() if abs(v[k]) >= LEAST_CHARGE} for k in range(len(fed))]
    held = [{part.id: value for part, value in zip(circuit.parts, values)} | dict.fromkeys(big, 0.0) for values in fed.values()]
    struck = strike(struck_circuit(circuit, big), [case for empty, charge in zip(held, charges) for case in (empty, empty | charge)], every)
    for k, (number, charge) in enumerate(zip(fed, charges)):
        yield number, charge, struck.drives(slice(2 * k, 2 * k + 1)), struck.drives(slice(2 * k + 1, 2 * k + 2))


def struck_circuit(circuit: Circuit, big: Mapping[str, int]) -> Circuit:
    """The circuit with every large capacitor as an emf behind a contact's resistance, and the small ones left out."""
    contact = Quantity(CONTACT_OHM, CONTACT_OHM, CONTACT_OHM, "ohm", "")
    kept = [(part, *ends) for part, ends in zip(circuit.parts, circuit.ends) if part.kind != "capacitor"]
    charged = []
    for name, i in big.items():
        a, b = circuit.ends[i]
        charged += [replace(circuit.parts[i], kind="emf", a=name + CONTACT, b=f"net{b}"), Part(name + CONTACT, "resistor", f"net{a}", name + CONTACT, contact)]
    return rebuilt(circuit, kept, charged)


def strike(struck: Circuit, held: Sequence[Mapping[str, float]], closed: np.ndarray) -> Solution:
    """The first instant; each of `held` gives every part's value, a large capacitor's in V."""
    return solve_dc(struck, np.array([[case.get(part.id, CONTACT_OHM) for part in struck.parts] for case in held]), closed)


def struck_amps(solution: Solution, part: str) -> np.ndarray:
    """Size of the current through a part, A, one per state."""
    index = solution.circuit.index.get(part)
    return np.zeros(solution.unknowns.shape[1]) if index is None else np.abs(part_amps(solution, index)[0])


def _windings(assembly: Assembly, setting: int, *struck: Solution) -> Iterator[Reading]:
    """Large capacitors fill and empty over tens of milliseconds: as long as plugging takes."""
    for place, record in assembly.places.items():
        coils = {part.id for part in record.network.parts if part.coil}
        for limit in record.network.limits:
            if limit.quantity == "amps" and limit.part in coils:
                amps = max(float(struck_amps(solution, f"{place}/{limit.part}").max()) for solution in struck)
                name = limit_name(record, limit)
                quantity = "unrated-amps" if limit.momentary is None else "part-amps"
                yield Reading(quantity, f"{place}/{limit.id}", name, amps, "A", "plugging", setting, limit.momentary, limit.evidence,
                              {"device": Named(place), "part": name})


def _emptied(assembly: Assembly, part: Part, setting: int, charge: float, amps: np.ndarray) -> Reading:
    words = _words(assembly, part.id) | {"energy": part.value.nominal * charge * charge / 2, "charge": abs(charge)}
    return Reading("discharge-amps", part.id, words["part"], float(amps.max(initial=0.0)), "A", "plugging", setting, words=words)


def _slowest(assembly: Assembly, charges: Mapping[str, float], setting: int) -> Reading:
    """Five time constants of the charged capacitor that takes longest; of those alike, the first."""
    seconds = settling(assembly, charges)
    most = max(seconds.values(), default=0.0)
    slowest = next((name for name, taken in seconds.items() if taken >= most * (1 - ALIKE)), next(iter(charges)))
    words = _words(assembly, slowest)
    return Reading("settle-seconds", "connection", words["part"], seconds.get(slowest, 0.0), "s", "plugging", setting, words=words)


def settling(assembly: Assembly, charges: Mapping[str, float]) -> dict[str, float]:
    """Five time constants, s, of every charged capacitor that fills through resistance."""
    circuit, lean = assembly.circuit, resistive(assembly.circuit)
    home = closed_array(assembly.home[:1], len(circuit.switches))
    piece, nets = lean.zeros(home, SIGNAL_OPENS)[0], lean.nets
    ends = {part.id: (f"net{a}", f"net{b}", part.value.nominal) for part, (a, b) in zip(circuit.parts, circuit.ends) if part.id in charges}
    # Where only capacitors meet, or nothing leads round, a capacitor never fills through resistance.
    ends = {name: (a, b, farads) for name, (a, b, farads) in ends.items() if a in nets and b in nets and piece[nets[a]] == piece[nets[b]]}
    values = np.array([[part.value.nominal for part in lean.parts]])
    found = solve_ac(lean, values, [0.0], home, [{(a, b): -1.0} for a, b, _ in ends.values()])[0, 0, 0] if ends else []
    return {name: 5 * farads * float(abs(volts[nets[a]] - volts[nets[b]])) for volts, (name, (a, b, farads)) in zip(found, ends.items())}


def _words(assembly: Assembly, part: str) -> dict[str, str | Named]:
    place, name = part.split("/", 1)
    record = assembly.places[place]
    return {"device": Named(place), "part": part_name(record, name) or "capacitor"}
