"""How fast the engine is, on circuits of the real catalogue, beside ngspice in the same run.

    python -m tests.benchmarks.engine [--ways N] [--pairings N] [--seed N] [--out FILE]

from the project's folder. Prints a table; `--out` gets the same as JSON lines, one measurement each:

    {"measure": "circuits per second", "what": "engine", "count": 52110, "seconds": 1.9, "rate":
    27426.3, "unit": "circuits/s",
     "load": 1.4, "note": "..."}

`count` things took `seconds` (CPU seconds of all processes involved, except where `unit` says wall), `rate`
is count / seconds, or the ratio where `unit` is `times`. `load` is the machine's one-minute load when it was
taken. CPU seconds, because other work may share the cores; engine and ngspice take turns, batch by batch, so
that a busy minute strikes both. A circuit is one setting or drive, corner, state and frequency.
"""

from __future__ import annotations

import os

# the matrices are small; must be set before NumPy is first imported
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import argparse
import json
import resource
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from random import Random

# its modules call each other by bare name, as pytest has them
sys.path.insert(0, str(Path(__file__).parents[1] / "oracle"))

from cases import Solved
from comparison import ANALYSES, SIGNAL, text_of
from connections import Connection, connections
from simulator import NGSPICE, simulate

from generator.catalogue import default_directory, load
from generator.catalogue.records import Catalogue
from generator.engine import judge, memory, pairings
from generator.engine.signal import HERTZ
from generator.ledger import judged, row
from generator.ledger.judged import Task, share, shares
from generator.ledger.memory import opened
from generator.ledger.workers import processes

from .synthetic import EQUAL, copied, one_lead_changed, some_outlets

BATCH = 5  # ways between turns
WORKERS = (1, 2)
COPIES = (1, 2, 4)  # of every lead and every inlet: 1, 4 and 16 times the pairings


@dataclass(frozen=True)
class Measurement:
    """A line of the output, as described above."""

    measure: str
    what: str
    count: int
    seconds: float
    rate: float
    unit: str
    load: float
    note: str = ""


def measured(
    measure: str, what: str, count: int, seconds: float, unit: str, note: str = "", rate: float | None = None
) -> Measurement:
    return Measurement(
        measure,
        what,
        count,
        round(seconds, 4),
        round(count / seconds if rate is None else rate, 3),
        unit,
        os.getloadavg()[0],
        note,
    )


