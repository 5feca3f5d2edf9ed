"""How far a long piece of work is: a bar on a terminal, a line now and then elsewhere, nothing for
what is over at once."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from time import monotonic
from typing import TypeVar

from tqdm import tqdm

Item = TypeVar("Item")
SOON = 2.0  # s; what is over before that needs no word
EVERY = 30.0  # s between lines where the output is no terminal


def told(items: Iterable[Item], total: int, what: str) -> Iterator[Item]:
    """The items, with word of how many of `total` there were; `what` is what they are called,
    "connections judged"."""
    if sys.stderr.isatty():
        yield from tqdm(items, total=total, desc=what, unit="", delay=SOON, file=sys.stderr)
        return
    begun = last = monotonic()
    for number, item in enumerate(items, 1):
        yield item
        now = monotonic()
        if now - last >= EVERY:
            left = (now - begun) / number * (total - number)
            sys.stderr.write(f"{number:,} of {total:,} {what}, about {tqdm.format_interval(left)} to go\n")
            sys.stderr.flush()
            last = now
