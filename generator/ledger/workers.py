"""Who judges: the processes of this machine, or a cluster of several. Both are executors as
`concurrent.futures` has them."""

from __future__ import annotations

import multiprocessing
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from pathlib import Path

from generator.catalogue.records import Catalogue
from generator.engine import memory as solved

from .fingerprint import engine_digest

ALIKE = 300  # circuits a process keeps in mind: what is alike stands close together, and each is some 90 kB
ANSWER = 10  # s for a cluster to answer in

# what is done with a share, from a catalogue and the file of a memory
Work = Callable[[Catalogue, Path | None, Sequence], list]
Mapped = Callable[[Iterable[Sequence]], Iterator[list]]  # shares -> what is made of each, in order

_AFRESH = multiprocessing.get_context("spawn")
_own: tuple[Work, Catalogue, Path | None]  # what a process works by; handed over when it starts


class NoCluster(Exception):
    """Nobody judges at an address; says why."""


@contextmanager
def processes(
    work: Work, catalogue: Catalogue, remembered: Path | None, most: int | None = None
) -> Iterator[Mapped]:
    """As many processes as this machine has cores, or so many."""
    others = set(multiprocessing.active_children())
    # begun afresh: a copy of the process that holds all rows would come to be as large as that one
    pool = ProcessPoolExecutor(most, _AFRESH, _join, (work, catalogue, remembered))
    try:
        yield lambda shares: _results(pool, (_here,), shares)
        pool.shutdown()
    except BrokenProcessPool:
        raise OSError(
            0,
            "a process that judged was ended from outside, for want of memory perhaps; start it again and it "
            "goes on",
        ) from None
    finally:
        # nobody waits for what is not asked for any more
        for process in set(multiprocessing.active_children()) - others:
            process.terminate()
        pool.shutdown(cancel_futures=True)


def _join(*own) -> None:
    """Begin a process beside others: who is stopped by a key is the one that started them."""
    global _own
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    solved.MOST = ALIKE
    _own = own


def _here(share: Sequence) -> list:
    work, *given = _own
    return work(*given, share)


@contextmanager
def cluster(address: str, work: Work, catalogue: Catalogue) -> Iterator[Mapped]:
    """The workers of a Dask cluster, whose scheduler is at an address; they have no file of a
    memory. Raises NoCluster."""
    try:
        from distributed import Client
    except ImportError:
        raise NoCluster("A cluster needs what the extra has: pip install 'ringfence[cluster]'") from None
    try:
        client = Client(address, timeout=ANSWER)
    except (OSError, ValueError) as fault:
        raise NoCluster(
            f"No cluster answers at {address}: {str(fault) or type(fault).__name__}".split("\n")[0]
        ) from None
    with client:
        if not client.scheduler_info(n_workers=-1)["workers"]:
            raise NoCluster(f"The cluster at {address} has no workers.")
        everywhere, digest = client.scatter(catalogue, broadcast=True, hash=False), engine_digest(True)
        yield lambda shares: _results(
            client.get_executor(pure=False), (_there, work, everywhere, digest), shares
        )


def _results(executor: Executor, call: tuple, shares: Iterable[Sequence]) -> Iterator[list]:
    """What a call makes of each share, in order."""
    waiting = deque(executor.submit(*call, share) for share in shares)
    while waiting:
        done = waiting.popleft().result()
        if isinstance(done, str):
            raise NoCluster(done)
        yield done


def _there(work: Work, catalogue: Catalogue, digest: str, share: Sequence) -> list | str:
    """Another version of the engine would give other answers, unseen."""
    if engine_digest(True) != digest:
        return "The workers of the cluster have another version of the engine: give them this one."
    solved.MOST = ALIKE
    return work(catalogue, None, share)
