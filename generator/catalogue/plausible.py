"""Is a quantity within what things of its kind have? The ranges stand in plausible.yaml,
with the reason for each."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

from .problems import quoted
from .quantity import parse
from .records import Quantity

TABLE = Path(__file__).with_name("plausible.yaml")


@dataclass(frozen=True)
class Range:
    unit: str
    low: float
    high: float
    written: str
    reason: str
    keys: tuple[str, ...] = ()
    kind: str = ""


@cache
def ranges() -> tuple[Range, ...]:
    rows = yaml.load(TABLE.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return tuple(
        Range(
            row["unit"],
            parse(row["low"], row["unit"]).nominal,
            parse(row["high"], row["unit"]).nominal,
            f"{row['low']} to {row['high']}",
            row["reason"],
            tuple(row.get("key", ())),
            row.get("kind", ""),
        )
        for row in rows
    )


def fault(value: Quantity, name: str, kind: str) -> str | None:
    """What is wrong with a value under a key (`name`, in quotes) of a record, or None."""
    key = name.strip("'")
    for row in ranges():
        if row.unit == value.unit and key in (row.keys or (key,)) and row.kind in ("", kind):
            far = [
                size
                for size in map(abs, (value.low, value.high))
                if size and not row.low * (1 - 1e-9) <= size <= row.high * (1 + 1e-9)
            ]
            if not far:
                return None
            return (
                f"{quoted(value.text)} is not likely here: {name} has {row.written}. {row.reason} A slip of "
                "the prefix? If it is right, add `confirmed:` with the reason."
            )
    return None
