"""The workshop's tables of data: instruments, tolerances, faults, practice. Each row says how it is known."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from generator.catalogue.quantity import parse
from generator.catalogue.records import Quantity

FOLDER = Path(__file__).parent


@cache
def table(name: str) -> Mapping[str, Any]:
    """A table by its name, every scalar as text; `same_as` in a row takes over another row."""
    rows = yaml.load((FOLDER / f"{name}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)
    return {
        key: (
            rows[row["same_as"]] | {k: v for k, v in row.items() if k != "same_as"}
            if isinstance(row, dict) and "same_as" in row
            else row
        )
        for key, row in rows.items()
    }


@cache
def amount(name: str, row: str, key: str) -> Quantity:
    """A quantity of a table in SI units, with its range."""
    return parse(table(name)[row][key])
