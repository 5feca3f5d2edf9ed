"""All numbers of the pairings that tell most, beside the ledger, which has only the one that decides: a note
or a figure that changed shows in a diff.

    OUTLET  LEAD  INLET  FINDING  WHERE  WHEN  NUMBER

separated by tabs, `-` for none; NUMBER is the value, and after `/` the limit it was held against.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any
from zlib import crc32

from .fingerprint import Pairing
from .lines import HEAD, NONE
from .rows import Row, number

FILE = "numbers.tsv"
FIRST, DRAWN, SAFE = 1, 120, 20


def telling(rows: Sequence[Row]) -> list[Row]:
    """The first row of every record and of every set of findings that ever decide together, a twentieth of
    those that are safe, and one in a hundred and twenty of all, drawn by name."""
    chosen, met = [], Counter()
    for one in rows:
        records = one["from"], *one["through"], one["into"]
        has = (
            ("from", one["from"]),
            *one["through"],
            ("into", one["into"]),
            (one["verdict"], frozenset(one["findings"])),
            *one["findings"],
            *one["also"],
        )
        met.update(has)
        lot = crc32(" ".join(records).encode())
        if (
            min(met[each] for each in has) <= FIRST
            or lot % DRAWN == 0
            or one["verdict"] == "safe"
            and lot % SAFE == 0
        ):
            chosen.append(one)
    return chosen


def lines(judged: Mapping[str, Any]) -> list[str]:
    """The lines of one judged connection (the object of `judge --json`): its findings and notes, then the
    figures of what works."""
    start = judged["from"], "+".join(judged["through"]) or NONE, judged["into"]
    told = [
        (one["id"], one["where"], one.get("when"), number(one))
        for one in (*judged["findings"], *judged["figures"])
    ]
    return ["\t".join(field or NONE for field in (*start, *each)) + "\n" for each in dict.fromkeys(told)]


def text(found: Iterable[Sequence[str]]) -> str:
    """The file, of the lines of each pairing."""
    return HEAD + "".join(line for each in found for line in each)


def read(directory: Path) -> dict[str, str]:
    """The file beside a ledger as name -> content; nothing where there is none."""
    path = directory / FILE
    return {FILE: path.read_text(encoding="utf-8", errors="replace")} if path.exists() else {}


def rows(content: str) -> dict[Pairing, list[str]]:
    """The lines of every pairing in the content of such a file."""
    found: dict[Pairing, list[str]] = {}
    for line in content.splitlines(keepends=True)[1:]:
        outlet, through, inlet, *_ = line.split("\t")
        found.setdefault((outlet, () if through == NONE else tuple(through.split("+")), inlet), []).append(
            line
        )
    return found
