"""Judge pairings, on all cores or on a cluster: from readings that are remembered where nothing they are made
of has changed, else from nothing."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack
from functools import cache
from itertools import chain
from pathlib import Path
from typing import Any, NamedTuple

from generator.catalogue.records import Catalogue
from generator.engine import pairings

from .fingerprint import Fingerprints, Pairing
from .form import Damaged, Flat, flat
from .memory import Memory, opened
from .progress import told
from .recorded import recorded, replayed
from .workers import cluster, processes

FEW = 200  # below this starting more processes costs more than it saves
SHARE = 16  # pairings a process takes at once

Answer = Mapping[str, Any]  # the object of `judge --json`
Done = tuple[Any, list[Flat] | None, bool]


class Task(NamedTuple):
    """A pairing, the digests of its readings (`whole` where how each thing is known is asked too), and what
    is to be made of its verdict."""

    pairing: Pairing
    digest: str
    whole: str | None
    of: Callable[[Answer], Any]


def judged(
    catalogue: Catalogue, remembered: Path | None = None, wanted: Sequence[Pairing] | None = None
) -> list[Answer]:
    """The verdicts of pairings, by default of every one, in published form (the object of `judge --json`), in
    order of outlet, inlet, lead.

    `remembered` is the file with the readings of earlier runs, see memory.py. What is judged is added to it
    at once, so that a run that was stopped goes on where it was.
    """
    return list(told_of(dict, catalogue, remembered, list(pairings(catalogue)) if wanted is None else wanted))


def told_of(
    of: Callable[[Answer], Any],
    catalogue: Catalogue,
    remembered: Path | None,
    wanted: Sequence[Pairing],
    address: str | None = None,
) -> Iterator[Any]:
    """What `of` makes of the verdict of each of these pairings. Where that is not the whole answer, how
    each thing is known may have changed since. What is not remembered is judged by the cluster at
    `address`, if there is one."""
    plain, whole = Fingerprints(catalogue, words=False), Fingerprints(catalogue)
    tasks = [
        Task(pairing, plain.readings(pairing), whole.readings(pairing) if of is dict else None, of)
        for pairing in wanted
    ]
    damaged = 0
    with opened(remembered) as memory:
        for task, (made, fresh, spoilt) in zip(
            tasks, told(_all(catalogue, memory, tasks, address), len(tasks), "connections judged")
        ):
            damaged += spoilt
            if memory is not None and fresh is not None:
                memory.keep(task.digest, whole.readings(task.pairing), fresh)
            yield made
    if damaged:
        sys.stderr.write(
            f"{remembered}: {damaged} of its pairings "
            f"{'is damaged; what it' if damaged == 1 else 'are damaged; what they'} held is judged anew.\n"
        )


def _all(
    catalogue: Catalogue, memory: Memory | None, tasks: Sequence[Task], address: str | None
) -> Iterator[Done]:
    if len(tasks) < FEW and not address:
        yield from (_answered(catalogue, memory, task) for task in tasks)
        return
    known = {task.digest for task in tasks if not address or memory is not None and memory.holds(task.digest)}
    with ExitStack() as stack:
        near = (
            stack.enter_context(processes(share, catalogue, None if memory is None else memory.path))
            if known
            else None
        )
        far = (
            stack.enter_context(cluster(address, share, catalogue))
            if address and len(known) < len(tasks)
            else None
        )
        here, there = (
            chain.from_iterable(mapped(shares([task for task in tasks if (task.digest in known) == own])))
            if mapped
            else iter(())
            for mapped, own in ((near, True), (far, False))
        )
        yield from (next(here if task.digest in known else there) for task in tasks)


def shares(tasks: Sequence[Task]) -> list[Sequence[Task]]:
    return [tasks[at : at + SHARE] for at in range(0, len(tasks), SHARE)]


@cache
def _opened(path: Path) -> Memory:
    return Memory(path)


def share(catalogue: Catalogue, remembered: Path | None, tasks: Sequence[Task]) -> list[Done]:
    """What another process does at once."""
    return [_answered(catalogue, remembered and _opened(remembered), task) for task in tasks]


def _answered(catalogue: Catalogue, memory: Memory | None, task: Task) -> Done:
    """What is asked of one verdict, its readings where they are new, and whether what was
    remembered of them was spoilt."""
    written, spoilt = None, False
    try:
        written = memory.recalled(task.digest, task.whole) if memory is not None else None
    except Damaged:
        spoilt = True
    if written is not None:
        return task.of(replayed(catalogue, *task.pairing, written).as_data()), None, spoilt
    verdict, written = recorded(catalogue, *task.pairing)
    return task.of(verdict.as_data()), list(map(flat, written)), spoilt
