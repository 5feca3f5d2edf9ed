"""Every id that was ever published, as `kind/id` a line: an address once given out answers for ever. Lines
are added, never taken away."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from pathlib import Path

from . import loader
from .nodes import Place
from .problems import Problems, quoted
from .scalars import NAME

FILE = "published.txt"
ADDRESSED = ("connectors", "assignments", "ports", "leads")
_LINE = re.compile(rf"(?P<kind>{'|'.join(ADDRESSED)})/(?P<id>{NAME})")


def read(directory: Path, shown: str = FILE, problems: Problems | None = None) -> list[str]:
    """The lines of the list; none where there is no list, or none that can be read, which is a fault."""
    path = directory / FILE
    there = path.exists() or path.is_symlink()
    return (loader.content(path, shown, problems or Problems()) or "").splitlines() if there else []


def check(
    directory: Path,
    shown: str,
    ids: Mapping[str, Collection[str]],
    retired: Collection[str],
    problems: Problems,
) -> None:
    """Add a fault for every id of the list that is neither in use nor retired."""
    for number, line in enumerate(read(directory, shown, problems), 1):
        found = _LINE.fullmatch(line)
        if not found:
            problems.add(
                Place(shown, number),
                "bad-published-line",
                f"{quoted(line)} is not a kind and an id, such as ports/desk-in.",
            )
        elif found["id"] not in ids[found["kind"]] and found["id"] not in retired:
            message = (
                f"'{found['id']}' was published among the {found['kind']} and is gone; put it back, or name "
                "its successor in retired.yaml."
            )
            problems.add(Place(shown, number), "published-id-gone", message)


def note(directory: Path, ids: Mapping[str, Collection[str]]) -> int:
    """Add the ids that are not in the list yet; returns how many."""
    before = read(directory)
    fresh = sorted({f"{kind}/{id}" for kind in ADDRESSED for id in ids[kind]} - set(before))
    if fresh:
        (directory / FILE).write_text("".join(f"{line}\n" for line in (*before, *fresh)), encoding="utf-8")
    return len(fresh)
