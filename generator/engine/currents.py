"""What a meter would read in a solved circuit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .circuit import BRANCHED, Circuit
from .constants import ALIKE


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
