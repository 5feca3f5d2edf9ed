"""Judge all pairings, on all cores, and only those that something has changed for since the last run."""

from __future__ import annotations

import json
import multiprocessing
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from generator.catalogue.records import Catalogue
from generator.engine import judge, pairings

from .fingerprint import Fingerprints, Pairing

FEW = 200  # below this starting more processes costs more than it saves

_catalogue: Catalogue | None = None  # what a worker process judges from; handed over when it starts


def judged(catalogue: Catalogue, remembered: Path | None = None) -> list[Mapping[str, Any]]:
    """Every pairing's verdict in published form (the object of `judge --json`), in order of outlet, inlet, lead.

    `remembered` is a file of earlier results, one JSON object a line with its digest; it is used where the digest still holds, and rewritten.
    """
    prints = Fingerprints(catalogue)
    todo = [(pairing, prints.of(pairing)) for pairing in pairings(catalogue)]
    known = _recall(remembered)
    missing = [pairing for pairing, digest in todo if digest not in known]
    fresh = dict(zip(missing, _judge_all(catalogue, missing)))
    found = [(digest, fresh[pairing] if pairing in fresh else known[digest]) for pairing, digest in todo]
    if remembered and (fresh or len(known) != len(found)):
        remembered.parent.mkdir(parents=True, exist_ok=True)
        partial = remembered.with_suffix(f".{os.getpid()}")  # renamed when whole, so that two runs at once do no harm
        partial.write_text("".join(f"{digest} {line}\n" for digest, line in found), encoding="utf-8")
        partial.replace(remembered)
    return [json.loads(line) for _, line in found]


def _recall(remembered: Path | None) -> dict[str, str]:
    if remembered is None or not remembered.exists():
        return {}
    return dict(line.rstrip("\n").split(" ", 1) for line in remembered.open(encoding="utf-8"))


def _judge_all(catalogue: Catalogue, wanted: Sequence[Pairing]) -> list[str]:
    if len(wanted) < FEW:
        _start(catalogue)
        return [_one(pairing) for pairing in wanted]
    with multiprocessing.Pool(initializer=_start, initargs=(catalogue,)) as pool:
        return pool.map(_one, wanted, chunksize=64)


def _start(catalogue: Catalogue) -> None:
    global _catalogue
    _catalogue = catalogue


def _one(pairing: Pairing) -> str:
    return json.dumps(judge(_catalogue, *pairing).as_data(), ensure_ascii=False)
