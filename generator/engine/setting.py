"""A position of every supply switch, solved: in every tolerance corner, landing and plugging state."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .assembly import Assembly
from .currents import Solution, most_at
from .hanging import shared
from .readings import At, Decides
from .solve import closed_array, solve_dc
from .switches import live_supplies, live_volts, stacked


@dataclass(frozen=True)
class Setting:
    """One supply setting solved: its number, the supplies that are on as (place, part number), its drives as
    (corner, what is off does), the solution (drives, states), the same with nothing plugged in, and both
    where hanging pieces have shared their charge (None where none hang)."""

    number: int
    live: Sequence[tuple[str, int]]
    drives: Sequence[tuple[str, str]]
    solution: Solution
    apart: Solution
    shared: tuple[Solution, Solution] | None

    @property
    def places(self) -> set[str]:
        """Where supplies are on."""
        return {place for place, _ in self.live}

    def at(self, values: np.ndarray, decides: Decides, first: int = 0, moved: np.ndarray | None = None) -> At:
        """Where the largest of `values` (drives, states from number `first` on) stands, read at `decides`;
        `moved` tells which of them are shared."""
        drive, state = most_at(values)
        corner, off = self.drives[drive]
        return At(
            "direct",
            state + first,
            decides,
            corner,
            off,
            shared=moved is not None and bool(moved[drive, state]),
        )


def solve_settings(assembly: Assembly, wanted: Sequence[Mapping[str, str]]) -> list[Setting]:
    """Every wanted setting in every state, all of them in one solve."""
    circuit = assembly.circuit
    values, each = stacked(circuit, assembly.ports, wanted)
    closed = closed_array([*assembly.states, assembly.apart], len(circuit.switches))
    solution, found, first = solve_dc(circuit, values, closed), [], 0
    hanging = shared(solution, closed)
    for number, (setting, some) in enumerate(zip(wanted, each)):
        live = live_supplies(circuit, live_volts(circuit, assembly.ports, setting))
        mine = slice(first, first + len(some))
        found.append(
            Setting(
                number,
                live,
                some,
                *_parted(solution.drives(mine)),
                _parted(hanging.drives(mine)) if hanging else None,
            )
        )
        first += len(some)
    return found


def _parted(solution: Solution) -> tuple[Solution, Solution]:
    """What is plugged, and the last state, with nothing plugged in."""
    return solution.states(slice(0, -1)), solution.states(slice(-1, None))
