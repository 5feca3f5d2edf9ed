"""A solve that holds every equation of every answer against a bound, and refines it: what the last bits of a
matrix cannot tell, a leak beside a closed contact."""

from __future__ import annotations

import numpy as np

from .circuit import Circuit, CircuitError
from .constants import GRID_BITS, REFINEMENTS, RESIDUAL, ROUNDING, SETTLED


def solve_checked(circuit: Circuit, matrix: np.ndarray, right: np.ndarray) -> np.ndarray:
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
    into = circuit.into_nets @ large + circuit.into_nets @ (currents - large)
    left[:, :nets] = right[:, :nets] + into - ground[..., None] * volts
    left[:, nets:] -= matrix[:, nets:, :nets] @ volts
    return left