def cpu(children: bool = False) -> float:
    """CPU seconds of this process, or of those it has waited for."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN if children else resource.RUSAGE_SELF)
    return used.ru_utime + used.ru_stime


def against_ngspice(catalogue: Catalogue, sample: Sequence[Connection]) -> Iterator[Measurement]:
    """The same circuits solved by both: direct current in every setting, corner and state; signals from every
    drive in every corner and state."""
    for analysis in ANALYSES.values():
        count, own, other = 0, 0.0, 0.0
        for first in range(0, len(sample), BATCH):
            netlists, each = [], len(HERTZ) if analysis is SIGNAL else 1
            for connection in sample[first : first + BATCH]:
                assembly = connection.assembly(catalogue)
                wanted = analysis.points(Solved(assembly))
                before = cpu()
                cases = list(analysis.cases("", Solved(assembly), wanted))
                own += cpu() - before
                netlists += [text_of(case) for case in cases]
            before = cpu(children=True)
            simulate(netlists)
            other += cpu(children=True) - before
            count += each * len(netlists)
        note = f"{analysis.name}, {len(sample)} ways"
        yield measured("circuits per second", "engine", count, own, "circuits/s", note)
        yield measured("circuits per second", "ngspice", count, other, "circuits/s", note)
        yield measured(
            "engine against ngspice",
            analysis.name,
            count,
            own,
            "times",
            "the goal is 10 or more",
            other / own,
        )


def judging(catalogue: Catalogue, wanted: Sequence) -> Iterator[Measurement]:
    """Verdicts in one process, and rows in processes beside it, the way the ledger is made."""
    memory._remembered.clear()
    before = cpu()
    for pairing in wanted:
        judge(catalogue, *pairing)
    yield measured("pairings judged", "one process", len(wanted), cpu() - before, "pairings/s")
    few = some_outlets(catalogue, len(wanted))
    tasks = [Task(pairing, "", None, row) for pairing in pairings(few)]
    for number in WORKERS:
        before = time.perf_counter()
        with processes(share, few, None, number) as mapped:
            count = sum(map(len, mapped(shares(tasks))))
        yield measured(
            "rows judged",
            f"{number} worker{'s' if number > 1 else ''}",
            count,
            time.perf_counter() - before,
            "pairings/s wall",
            "starting them included",
        )


def scaling(catalogue: Catalogue, most: int) -> Iterator[Measurement]:
    """Copies of every lead and inlet; equal circuits are solved once, so the time should
    follow the distinct ones."""
    base = some_outlets(catalogue, most)
    for copies in COPIES:
        larger = copied(base, copies)
        wanted = list(pairings(larger))
        memory._remembered.clear()
        before = cpu()
        for pairing in wanted:
            judge(larger, *pairing)
        spent, distinct = cpu() - before, len(memory._remembered)
        note = (
            f"{len(wanted)} pairings, {len(connections(larger, wanted))} ways; {EQUAL:.0%} of the copies are "
            "electrically equal"
        )
        yield measured("distinct circuits", f"{copies * copies} times", distinct, spent, "distinct/s", note)


def after_a_change(catalogue: Catalogue, most: int) -> Iterator[Measurement]:
    """One lead gets another resistance; the ledger's memory knows the rest."""
    base = some_outlets(catalogue, most)
    changed, lead = one_lead_changed(base)
    with tempfile.TemporaryDirectory() as directory:
        remembered, known = Path(directory) / "readings.sqlite", 0
        for what, today in (
            ("all for the first time", base),
            ("nothing changed", base),
            (f"{lead} changed", changed),
        ):
            before = time.perf_counter()
            found = judged(today, remembered)
            spent = time.perf_counter() - before
            with opened(remembered) as readings:
                fresh, known = len(readings) - known, len(readings)
            yield measured("judged again", what, fresh, spent, "pairings/s wall", f"of {len(found)} pairings")


def table(found: Sequence[Measurement]) -> str:
    """Columns for people."""
    rows = [("measure", "what", "count", "seconds", "rate", "unit", "load", "note")]
    rows += [
        (
            m.measure,
            m.what,
            str(m.count),
            f"{m.seconds:.2f}",
            f"{m.rate:,.1f}",
            m.unit,
            f"{m.load:.1f}",
            m.note,
        )
        for m in found
    ]
    widths = [max(map(len, column)) for column in zip(*rows)]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in rows
    )


def main(arguments: list[str] | None = None) -> int:
    """Measure and print; exit status 0."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.engine", description=__doc__.splitlines()[0]
    )
    parser.add_argument(
        "--ways",
        type=int,
        default=60,
        help="ways of plugging solved by both engines (default 60; 0 for none)",
    )
    parser.add_argument(
        "--pairings",
        type=int,
        default=300,
        help="pairings judged, about, for each of the other measurements (default 300)",
    )
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pinouts", type=Path, default=default_directory(), help="another catalogue")
    parser.add_argument("--out", type=Path, help="file for JSON lines")
    options = parser.parse_args(arguments)
    if options.ways and NGSPICE is None:
        parser.error("ngspice is not installed; use --ways 0")
    catalogue, chance = load(options.pinouts), Random(options.seed)
    everyone = list(pairings(catalogue))
    ways = connections(catalogue, chance.sample(everyone, min(options.ways, len(everyone))))[: options.ways]
    steps: list[Callable[[], Iterator[Measurement]]] = [
        lambda: against_ngspice(catalogue, ways) if ways else iter(()),
        lambda: judging(catalogue, chance.sample(everyone, min(options.pairings, len(everyone)))),
        lambda: scaling(catalogue, options.pairings // 4),
        lambda: after_a_change(catalogue, options.pairings),
    ]
    found = [measurement for step in steps for measurement in step()]
    print(table(found))
    if options.out:
        options.out.write_text(
            "".join(json.dumps(asdict(m), ensure_ascii=False) + "\n" for m in found), encoding="utf-8"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
