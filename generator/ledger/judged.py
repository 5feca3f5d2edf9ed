"""Judge pairings, on all cores, and only those that something has changed for since the last run."""

from __future__ import annotations

import json
import multiprocessing
import os
import signal
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from generator.catalogue.records import Catalogue
from generator.engine import judge, pairings

from .fingerprint import LENGTH, Fingerprints, Pairing
from .progress import told

FEW = 200  # below this starting more processes costs more than it saves
SHARE = 16  # pairings a process takes at once

_catalogue: Catalogue | None = None  # what a worker process judges from; handed over when it starts


def judged(catalogue: Catalogue, remembered: Path | None = None, wanted: Sequence[Pairing] | None = None) -> list[Mapping[str, Any]]:
    """The verdicts of pairings, by default of every one, in published form (the object of `judge --json`), in order of outlet, inlet, lead.

    `remembered` is a file of earlier results, one JSON object a line with its digest; it is used where the digest still holds. What is judged is
    added to it at once, so that a run that was stopped goes on where it was.
    """
    prints = Fingerprints(catalogue)
    todo = [(pairing, prints.of(pairing)) for pairing in (pairings(catalogue) if wanted is None else wanted)]
    known = _recall(remembered)
    found = {digest: _read(known[digest]) for _, digest in todo if digest in known}
    missing = [(pairing, digest) for pairing, digest in todo if not found.get(digest)]
    damaged = sum(digest in known for _, digest in missing)
    if damaged:
        sys.stderr.write(f"{remembered}: {damaged} of its lines {'is' if damaged == 1 else 'are'} damaged; what they held is judged anew.\n")
    with _keeping(remembered) as keep:
        answers = told(_judge_all(catalogue, [pairing for pairing, _ in missing]), len(missing), "connections judged")
        for (_, digest), line in zip(missing, answers):
            known[digest], found[digest] = line, _read(line)
            keep(digest, line)
    if remembered and wanted is None and len(known) > len({digest for _, digest in todo}):
        _forget(remembered, {digest: known[digest] for _, digest in todo})
    return [found[digest] for _, digest in todo]


def _recall(remembered: Path | None) -> dict[str, str]:
    if remembered is None or not remembered.exists():
        return {}
    lines = remembered.read_text(encoding="utf-8", errors="replace").split("\n")
    return dict(line.split(" ", 1) for line in lines[:-1] if _whole(line))  # what follows the last break was cut short


def _read(line: str) -> Mapping[str, Any]:
    """What was judged; nothing where the line is damaged."""
    try:
        return json.loads(line)
    except ValueError:
        return {}


def _whole(line: str) -> bool:
    return line[LENGTH:LENGTH + 2] == " {" and line.endswith("}")


@contextmanager
def _keeping(remembered: Path | None) -> Iterator:
    """A function that adds a digest and its answer to a file."""
    if remembered is None:
        yield lambda digest, line: None
        return
    remembered.parent.mkdir(parents=True, exist_ok=True)
    with remembered.open("a", encoding="utf-8") as file:
        if file.tell():
            file.write("\n")  # ends what a stopped run may have left; an empty line is passed over
        yield lambda digest, line: file.write(f"{digest} {line}\n")


def _forget(remembered: Path, kept: Mapping[str, str]) -> None:
    """Leave only these in the file."""
    partial = remembered.with_suffix(f".{os.getpid()}")  # renamed when whole, so that two runs at once do no harm
    partial.write_text("".join(f"{digest} {line}\n" for digest, line in kept.items()), encoding="utf-8")
    partial.replace(remembered)


def _judge_all(catalogue: Catalogue, wanted: Sequence[Pairing]) -> Iterable[str]:
    if len(wanted) < FEW:
        _start(catalogue)
        yield from map(_one, wanted)
        return
    with multiprocessing.Pool(initializer=_join, initargs=(catalogue,)) as pool:
        yield from pool.imap(_one, wanted, chunksize=SHARE)


def _join(catalogue: Catalogue) -> None:
    """Begin a process beside others: who is stopped by a key is the one that started them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _start(catalogue)


def _start(catalogue: Catalogue) -> None:
    global _catalogue
    _catalogue = catalogue


def _one(pairing: Pairing) -> str:
    return json.dumps(judge(_catalogue, *pairing).as_data(), ensure_ascii=False)
