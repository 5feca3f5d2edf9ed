"""Solve stacks of one circuit: direct current in every drive and switch state, alternating
current at given frequencies.

Dense nodal analysis by LU with partial pivoting (LAPACK through NumPy), all states of a circuit at once. A
connected piece without an anchor gets one of its nets as 0 V, so an island is solved, never inverted into
nonsense. What the last bits of a matrix cannot tell, a leak beside a closed contact, is found by refinement.
Every solve checks that the currents of its nets sum to zero.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .circuit import BRANCHED, DIRECT_OPENS, SIGNAL_OPENS, Circuit, CircuitError
from .constants import (
    ALIKE,
    CONTACT_OHM,
    GRID_BITS,
    LEAK,
    MOST_ENTRIES,
    OPEN_OHM,
    REFINEMENTS,
    RESIDUAL,
    ROUNDING,
    ROUNDS,
    SETTLED,
)

OPEN = float("nan")  # volts of an emf that is disconnected


def most_at(values: np.ndarray) -> tuple[int, ...]:
    """Where the largest of `values` stands, an index for each axis; of those alike but for rounding the
    first, which is the same on every machine."""
    most = values.max()
    return tuple(
        int(i)
        for i in np.unravel_index(int((values >= most * (1 - ALIKE * np.sign(most))).argmax()), values.shape)
    )


@dataclass(frozen=True)
class Solution:
    """Unknowns of a stack: `unknowns` has shape (..., size); `bent` tells for each bending part (sink,
    clamp) whether it is in its second region (sink: full current; clamp: conducting), shape (...,
    number of bending parts)."""

    circuit: Circuit
    unknowns: np.ndarray
    bent: np.ndarray
    values: np.ndarray

    def drives(self, wanted: slice) -> "Solution":
        """The part of the stack that belongs to some of the drives."""
        return Solution(self.circuit, self.unknowns[wanted], self.bent[wanted], self.values[wanted])

    def states(self, wanted: slice) -> "Solution":
        """The part of the stack that belongs to some of the states."""
        return Solution(self.circuit, self.unknowns[:, wanted], self.bent[:, wanted], self.values)

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
        unknowns[todo] = _solve_checked(circuit, a, z[..., None])[..., 0]
    names = ", ".join(circuit.parts[i].id for i in bending)
    raise CircuitError(f"no settled state found for {names}")


def _solve_alike(circuit: Circuit, matrix: np.ndarray, right: np.ndarray, case: np.ndarray) -> np.ndarray:
    """Every drive in every state, (drives, states, size), those of one case as columns of one solve."""
    column = np.array([np.count_nonzero(case[:i] == number) for i, number in enumerate(case)], dtype=int)
    columns = np.zeros((*matrix.shape[:-1], column.max(initial=0) + 1))
    columns[case, :, :, column] = right
    return _solve_checked(circuit, matrix, columns)[case, :, :, column]


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
    matrix += siemens[..., None, None] * circuit.part_patterns[i].reshape(circuit.size, circuit.size)
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
    unknowns = _solve_checked(circuit, matrix, np.broadcast_to(right, (*matrix.shape[:-1], len(drives))))
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


def _solve_checked(circuit: Circuit, matrix: np.ndarray, right: np.ndarray) -> np.ndarray:
    """Solve, hold every equation against RESIDUAL, and refine. `right` is (..., size, columns)."""
    shape = right.shape
    if not right.size:
        return np.zeros(shape, dtype=matrix.dtype)
    matrix, right = matrix.reshape(-1, *matrix.shape[-2:]), right.reshape(-1, *shape[-2:])
    try:
        found = np.linalg.solve(matrix, right)
        left = _imbalance(circuit, matrix, right, found)
        scale = np.abs(matrix) @ np.abs(found) + np.abs(right)
        # LU is stable for the system as a whole, not row by row: rows far below the largest
        # may carry its rounding.
        if not np.all(np.abs(left) <= RESIDUAL * scale + ROUNDING * scale.max(axis=-2, keepdims=True)):
            raise CircuitError("no single solution: the currents of a net do not sum to zero")
        _refine(circuit, matrix, right, found, left)
    except np.linalg.LinAlgError:
        raise CircuitError("no single solution: a loop of emfs and windings without resistance") from None
    return found.reshape(shape)


def _refine(
    circuit: Circuit, matrix: np.ndarray, right: np.ndarray, found: np.ndarray, left: np.ndarray
) -> None:
    """Improve what was found by what is left of the equations, until no voltage moves any more
    than rounding moves it."""
    todo, last = np.arange(len(matrix)), np.full((len(matrix), right.shape[-1]), np.inf)
    for _ in range(REFINEMENTS):
        step = np.linalg.solve(matrix[todo], left)
        found[todo] += step
        moved, size = (np.abs(x[:, : circuit.net_count]).max(axis=1) for x in (step, found[todo]))
        going = ((moved > SETTLED * size) & (moved < last / 2)).any(axis=-1)
        todo, last = todo[going], moved[going]
        if not todo.size:
            return
        left = _imbalance(circuit, matrix[todo], right[todo], found[todo])


def _imbalance(circuit: Circuit, matrix: np.ndarray, right: np.ndarray, found: np.ndarray) -> np.ndarray:
    """What is left of every equation, `right` - `matrix` @ `found`. Currents between nets are taken from the
    differences of their voltages: in the sum of a net's conductances, and in products with it, a closed
    contact drowns what is a trillion times less."""
    nets, (one, two) = circuit.net_count, circuit.links
    volts, branches = found[:, :nets], found[:, nets:]
    # off the diagonal stands minus the conductance
    flows = matrix[:, one, two, None] * (volts[:, one] - volts[:, two])
    currents = np.concatenate([flows, branches], axis=1)
    # Large currents cancel in every net. Rounded to one grid they do so exactly, and
    # leave room for the small.
    grid = np.ldexp(1.0, np.frexp(np.abs(currents).max(axis=1, keepdims=True, initial=0.0))[1] - GRID_BITS)
    large = np.rint(currents / grid) * grid
    ground = np.rint(matrix[:, :nets, :nets].real.sum(axis=-1))  # what ties the 0 V of an island
    left = right - matrix[:, :, nets:] @ branches
    left[:, :nets] = (
        right[:, :nets] + _into_nets(circuit, large, currents - large) - ground[..., None] * volts
    )
    left[:, nets:] -= matrix[:, nets:, :nets] @ volts
    return left


def _into_nets(circuit: Circuit, *shares: np.ndarray) -> np.ndarray:
    """The currents of `Circuit.flows_into`, given in shares that are summed up apart, in every net: (...,
    currents, columns) -> (..., nets, columns)."""
    which, signs, begins, some = circuit.flows_into
    into = np.zeros((len(shares[0]), circuit.net_count, shares[0].shape[-1]), dtype=shares[0].dtype)
    if len(some):
        sums = np.add.reduceat(np.stack(shares)[:, :, which] * signs[:, None], begins, axis=2)
        into[:, some] = sums.sum(axis=0)
    return into


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


def part_signal_amps(
    circuit: Circuit, values: np.ndarray, hertz: Sequence[float], unknowns: np.ndarray, index: int
) -> np.ndarray:
    """Alternating current (complex, A) through a resistor, capacitor, emf or inductor; sinks and
    clamps carry none of it."""
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
