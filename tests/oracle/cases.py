"""Cases of a connection: its circuit in one switch state, at one tolerance corner, under one supply setting
or signal, as the engine solved it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from agreement import Case

from generator.engine.assembly import EARTHS, Assembly
from generator.engine.circuit import Circuit
from generator.engine.constants import HERTZ
from generator.engine.instants import Capacitors, Struck, instants
from generator.engine.setting import Setting, solve_settings
from generator.engine.signal import HUM_HERTZ, drive_of, powered, sources_of
from generator.engine.solve import closed_array, solve_ac
from generator.engine.switches import corner_value, corners, settings


class Solved:
    """What the engine solves of an assembly, each when it is first asked for."""

    def __init__(self, assembly: Assembly) -> None:
        self.assembly = assembly

    @cached_property
    def settings(self) -> list[Setting]:
        return solve_settings(self.assembly, settings(self.assembly.ports))

    @cached_property
    def capacitors(self) -> Capacitors:
        return Capacitors(self.assembly)

    @cached_property
    def instants(self) -> list[Struck]:
        return list(instants(self.capacitors))


class Point(NamedTuple):
    """Where to look: the number of the supply setting, drive or instant, the corner (with what supplies do
    that are off), the kind of state and the state."""

    number: int
    corner: str
    kind: str  # home | joined | plugging
    state: tuple[bool, ...]


@dataclass(frozen=True)
class Drive:
    """A signal, the circuit it is put into and the frequencies; `pair` numbers the powering of the two
    devices where that matters."""

    name: str
    circuit: Circuit
    signal: dict
    hertz: tuple[float, ...] = HERTZ
    pair: int | None = None


def states(assembly: Assembly) -> list[tuple[str, tuple[bool, ...]]]:
    """Every state with its kind, in the order of Assembly.states."""
    kinds = {"home": assembly.home, "joined": assembly.joined, "plugging": assembly.plugging}
    return [(kind, state) for kind, found in kinds.items() for state in found]


def drives(assembly: Assembly) -> list[Drive]:
    """Every signal the engine asks about: each source, a probing ampere at each source's output, a volt
    between the two chassis for each way they may be powered."""
    found = []
    for name, (place, source) in sources_of(assembly).items():
        found.append(Drive(name, assembly.circuit, drive_of(place, source)))
        found.append(
            Drive(
                f"{name} probed", assembly.circuit, {tuple(f"{place}/{node}" for node in source.output): -1.0}
            )
        )
    linked = enumerate(assembly.pairs) if assembly.linked else ()
    return found + [
        Drive(f"between chassis, {pair.says}", assembly.linked, {EARTHS: 1.0}, HUM_HERTZ, number)
        for number, pair in linked
    ]


def _points(assembly: Assembly, rows: Sequence[tuple[int, str]]) -> list[Point]:
    return [Point(number, corner, kind, state) for number, corner in rows for kind, state in states(assembly)]


def direct_points(solved: Solved) -> list[Point]:
    """Every setting, corner and state."""
    return _points(
        solved.assembly,
        [
            (number, " ".join(drive).strip())
            for number, setting in enumerate(solved.settings)
            for drive in setting.drives
        ],
    )


def signal_points(solved: Solved) -> list[Point]:
    """Every drive, corner and state."""
    assembly = solved.assembly
    return _points(
        assembly,
        [(number, corner) for number in range(len(drives(assembly))) for corner in corners(assembly.circuit)],
    )


def instant_points(solved: Solved) -> list[Point]:
    """Every first instant in every state it is asked in."""
    return [
        Point(number, struck.moment, kind, state)
        for number, struck in enumerate(solved.instants)
        for kind, state in states(solved.assembly)[: struck.solution.unknowns.shape[1]]
    ]


def direct_cases(name: str, solved: Solved, wanted: Sequence[Point]) -> Iterator[Case]:
    """Direct current at each point, out of the one stack that the engine's readings are taken from."""
    assembly = solved.assembly
    switched, order = settings(assembly.ports), list(assembly.states)
    for point in wanted:
        setting, state = solved.settings[point.number], order.index(point.state)
        row = [" ".join(drive).strip() for drive in setting.drives].index(point.corner)
        yield Case(
            f"{name} {switched[point.number]} {point.corner} {point.kind} {state}",
            assembly.circuit,
            setting.solution.values[row],
            point.state,
            None,
            (),
            setting.solution.unknowns[row, state][None],
        )


def instant_cases(name: str, solved: Solved, wanted: Sequence[Point]) -> Iterator[Case]:
    """First instants: direct current with every large capacitor as an emf of what it holds."""
    capacitors, order = solved.capacitors, list(solved.assembly.states)
    for point in wanted:
        one, state = solved.instants[point.number], order.index(point.state)
        values = one.solution.values[0].copy()
        for part, volts in one.charges.items():
            values[capacitors.circuit.index[part]] = volts
        yield Case(
            f"{name} instant {point.number} {point.corner} {point.kind} {state}",
            capacitors.circuit,
            values,
            point.state,
            None,
            (),
            one.solution.unknowns[0, state][None],
        )


def signal_cases(name: str, solved: Solved, wanted: Sequence[Point]) -> Iterator[Case]:
    """Alternating current at each point; what shares a circuit and a corner is solved in one stack,
    as the engine does it."""
    assembly = solved.assembly
    asked = drives(assembly)
    stacks: dict[tuple, list[Point]] = {}
    for point in wanted:
        stacks.setdefault(
            (id(asked[point.number].circuit), asked[point.number].pair, point.corner), []
        ).append(point)
    for (_, pair, corner), shared in stacks.items():
        circuit, hertz = asked[shared[0].number].circuit, asked[shared[0].number].hertz
        values = np.array([corner_value(part, corner) for part in circuit.parts])
        values = values if pair is None else powered(circuit, values, assembly.pairs[pair])
        numbers, closed = (
            list(dict.fromkeys(p.number for p in shared)),
            list(dict.fromkeys(p.state for p in shared)),
        )
        found = solve_ac(
            circuit,
            values[None],
            hertz,
            closed_array(closed, len(circuit.switches)),
            [asked[number].signal for number in numbers],
        )[0]
        for point in shared:
            drive, state = asked[point.number], closed.index(point.state)
            yield Case(
                f"{name} {drive.name} {corner} {point.kind} {closed[state]}",
                circuit,
                values,
                point.state,
                drive.signal,
                hertz,
                found[:, state, numbers.index(point.number)],
            )
