"""Numbers that are no fact about hardware, as rows of data: what each stands for, why it is
this, how that is known."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import yaml

PATH = Path(__file__).with_name("constants.yaml")
Number = float | tuple[float, ...]


@dataclass(frozen=True)
class Constant:
    """A row. `group` is what of an answer hangs on it, `says` what it stands for, `reason` why it
    is this and no other."""

    name: str
    group: str
    value: Number
    unit: str
    says: str
    reason: str
    evidence: str
    cite: tuple[str, ...] = ()


def read(path: Path) -> dict[str, Constant]:
    """The rows of a file by name. Raises ValueError for two of one name, and for a number that
    YAML takes for a word."""
    rows = [
        Constant(**{**row, "value": _number(row, path), "cite": tuple(row.get("cite", ()))})
        for row in yaml.safe_load(path.read_text(encoding="utf-8"))
    ]
    table = {row.name: row for row in rows}
    if len(table) < len(rows):
        raise ValueError(f"{path.name}: two rows have one name")
    return table


def _number(row: dict, path: Path) -> Number:
    value = row["value"]
    if isinstance(value, list):
        return tuple(map(float, value))
    if isinstance(value, str):
        raise ValueError(
            f"{path.name}: '{row['name']}' has a number that YAML takes for a word; write 1.0e-9, not 1e-9"
        )
    return float(value) if row["unit"] else value  # a count stays one


TABLE = read(PATH)
COPPER, ADIABATIC = (TABLE[name].value for name in ("COPPER", "ADIABATIC"))
