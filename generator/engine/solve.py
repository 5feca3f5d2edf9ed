"""Solve stacks of one circuit: direct current in every drive and switch state, alternating current at given frequencies.

Dense nodal analysis by LU with partial pivoting (LAPACK through NumPy), all states of a circuit at once. A connected
piece without an anchor gets one of its nets as 0 V, so an island is solved, never inverted into nonsense. Every solve checks
that the currents of its nets sum to zero.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .circuit import BRANCHED, CONTACT_OHM, DIRECT_OPENS, SIGNAL_OPENS, Circuit, CircuitError, conductances, stamp_branch

RESIDUAL = 1e-9  # largest error of a current or voltage equation, relative to its largest term
LEAK = 1e-12  # S; keeps a net that only a flat part reaches from hanging in the air
ROUNDS = 40  # a handful of bends settles in two or three; more means none of the combinations fits


@dataclass(frozen=True)
class Solution:
    """Unknowns of a stack: `unknowns` has shape (..., size); `bent` tells for each bending part (sink, clamp) whether it is in its second
    region (sink: full current; clamp: conducting), shape (..., number of bending parts)."""

    circuit: Circuit
    unknowns: np.ndarray
    bent: np.ndarray
    values: np.ndarray

    def drives(self, wanted: slice) -> "Solution":
        """The part of the stack that belongs to some of the drives."""
        return Solution(self.circuit, self.unknowns[wanted], self.bent[wanted], self.values[wanted])

    def volts(self, a: str, b: str) -> np.ndarray:
        """Voltage of node a over node b, V."""
        nets = self.circuit.nets
        return self.unknowns[..., nets[a]] - self.unknowns[..., nets[b]]

    def part_volts(self, index: int) -> np.ndarray:
        """Voltage across part number `index`, a over b, V."""
        a, b = self.circuit.ends[index]
        return self.unknowns[..., a] - self.unknowns[..., b]


def closed_array(states: Sequence[Sequence[bool]], switches: int) -> np.ndarray:
    """Switch states as a boolean array (states, switches)."""
    return np.array([list(state) for state in states], dtype=bool).reshape(len(states), switches)


def solve_dc(circuit: Circuit, values: np.ndarray, closed: np.ndarray) -> Solution:
    """Direct current. `values` (drives, parts): ohm, V, A of each part in each drive; `closed` (states, switches).

    Unknowns come as (drives, states, size). Capacitors are open, inductors shorts. Raises CircuitError when there is no single solution.
    """
    admittance = np.array([1 / values[:, i] if part.kind == "resistor" else np.zeros(len(values)) for i, part in enumerate(circuit.parts)])
    matrix = _matrix(circuit, admittance.T)[:, None] + _state_stamps(circuit, closed, DIRECT_OPENS)[None]
    right = np.zeros((len(values), circuit.size))
    for i, (part, (a, b)) in enumerate(zip(circuit.parts, circuit.ends)):
        if part.kind == "emf":
            right[:, circuit.branches[part.id]] = values[:, i]
        elif part.kind == "inductor" and a == b:  # a winding shorted on itself: nothing pushes direct current round it
            matrix[..., circuit.branches[part.id], circuit.branches[part.id]] = 1.0
    return _bend(circuit, values, matrix, np.broadcast_to(right[:, None], matrix.shape[:-1]))


def _matrix(circuit: Circuit, admittance: np.ndarray) -> np.ndarray:
    """Nodal matrices from the admittances of the parts: (..., parts) -> (..., size, size), with the rows of emfs and windings."""
    size = circuit.size
    patterns = conductances(circuit.ends, size).reshape(-1, size * size)
    matrix = (admittance @ patterns).reshape(*admittance.shape[:-1], size, size)
    for part, (a, b) in zip(circuit.parts, circuit.ends):
        if part.kind in BRANCHED:
            stamp_branch(matrix, a, b, circuit.branches[part.id])
    return matrix


def _bend(circuit: Circuit, values: np.ndarray, matrix: np.ndarray, right: np.ndarray) -> Solution:
    """Find for every case the region each sink and clamp works in. Their curves rise everywhere, so there is one answer."""
    bending = [i for i, part in enumerate(circuit.parts) if part.kind in ("sink", "clamp")]
    flags = np.zeros((*matrix.shape[:2], len(bending)), dtype=bool)
    unknowns = np.zeros(right.shape)
    todo = np.ones(matrix.shape[:2], dtype=bool)
    for _ in range(ROUNDS):
        a, z = matrix[todo], right[todo].copy()
        for k, i in enumerate(bending):
            _stamp_bend(circuit, i, np.broadcast_to(values[:, None, i], todo.shape)[todo], flags[todo][:, k], a, z)
        unknowns[todo] = _solve_checked(circuit, a, z)
        fresh = np.zeros_like(flags)
        for k, i in enumerate(bending):
            net_a, net_b = circuit.ends[i]
            across = unknowns[..., net_a] - unknowns[..., net_b]
            bend_at = circuit.parts[i].knee if circuit.parts[i].kind == "sink" else values[:, None, i]
            # A part that sits on its bend stays in the region it is in: both give the same there, and rounding must not toss it to and fro.
            on_bend = np.abs(across - bend_at) <= RESIDUAL * np.abs(bend_at)
            fresh[..., k] = np.where(on_bend, flags[..., k], across > bend_at)
        todo = (fresh != flags).any(axis=-1)
        if not todo.any():
            return Solution(circuit, unknowns, flags, values)
        flags = fresh
    names = ", ".join(circuit.parts[i].id for i in bending)
    raise CircuitError(f"no settled state found for {names}")


def _stamp_bend(circuit: Circuit, i: int, value: np.ndarray, bent: np.ndarray, matrix: np.ndarray, right: np.ndarray) -> None:
    """A sink draws value/knee per volt up to its knee, then `value`; a clamp nothing up to `value`, then 1/series per volt above."""
    part, (a, b) = circuit.parts[i], circuit.ends[i]
    pattern = conductances([(a, b)], circuit.size)[0]
    if part.kind == "sink":
        siemens, amps = np.where(bent, LEAK, value / part.knee), np.where(bent, value - LEAK * part.knee, 0.0)
    else:
        siemens, amps = np.where(bent, 1 / part.series, LEAK), np.where(bent, (LEAK - 1 / part.series) * value, 0.0)
    matrix += siemens[:, None, None] * pattern
    right[..., a] -= amps
    right[..., b] += amps


def solve_ac(circuit: Circuit, values: np.ndarray, hertz: Sequence[float], closed: np.ndarray, drives: Sequence[Mapping]) -> np.ndarray:
    """Alternating current: complex unknowns (corners, frequencies, states, drives, size).

    A drive maps a part id to its signal (V for an emf, A from a to b for a sink) or a pair of nodes to a current (A) from the first to
    the second inside the source. Supplies are shorts, sinks and clamps open.
    """
    omega = 2 * np.pi * np.asarray(hertz, dtype=float)
    branches, index = circuit.branches, {part.id: i for i, part in enumerate(circuit.parts)}
    admittance = np.zeros((len(values), len(omega), len(circuit.parts)), dtype=complex)
    for i, part in enumerate(circuit.parts):
        if part.kind == "resistor":
            admittance[:, :, i] = 1 / values[:, i, None]
        elif part.kind == "capacitor":
            admittance[:, :, i] = 1j * omega * values[:, i, None]
    matrix = _matrix(circuit, admittance)[:, :, None]
    for i, part in enumerate(circuit.parts):
        if part.kind == "inductor":
            matrix[..., branches[part.id], branches[part.id]] -= 1j * omega[None, :, None] * values[:, i, None, None]
    for coupling in circuit.couplings:
        first, second = index[coupling.first], index[coupling.second]
        mutual = coupling.k * np.sqrt(values[:, first] * values[:, second])
        for one, two in ((first, second), (second, first)):
            row, column = branches[circuit.parts[one].id], branches[circuit.parts[two].id]
            matrix[..., row, column] -= 1j * omega[None, :, None] * mutual[:, None, None]
    matrix = matrix + _state_stamps(circuit, closed, SIGNAL_OPENS)[None, None]
    right = np.zeros((circuit.size, len(drives)), dtype=complex)
    for column, drive in enumerate(drives):
        for target, signal in drive.items():
            _stamp_drive(circuit, right[:, column], branches, index, target, signal)
    unknowns = _solve_checked(circuit, matrix, np.broadcast_to(right, (*matrix.shape[:-1], len(drives))))
    return np.moveaxis(unknowns, -1, -2)


def _stamp_drive(circuit: Circuit, right: np.ndarray, branches: Mapping, index: Mapping, target, signal: float) -> None:
    if isinstance(target, tuple):
        a, b = (circuit.nets[node] for node in target)
    elif target in branches:
        right[branches[target]] += signal
        return
    else:
        a, b = circuit.ends[index[target]]
    right[a] -= signal
    right[b] += signal


def _state_stamps(circuit: Circuit, closed: np.ndarray, opens: Sequence[str]) -> np.ndarray:
    """Closed contacts and the 0 V of each island, as matrices (states, size, size)."""
    size = circuit.size
    patterns = conductances(circuit.switches, size).reshape(-1, size * size)
    stamps = ((closed / CONTACT_OHM) @ patterns).reshape(len(closed), size, size)
    zeros = circuit.zeros(closed, opens)
    for net in range(circuit.net_count):
        stamps[:, net, net] += zeros[:, net] == net
    return stamps


def _solve_checked(circuit: Circuit, matrix: np.ndarray, right: np.ndarray) -> np.ndarray:
    """Solve and hold every equation against RESIDUAL. `right` is (..., size) or (..., size, columns)."""
    vector = right.ndim == matrix.ndim - 1
    right = right[..., None] if vector else right
    try:
        found = np.linalg.solve(matrix, right)
    except np.linalg.LinAlgError:
        raise CircuitError("no single solution: a loop of emfs and windings without resistance") from None
    error = np.abs(matrix @ found - right)
    scale = np.abs(matrix) @ np.abs(found) + np.abs(right)
    # LU is stable for the system as a whole, not row by row: rows far below the largest may carry its rounding.
    if not np.all(error <= RESIDUAL * scale + 1e-13 * scale.max(axis=-2, keepdims=True)):
        raise CircuitError("no single solution: the currents of a net do not sum to zero")
    return found[..., 0] if vector else found


def part_amps(solution: Solution, index: int) -> np.ndarray:
    """Direct current through part number `index` from a to b, A."""
    circuit, part, value = solution.circuit, solution.circuit.parts[index], solution.values[:, None, index]
    across = solution.part_volts(index)
    if part.kind == "resistor":
        return across / value
    if part.kind in BRANCHED:
        return solution.unknowns[..., circuit.branches[part.id]]
    if part.kind == "sink":
        return value * np.minimum(1.0, across / part.knee)
    if part.kind == "clamp":
        return np.maximum(0.0, across - value) / part.series
    return np.zeros_like(across)


def part_signal_amps(circuit: Circuit, values: np.ndarray, hertz: Sequence[float], unknowns: np.ndarray, index: int) -> np.ndarray:
    """Alternating current (complex, A) through a resistor, capacitor, emf or inductor; sinks and clamps carry none of it."""
    part, (a, b) = circuit.parts[index], circuit.ends[index]
    across = unknowns[..., a] - unknowns[..., b]
    if part.kind in BRANCHED:
        return unknowns[..., circuit.branches[part.id]]
    value = values[:, index].reshape(-1, *([1] * (across.ndim - 1)))
    if part.kind == "resistor":
        return across / value
    if part.kind == "capacitor":
        omega = (2 * np.pi * np.asarray(hertz)).reshape(1, -1, *([1] * (across.ndim - 2)))
        return 1j * omega * value * across
    return np.zeros_like(across)
