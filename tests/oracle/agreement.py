"""Holds one solved case of the engine against what ngspice found for its netlist.

Both solve the same equations by elimination in double precision, so they may differ by rounding and by
nothing else: 1e-6 of each number, plus a floor of 1e-9 of the circuit's largest voltage (-180 dB, 20 dB under
the least the readings speak of), and 1e-12 A per volt of it for currents (what the last bit of a voltage
drives through a contact of 100 S).

One thing more is rounding: beside a contact's 100 S the few nanosiemens of a cable's picofarads at 20 Hz lose
their last digits, which is as if each net leaked to its 0 V. How much is the textbook bound of elimination:
the number of unknowns times the last bit of the largest admittance. A net that hangs on picofarads alone may
differ by what such a leak does to it, but never by more than a thousandth of the largest voltage.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from generator.catalogue.records import Part
from generator.engine.circuit import DIRECT_OPENS, SIGNAL_OPENS, Circuit
from generator.engine.constants import CONTACT_OHM
from generator.engine.solve import closed_array, solve_ac, solve_dc

RELATIVE = 1e-6
VOLTS_FLOOR = 1e-9  # of the largest voltage
AMPS_FLOOR = 1e-12  # A per volt of the largest voltage
LAST_BIT = np.finfo(float).eps / CONTACT_OHM  # S
NONE = 1e30  # ohm
MOST = 1e-3


@dataclass(frozen=True)
class Case:
    """One drive of a circuit in one switch state, with the engine's numbers: `unknowns` (analyses, size)."""

    name: str
    circuit: Circuit
    values: np.ndarray
    closed: tuple[bool, ...]
    drive: dict | None
    hertz: tuple[float, ...]
    unknowns: np.ndarray


def vectors(circuit: Circuit) -> list[str]:
    """What the netlist calls the unknowns, in the engine's order."""
    kinds = {part.id: f"{'v' if part.kind == 'emf' else 'l'}{i}" for i, part in enumerate(circuit.parts)}
    return [f"n{net}" for net in range(circuit.net_count)] + [kinds[name] for name in circuit.branches]


def compare(case: Case, analyses: list[dict[str, complex]]) -> tuple[float, list[str]]:
    """The worst difference as a share of what rounding allows, and every number further
    apart than that, in words."""
    order = {float(found["frequency"].real): found for found in analyses} if case.drive is not None else None
    changes, worst, wrong = None, 0.0, []
    for number, own in enumerate(case.unknowns):
        found = order[case.hertz[number]] if order else analyses[0]
        other = np.array([found.get(name, np.nan) for name in vectors(case.circuit)])
        allowed = _allowed(case.circuit, own)
        if not np.all(np.abs(other - own) <= allowed):
            changes = _leak_changes(case) if changes is None else changes
            allowed = allowed + np.minimum(
                changes[number], MOST * np.abs(own[: case.circuit.net_count]).max()
            )
        shares = np.divide(
            np.abs(other - own), allowed, out=np.where(other == own, 0.0, np.inf), where=allowed > 0
        )
        worst = max(worst, float(np.nan_to_num(shares, nan=np.inf).max(initial=0.0)))
        wrong += [
            (
                f"{case.name}{f' at {case.hertz[number]:g} Hz' if order else ''}: {name} is {own[k]:.9g}, "
                f"ngspice has {other[k]:.9g}"
            )
            for k, name in enumerate(vectors(case.circuit))
            if not shares[k] <= 1
        ]
    return worst, wrong


def disagreements(case: Case, analyses: list[dict[str, complex]]) -> list[str]:
    """Every number further apart than rounding allows, in words; empty when the two agree."""
    return compare(case, analyses)[1]


def _allowed(circuit: Circuit, own: np.ndarray) -> np.ndarray:
    largest = np.abs(own[: circuit.net_count]).max()
    floor = np.where(np.arange(circuit.size) < circuit.net_count, VOLTS_FLOOR, AMPS_FLOOR) * largest
    return RELATIVE * np.abs(own) + floor


def _leak_changes(case: Case) -> np.ndarray:
    """The most that a leak from each net to the 0 V of its piece can change in all, number by number; first
    order, so they add up."""
    circuit, alternating = case.circuit, case.drive is not None
    opens = SIGNAL_OPENS if alternating else DIRECT_OPENS
    zeros = circuit.zeros(closed_array([case.closed], len(circuit.switches)), opens)[0]
    leaks = [(net, int(zero)) for net, zero in enumerate(zeros) if net != zero]
    parts = tuple(Part(f"leak{net}", "resistor", "", "") for net, _ in leaks)
    leaky = replace(circuit, parts=(*circuit.parts, *parts), ends=(*circuit.ends, *leaks))
    ohm = np.where(np.eye(len(leaks), dtype=bool), 1 / (circuit.size * LAST_BIT), NONE)  # one leak at a time
    values = np.hstack([np.tile(case.values, (len(leaks), 1)), ohm])
    closed = closed_array([case.closed], len(circuit.switches))
    if alternating:
        solved = solve_ac(leaky, values, case.hertz, closed, [case.drive])[:, :, 0, 0]
    else:
        solved = solve_dc(leaky, values, closed).unknowns
    return np.abs(solved - case.unknowns).sum(axis=0)
