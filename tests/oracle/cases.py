"""Cases of a connection: its circuit in one switch state, at one tolerance corner, under one supply setting or signal, as the engine solved it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from agreement import Case

from generator.engine.assemble import EARTHS, Assembly
from generator.engine.circuit import Circuit, value_at
from generator.engine.direct import corners, settings, solve_settings
from generator.engine.signal import HERTZ, drive_of, sources_of
from generator.engine.solve import closed_array, solve_ac


class Point(NamedTuple):
    """Where to look: the number of the supply setting or drive, the corner, the kind of state and the state."""

    number: int
    corner: str
    kind: str  # home | joined | plugging
    state: tuple[bool, ...]


@dataclass(frozen=True)
class Drive:
    """A signal and the circuit it is put into."""

    name: str
    circuit: Circuit
    signal: dict


def states(assembly: Assembly) -> list[tuple[str, tuple[bool, ...]]]:
    """Every state with its kind, in the order of solve_settings."""
    kinds = {"home": assembly.home, "joined": assembly.joined, "plugging": assembly.plugging}
    return [(kind, state) for kind, found in kinds.items() for state in found]


def drives(assembly: Assembly) -> list[Drive]:
    """Every signal the engine asks about: each source, a probing ampere at each source's output, a volt between the two chassis."""
    found = []
    for name, (place, source) in sources_of(assembly).items():
        found.append(Drive(name, assembly.circuit, drive_of(place, source)))
        found.append(Drive(f"{name} probed", assembly.circuit, {tuple(f"{place}/{node}" for node in source.output): -1.0}))
    return found + ([Drive("between chassis", assembly.linked, {EARTHS: 1.0})] if assembly.linked else [])


def points(assembly: Assembly, count: int) -> list[Point]:
    """Every point for `count` settings or drives."""
    at, possible = corners(assembly.circuit), states(assembly)
    return [Point(number, corner, kind, state) for number in range(count) for corner in at for kind, state in possible]


def direct_cases(name: str, assembly: Assembly, wanted: Sequence[Point]) -> Iterator[Case]:
    """Direct current at each point, out of the one stack that the engine's readings are taken from."""
    circuit, switched, at = assembly.circuit, settings(assembly.ports), corners(assembly.circuit)
    stack, order = solve_settings(assembly, switched), [state for _, state in states(assembly)]
    for point in wanted:
        row, state = point.number * len(at) + at.index(point.corner), order.index(point.state)
        yield Case(f"{name} {switched[point.number]} {point.corner} {point.kind} {state}", circuit, stack.values[row], point.state, None, (),
                   stack.unknowns[row, state][None])


def signal_cases(name: str, assembly: Assembly, wanted: Sequence[Point]) -> Iterator[Case]:
    """Alternating current at each point; what shares a circuit and a corner is solved in one stack, as the engine does it."""
    asked = drives(assembly)
    stacks: dict[tuple[int, str], list[Point]] = {}
    for point in wanted:
        stacks.setdefault((id(asked[point.number].circuit), point.corner), []).append(point)
    for shared in stacks.values():
        circuit, corner = asked[shared[0].number].circuit, shared[0].corner
        values = np.array([[value_at(part, corner) for part in circuit.parts]])
        numbers, closed = list(dict.fromkeys(p.number for p in shared)), list(dict.fromkeys(p.state for p in shared))
        solved = solve_ac(circuit, values, HERTZ, closed_array(closed, len(circuit.switches)), [asked[number].signal for number in numbers])[0]
        for point in shared:
            drive, state = asked[point.number], closed.index(point.state)
            yield Case(f"{name} {drive.name} {corner} {point.kind} {closed[state]}", circuit, values[0], point.state, drive.signal, HERTZ,
                       solved[:, state, numbers.index(point.number)])
