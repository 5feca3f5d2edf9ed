"""Solve stacks of one circuit: direct current in every drive and switch state, alternating
current at given frequencies.

Dense nodal analysis by LU with partial pivoting (LAPACK through NumPy), all states of a circuit at once. A
connected piece without an anchor gets one of its nets as 0 V, so an island is solved, never inverted into
nonsense. What the last bits of a matrix cannot tell, a leak beside a closed contact, is found by refinement.
Every solve checks that the currents of its nets sum to zero.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from .checked import solve_checked
from .circuit import DIRECT_OPENS, SIGNAL_OPENS, Circuit, CircuitError
from .constants import CONTACT_OHM, LEAK, MOST_ENTRIES, OPEN_OHM, RESIDUAL, ROUNDS
from .currents import Solution

OPEN = float("nan")  # volts of an emf that is disconnected


def closed_array(states: Sequence[Sequence[bool]], switches: int) -> np.ndarray:
    """Switch states as a boolean array (states, switches)."""
    return np.array([list(state) for state in states], dtype=bool).reshape(len(states), switches)


def solve_dc(
    circuit: Circuit, values: np.ndarray, closed: np.ndarray, volts: Mapping[int, np.ndarray] | None = None
) -> Solution:
    """Direct current. `values` (drives, parts): ohm, V, A of each part in each drive; `closed` (states,
    switches). An emf of OPEN volts is disconnected. An emf may have volts of its own in every state: then
    `volts` tells them, part number -> (drives, states).

    Unknowns come as (drives, states, size). Capacitors are open, inductors shorts. Raises CircuitError when
    there is no single solution.
    """
    if (some := _slices(circuit, len(values), closed)) is not None:
        parts = [
            solve_dc(circuit, values, closed[each], {i: own[:, each] for i, own in (volts or {}).items()})
            for each in some
        ]
        return Solution(
            circuit,
            np.concatenate([one.unknowns for one in parts], axis=1),
            np.concatenate([one.bent for one in parts], axis=1),
            values,
        )
    # Drives that differ in the volts of their emfs alone share a matrix.
    emfs = circuit.kinds == "emf"
    alike: dict[bytes, int] = {}
    case = np.array(
        [alike.setdefault(row.tobytes(), len(alike)) for row in np.where(emfs, np.isnan(values), values)],
        dtype=int,
    )
    distinct = values[[case.tolist().index(number) for number in range(len(alike))]]

    resistors = circuit.kinds == "resistor"
    admittance = np.zeros_like(distinct)
    admittance[:, resistors] = 1 / distinct[:, resistors]
    matrix = _matrix(circuit, admittance)[:, None] + _state_stamps(circuit, closed, DIRECT_OPENS)[None]
    right = np.zeros((len(values), len(closed), circuit.size))
    for i, (part, (a, b)) in enumerate(zip(circuit.parts, circuit.ends)):
        if part.kind == "emf":
            row = circuit.branches[part.id]
            right[..., row] = np.nan_to_num(values[:, i])[:, None] if i not in (volts or {}) else volts[i]
            matrix[np.isnan(distinct[:, i]), :, row, row] = -OPEN_OHM
        elif part.kind == "inductor" and a == b:
            # a winding shorted on itself: nothing pushes direct current round it
            matrix[..., circuit.branches[part.id], circuit.branches[part.id]] = 1.0
    return _bend(circuit, values, case, distinct, matrix, right)


def _slices(circuit: Circuit, cases: int, closed: np.ndarray) -> list[slice] | None:
    """The states in slices, where all of them at once would take too much memory; None where they do not."""
    most = max(1, MOST_ENTRIES // (max(1, cases) * circuit.size**2))
    return (
        [slice(first, first + most) for first in range(0, len(closed), most)] if len(closed) > most else None
    )


def _matrix(circuit: Circuit, admittance: np.ndarray) -> np.ndarray:
    """Nodal matrices from the admittances of the parts: (..., parts) -> (..., size, size), with the rows
    of emfs and windings."""
    stamps = admittance.real @ circuit.part_patterns
    if np.iscomplexobj(admittance):  # apart, so that the patterns stay real
        stamps = stamps + 1j * (admittance.imag @ circuit.part_patterns)
    return stamps.reshape(*admittance.shape[:-1], circuit.size, circuit.size) + circuit.frame


def _bend(
    circuit: Circuit,
    values: np.ndarray,
    case: np.ndarray,
    distinct: np.ndarray,
    matrix: np.ndarray,
    right: np.ndarray,
) -> Solution:
    """Find for every drive and state the region each sink and clamp works in. Their curves rise
    everywhere, so there is one answer.

    `matrix` (cases, states, size, size) has no sinks and clamps yet; `distinct` (cases, parts) are its
    values, `case` tells which one each drive uses.
    """
    bending = [i for i, part in enumerate(circuit.parts) if part.kind in ("sink", "clamp")]
    start = matrix.copy()
    for i in bending:
        _stamp_bend(circuit, i, distinct[:, None, i], np.zeros(matrix.shape[:2], dtype=bool), start, None)
    unknowns = _solve_alike(circuit, start, right, case)
    flags = np.zeros((*unknowns.shape[:2], len(bending)), dtype=bool)
    for _ in range(ROUNDS):
        fresh = np.zeros_like(flags)
        for k, i in enumerate(bending):
            net_a, net_b = circuit.ends[i]
            across = unknowns[..., net_a] - unknowns[..., net_b]
            bend_at = circuit.parts[i].knee if circuit.parts[i].kind == "sink" else values[:, None, i]
            # A part that sits on its bend stays in the region it is in: both give the same there, and
            # rounding must not toss it to and fro.
            on_bend = np.abs(across - bend_at) <= RESIDUAL * np.abs(bend_at)
            fresh[..., k] = np.where(on_bend, flags[..., k], across > bend_at)
        todo = (fresh != flags).any(axis=-1)
        if not todo.any():
            return Solution(circuit, unknowns, flags, values)
        flags = fresh
        drive, state = np.nonzero(todo)
        a, z = matrix[case[drive], state], right[drive, state]
        for k, i in enumerate(bending):
            _stamp_bend(circuit, i, values[drive, i], flags[todo][:, k], a, z)
        unknowns[todo] = solve_checked(circuit, a, z[..., None])[..., 0]
    names = ", ".join(circuit.parts[i].id for i in bending)
    raise CircuitError(f"no settled state found for {names}")


def _solve_alike(circuit: Circuit, matrix: np.ndarray, right: np.ndarray, case: np.ndarray) -> np.ndarray:
    """Every drive in every state, (drives, states, size), those of one case as columns of one solve."""
    column = np.array([np.count_nonzero(case[:i] == number) for i, number in enumerate(case)], dtype=int)
    columns = np.zeros((*matrix.shape[:-1], column.max(initial=0) + 1))
    columns[case, :, :, column] = right
    return solve_checked(circuit, matrix, columns)[case, :, :, column]


def _stamp_bend(
    circuit: Circuit,
    i: int,
    value: np.ndarray,
    bent: np.ndarray,
    matrix: np.ndarray,
    right: np.ndarray | None,
) -> None:
    """A sink draws value/knee per volt up to its knee, then `value`; a clamp nothing up to
    `value`, then 1/series per volt above. Below the bend there is nothing on the right-hand side,
    which may then be left out."""
    part, (a, b) = circuit.parts[i], circuit.ends[i]
    if part.kind == "sink":
        siemens, amps = np.where(bent, LEAK, value / part.knee), np.where(bent, value - LEAK * part.knee, 0.0)
    else:
        siemens, amps = (
            np.where(bent, 1 / part.series, LEAK),
            np.where(bent, (LEAK - 1 / part.series) * value, 0.0),
        )
    for row, column, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
        matrix[..., row, column] += sign * siemens
    if right is not None:
        right[..., a] -= amps
        right[..., b] += amps


def solve_ac(
    circuit: Circuit,
    values: np.ndarray,
    hertz: Sequence[float],
    closed: np.ndarray,
    drives: Sequence[Mapping],
) -> np.ndarray:
    """Alternating current: complex unknowns (corners, frequencies, states, drives, size).

    A drive maps a part id to its signal (V for an emf, A from a to b for a sink) or a pair of nodes to a
    current (A) from the first to the second inside the source. Supplies are shorts, sinks and clamps open.
    """
    if (some := _slices(circuit, len(values) * len(hertz), closed)) is not None:
        return np.concatenate(
            [solve_ac(circuit, values, hertz, closed[each], drives) for each in some], axis=2
        )
    omega = 2 * np.pi * np.asarray(hertz, dtype=float)
    pace = 1j * omega if omega.any() else omega  # at 0 Hz nothing lags, and real numbers do
    branches, index = circuit.branches, circuit.index
    resistors, capacitors = circuit.kinds == "resistor", circuit.kinds == "capacitor"
    admittance = np.zeros((len(values), len(omega), len(circuit.parts)), dtype=pace.dtype)
    admittance[:, :, resistors] = 1 / values[:, None, resistors]
    admittance[:, :, capacitors] = pace[:, None] * values[:, None, capacitors]
    matrix = _matrix(circuit, admittance)[:, :, None]
    for i, part in enumerate(circuit.parts):
        if part.kind == "inductor":
            matrix[..., branches[part.id], branches[part.id]] -= (
                pace[None, :, None] * values[:, i, None, None]
            )
    for coupling in circuit.couplings:
        first, second = index[coupling.first], index[coupling.second]
        mutual = coupling.k * np.sqrt(values[:, first] * values[:, second])
        for one, two in ((first, second), (second, first)):
            row, column = branches[circuit.parts[one].id], branches[circuit.parts[two].id]
            matrix[..., row, column] -= pace[None, :, None] * mutual[:, None, None]
    matrix = matrix + _state_stamps(circuit, closed, SIGNAL_OPENS)[None, None]
    right = np.zeros((circuit.size, len(drives)))
    for column, drive in enumerate(drives):
        for target, signal in drive.items():
            _stamp_drive(circuit, right[:, column], branches, index, target, signal)
    unknowns = solve_checked(circuit, matrix, np.broadcast_to(right, (*matrix.shape[:-1], len(drives))))
    return np.moveaxis(unknowns, -1, -2)


def _stamp_drive(
    circuit: Circuit, right: np.ndarray, branches: Mapping, index: Mapping, target, signal: float
) -> None:
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
    stamps = ((closed / CONTACT_OHM) @ circuit.switch_patterns).reshape(
        len(closed), circuit.size, circuit.size
    )
    nets = np.arange(circuit.net_count)
    stamps[:, nets, nets] += circuit.zeros(closed, opens) == nets
    return stamps
