"""The numbers the engine itself brings, as data: `from .constants import HEARD` reads the row of that
name in constants.yaml."""

from __future__ import annotations

from pathlib import Path

from generator.catalogue.constants import Number, read

TABLE = read(Path(__file__).with_name("constants.yaml"))


def values() -> dict[str, Number]:
    """Name -> value of every row, JSON-ready."""
    return {name: row.value for name, row in TABLE.items()}


def __getattr__(name: str) -> Number:
    """The value of a row, under its name."""
    if name in TABLE:
        return TABLE[name].value
    raise AttributeError(f"constants.yaml has no row '{name}'")
