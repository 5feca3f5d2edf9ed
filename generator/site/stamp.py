"""What a page says about its age: the day the catalogue was last checked, a digest of its content, the
version of the program."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from typing import Any

PACKAGE = "ringfence"


@dataclass(frozen=True)
class Stamp:
    """`date` is the newest `checked` of any fact (ISO), `digest` changes with every change of data or rules,
    `edition` with every change of what a verdict on a page is made of."""

    date: str
    digest: str
    version: str
    edition: str = ""

    def __str__(self) -> str:
        return f"Data of {self.date} ({self.digest}) · program {self.version}" + (
            f" · edition {self.edition}" if self.edition else ""
        )


def stamp(catalogue: Mapping[str, Any], tables: Any) -> Stamp:
    """The stamp of a catalogue and of the tables it is judged by, both JSON-ready."""
    content = json.dumps([catalogue, tables], sort_keys=True, ensure_ascii=False).encode()
    return Stamp(
        max(checked(catalogue), default="an unknown day"), hashlib.sha256(content).hexdigest()[:8], _version()
    )


def checked(value: Any) -> Iterator[str]:
    """Every date on which a fact anywhere in the data was checked."""
    if isinstance(value, Mapping):
        if isinstance(value.get("checked"), str):
            yield value["checked"]
        value = list(value.values())
    if isinstance(value, list):
        for item in value:
            yield from checked(item)


def _version() -> str:
    try:
        return version(PACKAGE)
    except PackageNotFoundError:  # run from a copy that was never installed
        return "not installed"
