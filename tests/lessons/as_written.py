"""The YAML and the ledger's text as they are written, read without the generator."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
PINOUTS, TABLES = ROOT / "pinouts", ROOT / "generator/lessons"


@cache
def raw(folder: str, id: str) -> dict:
    """A record with what it takes from the record it is the same as: maps merge one level deep."""
    own = yaml.load((PINOUTS / folder / f"{id}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)
    if "same_as" not in own:
        return own
    merged = dict(raw(folder, own["same_as"]))
    for key, value in own.items():
        merged[key] = (
            {**merged[key], **value}
            if isinstance(value, dict) and isinstance(merged.get(key), dict)
            else value
        )
    return merged


@cache
def lines() -> dict[str, list[str]]:
    """`FROM,LEAD,INTO` -> the fields of its line."""
    found = {}
    for path in (PINOUTS / "verdicts").glob("*.txt"):
        for line in path.read_text("utf-8").splitlines():
            if not line.startswith("#"):
                lead, into, *fields = line.split("\t")
                found[f"{path.stem},{lead},{into}"] = fields
    return found


def findings(fields: list[str]) -> tuple[list[str], set[str]]:
    """(those that decided, all)."""
    deciding, _, also = fields[1].partition("|")
    first = [name for name in deciding.split() if name != "-"]
    return first, {*first, *also.split()}


@cache
def written(name: str):
    return yaml.load((TABLES / f"{name}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)


@cache
def symptoms() -> dict[tuple[str, str], list[str]]:
    rows = (
        line.split("\t")
        for line in (PINOUTS / "workshop/symptoms.txt").read_text("utf-8").splitlines()
        if not line.startswith("#")
    )
    return {(lead, symptom): ids.split() for lead, symptom, ids in rows}
