"""What faults sound like, kept as text: judging every fault of every lead takes minutes, and a site is
built without judging anything.

One line for each lead and symptom: LEAD SYMPTOM FAULTS, tab-separated, the faults joined by blanks, the
most common first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from generator.catalogue.records import Catalogue

from .faulty import faults
from .heard import by_symptom, hear
from .specimen import on_bench

FILE = "workshop/symptoms.txt"  # in the catalogue's folder
HEAD = (
    "# Computed by `python -m generator symptoms`: lead, symptom, the faults that explain it. Do not edit.\n"
)

Symptoms = dict[str, dict[str, list[str]]]  # lead -> symptom -> fault ids


def worked_out(catalogue: Catalogue, leads: Sequence[str]) -> Iterator[tuple[str, dict[str, list[str]]]]:
    """Leads with their symptoms, worked out now; several by all cores."""
    if len(leads) < 2:
        yield from ((lead, _sounds(catalogue, lead)) for lead in leads)
        return
    with ProcessPoolExecutor(initializer=_join, initargs=(catalogue,)) as pool:
        yield from zip(leads, pool.map(_here, leads), strict=True)


def _sounds(catalogue: Catalogue, lead: str) -> dict[str, list[str]]:
    tried = faults(on_bench(catalogue, catalogue.leads[lead]))
    return by_symptom(hear(catalogue, catalogue.leads[lead], tried), tried)


_own: Catalogue  # what a process works by; handed over when it starts


def _join(catalogue: Catalogue) -> None:
    global _own
    _own = catalogue


def _here(lead: str) -> dict[str, list[str]]:
    return _sounds(_own, lead)


def text(symptoms: Symptoms) -> str:
    """As it is kept."""
    lines = (
        f"{lead}\t{symptom}\t{' '.join(ids)}\n"
        for lead, found in sorted(symptoms.items())
        for symptom, ids in found.items()
    )
    return HEAD + "".join(lines)


def read(directory: Path) -> Symptoms:
    """What is kept with a catalogue; nothing where no file is."""
    path, found = directory / FILE, {}
    for line in path.read_text("utf-8").splitlines()[1:] if path.is_file() else ():
        lead, symptom, ids = line.split("\t")
        found.setdefault(lead, {})[symptom] = ids.split(" ")
    return found


def write(directory: Path, symptoms: Symptoms) -> None:
    """Keep it."""
    path = directory / FILE
    path.parent.mkdir(exist_ok=True)
    path.write_text(text(symptoms), "utf-8")
