"""Pieces of a circuit that nothing but capacitors reaches: where they hang in the moment after plugging.

Two capacitors in series with nothing that ties the net between them share the volts by the charge they took
up: the larger stands less. Later the one that leaks least stands most, and nobody knows which that is; so a
rating is held against both, this and the net at 0 V.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .circuit import Circuit
from .constants import LEAST_CAPACITANCE
from .currents import Solution


def shared(solution: Solution, closed: np.ndarray) -> Solution | None:
    """The solution with every hanging piece where the charges of its capacitors cancel, none charged before,
    instead of at 0 V; None where no piece hangs. `closed` (states, switches)."""
    circuit = solution.circuit
    each = [tuple(zeros) for zeros in circuit.zeros(closed).tolist()]
    hanging = {zeros: pieces for zeros in dict.fromkeys(each) if (pieces := _hanging(circuit, zeros))}
    if not hanging:
        return None
    unknowns = solution.unknowns.copy()
    for state, zeros in enumerate(each):
        if zeros in hanging:
            unknowns[:, state, : circuit.net_count] += _moved(
                circuit, zeros, hanging[zeros], solution.unknowns[:, state]
            )
    return replace(solution, unknowns=unknowns)


def _large(circuit: Circuit, zeros: Sequence[int]) -> dict[int, tuple[int, int]]:
    """Part number -> the two pieces, by their 0 V nets, of every large capacitor between two."""
    each = {
        i: (zeros[a], zeros[b])
        for i, (part, (a, b)) in enumerate(zip(circuit.parts, circuit.ends))
        if part.kind == "capacitor" and part.value.nominal >= LEAST_CAPACITANCE
    }
    return {i: ends for i, ends in each.items() if ends[0] != ends[1]}


def idle(circuit: Circuit, closed: np.ndarray) -> np.ndarray:
    """Which parts are large capacitors that nothing can charge, for one side of theirs hangs in the air:
    (parts, states). `closed` (states, switches)."""
    each = [tuple(zeros) for zeros in circuit.zeros(closed).tolist()]
    found = np.zeros((len(circuit.parts), len(each)), bool)
    for state, zeros in enumerate(each):
        found[list(_large(circuit, zeros).keys() - _between(circuit, zeros)[0].keys()), state] = True
    return found


def _between(circuit: Circuit, zeros: Sequence[int]) -> tuple[dict[int, tuple[int, int]], list[int]]:
    """The large capacitors that have something on both sides, and the pieces between two of them or more."""
    large, pieces = _large(circuit, zeros), sorted({*zeros} - {*circuit.anchors})
    while True:
        loose = [piece for piece in pieces if sum(piece in ends for ends in large.values()) < 2]
        if not loose:
            return large, pieces
        pieces = [piece for piece in pieces if piece not in loose]
        large = {i: ends for i, ends in large.items() if not {*ends} & {*loose}}


def _hanging(circuit: Circuit, zeros: Sequence[int]) -> list[int]:
    """The pieces that hang between two large capacitors or more. A single one takes up no charge; of pieces
    that reach each other alone the first stays at its 0 V."""
    large, pieces = _between(circuit, zeros)
    tied = {piece for ends in large.values() for piece in ends} - {*pieces}
    kept = []
    while len(tied) < len(tied | {*pieces}):
        fresh = {piece for ends in large.values() if {*ends} & tied for piece in ends} - tied
        if not fresh:
            tied.add(next(piece for piece in pieces if piece not in tied))
            continue
        tied |= fresh
        kept += fresh
    return sorted(kept)


def _moved(circuit: Circuit, zeros: Sequence[int], pieces: Sequence[int], unknowns: np.ndarray) -> np.ndarray:
    """What each net moves by, V, so that the charges on every hanging piece sum to zero: (drives, nets).
    `unknowns` (drives, size)."""
    place = {piece: row for row, piece in enumerate(pieces)}
    farads, charge = np.zeros((len(pieces), len(pieces))), np.zeros((len(pieces), len(unknowns)))
    for i, ends in _large(circuit, zeros).items():
        (a, b), size = circuit.ends[i], circuit.parts[i].value.nominal
        for here, there, one, other in ((a, b, *ends), (b, a, *ends[::-1])):
            if one not in place:
                continue
            farads[place[one], place[one]] += size
            charge[place[one]] += size * (unknowns[:, there] - unknowns[:, here])
            if other in place:
                farads[place[one], place[other]] -= size
    volts = np.linalg.solve(farads, charge)
    of_net = [place.get(zero, len(pieces)) for zero in zeros]
    return np.vstack([volts, np.zeros(len(unknowns))])[of_net].T
