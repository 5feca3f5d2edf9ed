"""Judge pairings, on all cores: from readings that are remembered where nothing they are made of has changed, else from nothing."""

from __future__ import annotations

import multiprocessing
import signal
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from generator.catalogue.records import Catalogue
from generator.engine import memory as solved
from generator.engine import pairings

from .fingerprint import Fingerprints, Pairing
from .form import Damaged, Flat, flat
from .memory import Memory, opened
from .progress import told
from .recorded import recorded, replayed

FEW = 200  # below this starting more processes costs more than it saves
SHARE = 16  # pairings a process takes at once
ALIKE = 1000  # circuits a process keeps in mind: what is alike stands close together, and each is some 90 kB

Answer = Mapping[str, Any]  # the object of `judge --json`
Task = tuple[Pairing, str, str | None, Callable[[Answer], Any]]

_own: tuple[Catalogue, Memory | None]  # what a process judges from; handed over when it starts


def judged(catalogue: Catalogue, remembered: Path | None = None, wanted: Sequence[Pairing] | None = None) -> list[Answer]:
    """The verdicts of pairings, by default of every one, in published form (the object of `judge --json`), in order of outlet, inlet, lead.

    `remembered` is the file with the readings of earlier runs, see memory.py. What is judged is added to it at once, so that a run that was stopped
    goes on where it was.
    """
    return list(told_of(dict, catalogue, remembered, list(pairings(catalogue)) if wanted is None else wanted))


def told_of(of: Callable[[Answer], Any], catalogue: Catalogue, remembered: Path | None, wanted: Sequence[Pairing]) -> Iterator[Any]:
    """What `of` makes of the verdict of each of these pairings. Where that is not the whole answer, how each thing is known may have changed since."""
    plain, whole = Fingerprints(catalogue, words=False), Fingerprints(catalogue)
    tasks = [(pairing, plain.readings(pairing), whole.readings(pairing) if of is dict else None, of) for pairing in wanted]
    damaged = 0
    with opened(remembered) as memory:
        for (pairing, digest, *_), (made, fresh, spoilt) in zip(tasks, told(_all(catalogue, memory, tasks), len(tasks), "connections judged")):
            damaged += spoilt
            if memory is not None and fresh is not None:
                memory.keep(digest, whole.readings(pairing), fresh)
            yield made
    if damaged:
        sys.stderr.write(f"{remembered}: {damaged} of its pairings {'is damaged; what it' if damaged == 1 else 'are damaged; what they'} held is judged anew.\n")


def _all(catalogue: Catalogue, memory: Memory | None, tasks: Sequence[Task]) -> Iterable[tuple]:
    if len(tasks) < FEW:
        yield from (_answered(catalogue, memory, task) for task in tasks)
        return
    with multiprocessing.Pool(initializer=_join, initargs=(catalogue, None if memory is None else memory.path)) as pool:
        yield from pool.imap(_one, tasks, chunksize=SHARE)


def _join(catalogue: Catalogue, remembered: Path | None) -> None:
    """Begin a process beside others: who is stopped by a key is the one that started them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    global _own
    solved.MOST = ALIKE
    _own = catalogue, Memory(remembered) if remembered else None


def _one(task: Task) -> tuple[Any, list[Flat] | None, bool]:
    return _answered(*_own, task)


def _answered(catalogue: Catalogue, memory: Memory | None, task: Task) -> tuple[Any, list[Flat] | None, bool]:
    """What is asked of one verdict, its readings where they are new, and whether what was remembered of them was spoilt."""
    pairing, digest, whole, of = task
    written, spoilt = None, False
    try:
        written = memory.recalled(digest, whole) if memory is not None else None
    except Damaged:
        spoilt = True
    if written is not None:
        return of(replayed(catalogue, *pairing, written).as_data()), None, spoilt
    verdict, written = recorded(catalogue, *pairing)
    return of(verdict.as_data()), list(map(flat, written)), spoilt
