"""Compare many connections with ngspice, on all cores, and keep count of what was met. Each is assembled once
for all analyses of it."""

from __future__ import annotations

import multiprocessing
import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from agreement import Case, compare
from cases import (
    Point,
    Solved,
    direct_cases,
    direct_points,
    instant_cases,
    instant_points,
    signal_cases,
    signal_points,
)
from connections import Connection
from simulator import bare, simulate

from generator.catalogue.records import Catalogue
from generator.engine.assembly import Assembly
from generator.engine.netlist import netlist

BATCH = 100  # ways of plugging handed to one process at a time, at most
Look = Callable[[Assembly, Case], Iterable[float]]


@dataclass
class Tally:
    """What a comparison did: cases compared of those there are, circuits after equal netlists were taken
    together, cases by corner and by kind of state, the worst difference as a share of what rounding allows
    with its case, and what differed by more. `looked`: how many numbers a further look at the cases gave;
    `largest`: the largest of them with its case."""

    ways: int = 0
    compared: int = 0
    possible: int = 0
    circuits: int = 0
    corners: Counter = field(default_factory=Counter)
    states: Counter = field(default_factory=Counter)
    worst: tuple[float, str] = (0.0, "")
    wrong: list[str] = field(default_factory=list)
    looked: int = 0
    largest: tuple[float, str] = (0.0, "")

    def add(self, other: Tally) -> None:
        """Take another tally in."""
        for name in ("ways", "compared", "possible", "circuits", "corners", "states", "wrong", "looked"):
            setattr(self, name, getattr(self, name) + getattr(other, name))
        self.worst, self.largest = max(self.worst, other.worst), max(self.largest, other.largest)

    def __str__(self) -> str:
        counted = ", ".join(
            f"{name} {count}" for name, count in (*sorted(self.states.items()), *sorted(self.corners.items()))
        )
        return (
            f"{self.ways} ways, {self.compared} cases ({self.circuits} different circuits), "
            f"{self.compared / max(1, self.possible):.2%} of {self.possible} possible; {counted}; worst "
            f"difference {self.worst[0]:.2g} of what rounding allows ({self.worst[1]})"
        )


@dataclass(frozen=True)
class Analysis:
    """Direct current, first instants or alternating current: every point there is for a connection,
    and the cases of some."""

    name: str
    points: Callable[[Solved], list[Point]]
    cases: Callable[[str, Solved, Sequence[Point]], Iterator[Case]]


DIRECT = Analysis("direct current", direct_points, direct_cases)
INSTANT = Analysis("first instants", instant_points, instant_cases)
SIGNAL = Analysis("signals", signal_points, signal_cases)
ANALYSES = {analysis.name: analysis for analysis in (DIRECT, INSTANT, SIGNAL)}
Choice = Callable[[Analysis, Connection, Assembly, Sequence[Point]], Iterable[Point]]


def text_of(case: Case) -> str:
    """The case as a netlist."""
    return netlist(case.circuit, case.values, case.closed, case.drive, case.hertz)


def everything(
    analysis: Analysis, connection: Connection, assembly: Assembly, possible: Sequence[Point]
) -> Iterable[Point]:
    """Every setting or drive, corner and state."""
    return possible


def nothing(assembly: Assembly, case: Case) -> Iterable[float]:
    """No further look."""
    return ()


def compare_batch(
    catalogue: Catalogue, batch: Sequence[Connection], choose: Choice, look: Look = nothing
) -> dict[str, Tally]:
    """Compare the chosen points of some connections in one ngspice process. A tally for
    each analysis, by name."""
    tallies, different = {name: Tally(ways=len(batch)) for name in ANALYSES}, {}
    for connection in batch:
        assembly = connection.assembly(catalogue)
        solved = Solved(assembly)
        for name, analysis in ANALYSES.items():
            tally, possible = tallies[name], analysis.points(solved)
            wanted = list(choose(analysis, connection, assembly, possible))
            tally.possible += len(possible)
            tally.compared += len(wanted)
            tally.corners.update(point.corner for point in wanted)
            tally.states.update(point.kind for point in wanted)
            for case in analysis.cases(connection.name, solved, wanted):
                different.setdefault(bare(text_of(case)), (tally, case))
                for number in look(assembly, case):
                    tally.looked += 1
                    tally.largest = max(tally.largest, (number, case.name))
    for (tally, case), analyses in zip(different.values(), simulate(list(different))):
        share, wrong = compare(case, analyses)
        tally.circuits += 1
        tally.worst = max(tally.worst, (share, case.name))
        tally.wrong += wrong
    return tallies


# what a worker process compares; handed over when it starts
_shared: tuple[Catalogue, Choice, Look] | None = None


def compare_all(
    catalogue: Catalogue, wanted: Sequence[Connection], choose: Choice, look: Look = nothing
) -> dict[str, Tally]:
    """Compare connections on all cores. Raises AssertionError when ngspice gives no result for a circuit."""
    tallies = {name: Tally() for name in ANALYSES}
    size = min(BATCH, len(wanted) // (4 * (os.cpu_count() or 1)) + 1)
    batches = [wanted[i : i + size] for i in range(0, len(wanted), size)]
    with multiprocessing.get_context("fork").Pool(
        initializer=_start, initargs=(catalogue, choose, look)
    ) as pool:
        for found in pool.imap_unordered(_one, batches):
            for name, tally in found.items():
                tallies[name].add(tally)
    return tallies


def _start(*shared) -> None:
    global _shared
    _shared = shared


def _one(batch: Sequence[Connection]) -> dict[str, Tally]:
    catalogue, choose, look = _shared
    return compare_batch(catalogue, batch, choose, look)
