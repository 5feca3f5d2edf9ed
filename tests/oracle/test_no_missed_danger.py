"""No rating is passed in any state of a connection that the ledger does not call dangerous.

Of the ledger what is called safe, one row of every record and one in thirty-six of the rest, drawn by the ids
of the rows; with RINGFENCE_WHOLE set, all of it.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable
from typing import NamedTuple

import pytest
from dangers import amplifier, dangers
from drawn import WHOLE, lot
from meters import Hit
from sums import Unsettled

from generator.catalogue import Catalogue, default_directory
from generator.catalogue.quantity import parse
from generator.engine import judge
from generator.engine.circuit import CircuitError

pytestmark = pytest.mark.oracle

DRAWN, SHOWN = 36, 20
RATED = {"over-volts", "over-current", "over-power", "reversed-capacitor"}  # a part against its own rating
CALLED, PARTNERED = 150, 300  # rows drawn: dangerous ones, and ones whose lead has a spare end


class Row(NamedTuple):
    """A line of the ledger."""

    outlet: str
    through: tuple[str, ...]
    inlet: str
    verdict: str
    findings: tuple[str, ...]
    number: str

    @property
    def chance(self) -> int:
        """The same number for the same ids, on every machine."""
        return lot(self.outlet, *self.through, self.inlet)

    def __str__(self) -> str:
        return f"{self.outlet} -> {' + '.join(self.through) or 'no lead'} -> {self.inlet}, {self.verdict}"


def ledger() -> list[Row]:
    """Every row of the committed ledger."""
    rows = []
    for path in sorted((default_directory() / "verdicts").glob("*.txt")):
        for line in path.read_text(encoding="utf-8").splitlines():
            if not line.startswith("#"):
                through, inlet, verdict, findings, number, *_ = line.split("\t")
                leads = () if through == "-" else tuple(through.split("+"))
                rows.append(
                    Row(path.stem, leads, inlet, verdict, tuple(findings.replace("|", "").split()), number)
                )
    return rows


def drawn(rows: list[Row]) -> list[Row]:
    """What is not called dangerous: all of it, or what is called safe, one in thirty-six of the rest,
    and a row of every record."""
    calm = [row for row in rows if row.verdict != "dangerous"]
    if WHOLE:
        return calm
    least: dict[tuple[str, str], Row] = {}
    for row in sorted(calm, key=lambda row: row.chance):
        for record in records(row):
            least.setdefault(record, row)
    told = set(least.values())
    return [row for row in calm if row.verdict == "safe" or row.chance % DRAWN == 0 or row in told]


def records(row: Row) -> list[tuple[str, str]]:
    """What a row is about: its outlet, leads and inlet."""
    return [("outlet", row.outlet), *(("lead", name) for name in row.through), ("inlet", row.inlet)]


_catalogue: Catalogue | None = None  # what a worker process reads; handed over when it starts


def _start(catalogue: Catalogue) -> None:
    global _catalogue
    _catalogue = catalogue


def _read(row: Row) -> list[Hit]:
    try:
        return dangers(_catalogue, row[:3])
    except (CircuitError, Unsettled) as error:  # what cannot be solved has to be called dangerous
        return [Hit("connection", "circuit", str(error), "any", 1.0, 0.0, "")]


def _silent(row: Row) -> bool:
    """Does a partner of a spare end pass a limit, and the engine not say so?"""
    if not dangers(_catalogue, row[:3], partners=True):
        return False
    return not any(told.subject.startswith("spare:") for told in judge(_catalogue, *row[:3]).findings)


def on_all_cores(catalogue: Catalogue, ask: Callable, rows: list[Row]) -> list:
    """What `ask` gives for each row."""
    with multiprocessing.get_context("fork").Pool(initializer=_start, initargs=(catalogue,)) as pool:
        return pool.map(ask, rows, chunksize=20)


def test_nothing_is_passed_where_the_ledger_sees_no_danger(catalogue, record_property):
    rows = drawn(ledger())
    passed = [(row, hits) for row, hits in zip(rows, on_all_cores(catalogue, _read, rows)) if hits]
    found = f"{len(passed)} of {len(rows)} rows that are not dangerous have a limit that is passed"
    record_property("told", f"independent reader: {found}")
    first = [told(*one) for one in passed[:SHOWN]]
    assert rows and not passed, "\n".join([f"{found}, the first {len(first)}:", *first])


def told(row: Row, hits: list[Hit]) -> str:
    """A row with the hits that are furthest beyond."""
    worst = sorted(hits, key=lambda hit: -hit.value / max(hit.limit, 1e-9))[:4]
    return "\n    ".join(map(str, (row, *worst)))


def test_an_amplifier_into_what_is_no_loudspeaker_is_dangerous_in_every_row(catalogue):
    """The rule alone, over all rows: it needs no circuit."""
    rows = [row for row in ledger() if amplifier(catalogue.ports[row.outlet], catalogue.ports[row.inlet])]
    wrong = [str(row) for row in rows if row.verdict != "dangerous"]
    assert rows and not wrong, f"{len(wrong)} of {len(rows)}:\n" + "\n".join(wrong[:SHOWN])


def test_what_the_ledger_calls_dangerous_by_a_rating_the_reader_sees_as_well(catalogue, record_property):
    """The reader can see: rows whose deciding number is a part at more than twice its own rating, drawn by
    their ids. Not less than twice, for a largest direct voltage and a largest signal that come in two
    different states may be added, which the reader does not; that makes at most twice."""
    called = [
        row
        for row in ledger()
        if row.verdict == "dangerous" and row.findings[0] in RATED and beyond(row.number) > 2
    ]
    rows = sorted(called, key=lambda row: row.chance)[:CALLED]
    unseen = [row for row, hits in zip(rows, on_all_cores(catalogue, _read, rows)) if not hits]
    blind = [str(row) for row in unseen if not on_the_edge(catalogue, row)]
    seen = f"{len(rows) - len(blind)} of {len(rows)}"
    record_property("told", f"independent reader: sees {seen} drawn rows that are dangerous by a rating")
    assert len(rows) == CALLED and not blind, f"{len(blind)} of {len(rows)}:\n" + "\n".join(blind)


def on_the_edge(catalogue: Catalogue, row: Row) -> bool:
    """Is all that is dangerous about a row told to last a tenth of a second, where a moment ends? The engine
    steps in time and is up to a step late, the reader is not."""
    dangers = [told for told in judge(catalogue, *row[:3]).findings if told.severity == "dangerous"]
    return all("for 100 ms" in told.says for told in dangers)


def beyond(number: str) -> float:
    """How many times its limit a number of the ledger is: `44.6 V / 10 V`."""
    value, _, limit = number.replace("µ", "u").partition(" / ")
    return parse(value).nominal / parse(limit).nominal if limit else 0.0


def test_what_a_partner_of_a_spare_end_does_is_told(catalogue):
    """It is no part of the verdict, for nobody chose that device, but a sentence of its own."""
    splitters = {lead.id for lead in catalogue.leads.values() if len(lead.ends) > 2}
    rows = [row for row in drawn(ledger()) if splitters.intersection(row.through)]
    rows = sorted(rows, key=lambda row: row.chance)[:PARTNERED]
    silent = [str(row) for row, mute in zip(rows, on_all_cores(catalogue, _silent, rows)) if mute]
    assert rows and not silent, f"{len(silent)} of {len(rows)}:\n" + "\n".join(silent[:SHOWN])


def test_what_is_drawn_has_every_record_and_all_that_is_safe():
    rows = ledger()
    calm, chosen = [row for row in rows if row.verdict != "dangerous"], drawn(rows)
    assert {one for row in chosen for one in records(row)} == {one for row in calm for one in records(row)}
    assert sum(row.verdict == "safe" for row in chosen) == sum(row.verdict == "safe" for row in calm)
    assert len(chosen) > len(calm) / DRAWN
