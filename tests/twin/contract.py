"""The contract of the two engines as files of JSON: what is asked, what Python says, and how far the scripts
may be off. Written from the catalogue when it is tested; node's own test runner holds the scripts to them
(`engine.test.mjs`)."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from front import joined, scripts

from generator.catalogue import Catalogue
from generator.catalogue.published import as_data
from generator.engine import judge
from generator.engine.constants import CONTACT_OHM, SILENT
from generator.engine.tables import tables
from generator.site.small import small

HERE = Path(__file__).parent
# Rounding beside a contact's 100 S is as good as a leak from every net to its 0 V of up to this, S (some
# contacts on a net, some steps of elimination, on each side): a few volts times it is what small currents may
# differ by, and a resistance R by a share of LEAK * R.
LEAK = 32 * 2.2e-16 / CONTACT_OHM
# How far apart two numbers may be: `relative` of the number, and what that leak makes of it. Decibels are
# compared as the ratios they stand for: within 2e-7 dB at 0 dB, 1e-4 dB at -60 dB where nothing is heard any
# more; where both are below `silent` they say no more than that.
WITHIN = {
    "relative": 1e-9,
    "leak": LEAK,
    "largest": 1e5,  # ohm; what a large capacitor fills through at most, and with it the time that takes
    # 50 V times LEAK, and what such a current leaves across 50 kilohms
    "floors": {"V": 5e-7, "A": 1e-10, "W": 1e-9, "": 1e-6},
    "floor": 1e-12,  # of anything else
    # of the source: -160 dB, a hundred below what still counts as heard; LEAK across some tens of kilohms
    "gain": 1e-8,
    "decibels": 1e-7,
    "decibelsPerNeper": 8.686,
    "silent": SILENT,
}
SHARE = 400  # questions to one process of node
SHOWN = 6000  # characters of what node says that a failure shows
Question = tuple[str, Sequence[str], str]


@dataclass
class Told:
    """How many questions were compared; how many circuits the scripts gave up on and Python did not; how
    often the two named different ones of capacitors that take equally long; the largest allowed difference
    of two numbers by unit, as a share of what is allowed, with the numbers."""

    compared: int = 0
    refused: int = 0
    tied: int = 0
    worst: dict[str, list] = field(default_factory=dict)

    def add(self, other: dict) -> None:
        self.compared += other["compared"]
        self.refused += other["refused"]
        self.tied += other["tied"]
        for unit, found in other["worst"].items():
            self.worst[unit] = max(found, self.worst.get(unit, found))

    def __str__(self) -> str:
        apart = ", ".join(
            f"{share:.1g} in {unit or 'bare numbers'}" for unit, (share, _) in self.worst.items()
        )
        return (
            f"{self.compared} compared, {self.refused} given up on, {self.tied} with another capacitor as "
            f"slow; of what rounding allows {apart or 'nothing'}"
        )


def asked(question: Question) -> dict[str, Any]:
    start, through, target = question
    return {"from": start, "through": list(through), "into": target}


def says(catalogue: Catalogue, question: Question) -> dict[str, Any]:
    """What Python says to a question, as a case of a fixture."""
    return {"asked": asked(question), "says": judge(catalogue, *question).as_data()}


def raises(question: Question, message: str) -> dict[str, Any]:
    """A case that is refused."""
    return {"asked": asked(question), "raises": {"name": "RangeError", "message": message}}


@cache
def engine() -> str:
    """The engine's scripts made small, as they are published."""
    return small({"engine.js": joined(scripts("engine")).encode()})["engine.js"].decode()


def given(catalogue: Catalogue) -> dict[str, Any]:
    """What the scripts judge by."""
    return {"data": as_data(catalogue), **tables()}


def written(folder: Path, catalogue: Catalogue, cases: Iterable[dict]) -> Iterator[Path]:
    """The files of a contract, a share of the cases in each."""
    (folder / "given.json").write_text(json.dumps(given(catalogue), allow_nan=False), "utf-8")
    (folder / "engine.js").write_text(engine(), "utf-8")
    cases = list(cases)
    for number, start in enumerate(range(0, len(cases), SHARE)):
        path = folder / f"cases-{number}.json"
        share = {"within": WITHIN, "cases": cases[start : start + SHARE]}
        path.write_text(json.dumps(share, allow_nan=False), "utf-8")
        yield path


def hold(folder: Path, catalogue: Catalogue, cases: Iterable[dict], refused: int = 0, tied: int = 0) -> Told:
    """Hold the scripts to Python, on all cores. `refused` is how many circuits at most the scripts may give
    up on, and call dangerous, although Python solves them; `tied` how often at most the two may name
    different ones of capacitors that take equally long."""
    files, told = list(written(folder, catalogue, cases)), Told()
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for one in pool.map(_held, files):
            told.add(one)
    assert told.refused <= refused and told.tied <= tied, told
    return told


def _held(fixture: Path) -> dict:
    told = fixture.with_suffix(".told")
    tested("engine.test.mjs", FIXTURE=str(fixture), TOLD=str(told))
    return json.loads(told.read_text("utf-8"))


def tested(name: str, **environment: str) -> None:
    """Run a file of tests with node's own runner; what it says is the failure."""
    if shutil.which("node") is None:
        pytest.skip("node not installed")
    done = subprocess.run(
        ["node", "--test", "--test-reporter=spec", str(HERE / name)],
        env=os.environ | environment,
        capture_output=True,
        text=True,
        check=False,
    )
    failing = done.stdout[done.stdout.find("failing tests:") :][:SHOWN]
    assert done.returncode == 0, f"node --test {name}: {failing}\n{done.stderr[-2000:]}"
