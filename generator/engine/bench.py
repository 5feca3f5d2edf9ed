"""A connection on the bench: its signals solved, its sources and listeners at hand."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from .assemble import Assembly
from .cases import Case, Decides, signal_case
from .circuit import Circuit, value_at
from .signal import MID, Signals, drive_of, listeners_of, signal_corners, solve_signals, sources_of


class Bench:
    """An assembly with its signals solved, and its sources and listeners at hand."""

    def __init__(self, assembly: Assembly) -> None:
        self.assembly, self.circuit = assembly, assembly.circuit
        self.sources, self.listeners = sources_of(assembly), listeners_of(assembly)
        self.corners = signal_corners(assembly.circuit)

    @cached_property
    def signals(self) -> Signals:
        return solve_signals(self.assembly)

    def drive(self, source: str) -> dict[str, float]:
        return drive_of(*self.sources[source])

    def at(self, listener: str) -> tuple[str, str]:
        place, record = self.listeners[listener]
        return tuple(f"{place}/{node}" for node in record.between)

    def output(self, source: str) -> tuple[str, str]:
        place, record = self.sources[source]
        return tuple(f"{place}/{node}" for node in record.output)

    def values(self, circuit: Circuit, corner: str = "nominal") -> np.ndarray:
        return np.array([value_at(part, corner) for part in circuit.parts])

    def case(self, source: str, state: int, decides: Decides, edge: int = MID, bare: bool = False, corner: str = "nominal", level: float = 1.0) -> Case:
        circuit = self.assembly.bare if bare else self.circuit
        return signal_case(circuit, self.values(circuit, corner), self.assembly.home[state], corner, self.drive(source), edge, decides,
                           level=level, source=source)
