"""The rulebook: which reading, against which limit, makes which finding. The rules are
data, in rulebook.yaml."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

SEVERITIES = ("figure", "note", "lossy", "no signal", "dangerous")
PATH = Path(__file__).with_name("rulebook.yaml")


@dataclass(frozen=True)
class Rule:
    """A row. `limit` is a number in the reading's unit, or `own` for the part's own rating. `compare` is
    above or below; `margin` is the fraction of the limit by which it may be missed; a value above `until` is
    another row's. `weighs` is what a lossy finding costs beside others; of dangers the heavier is told first.
    A figure is worth telling although nothing speaks against it; `compare` says which way is worse. `says`,
    `remedy` and `mend` (what a lead would have to do about it, empty where none can help) are sentences with
    {names} of the reading. `means` is the glossary's entry for the id, on its first row; `met_by` the ids of
    a connection that meets the row, empty where the catalogue has none."""

    id: str
    quantity: str
    compare: str
    limit: float | str
    severity: str
    says: str
    remedy: str
    mend: str
    reason: str
    evidence: str
    cite: tuple[str, ...]
    only: Mapping[str, str]
    margin: float
    weighs: int
    until: float | None
    means: Mapping[str, Any]
    met_by: tuple[str, ...]


@cache
def rules() -> tuple[Rule, ...]:
    """The rulebook in order."""
    rows = yaml.safe_load(PATH.read_text(encoding="utf-8"))
    return tuple(_rule(row) for row in rows)


@cache
def rules_about(quantity: str) -> tuple[Rule, ...]:
    """The rules that look at readings of one quantity, in order."""
    return tuple(rule for rule in rules() if rule.quantity == quantity)


def _rule(row: dict) -> Rule:
    row = {
        "remedy": "",
        "mend": "",
        "cite": [],
        "only": {},
        "margin": 0.0,
        "weighs": 0,
        "until": None,
        "means": {},
        "met_by": "",
        **row,
    }
    if row["severity"] not in SEVERITIES or row["compare"] not in ("above", "below"):
        raise ValueError(f"{PATH.name}: rule '{row['id']}' has a severity or comparison that does not exist")
    if any(isinstance(value, str) for value in (row["limit"], row["until"], row["margin"]) if value != "own"):
        raise ValueError(
            f"{PATH.name}: rule '{row['id']}' has a number that YAML takes for a word; write 0.00005 or "
            "5.0e-5, not 5e-5"
        )
    if not all(isinstance(word, str) for pair in row["only"].items() for word in pair):
        raise ValueError(
            f"{PATH.name}: rule '{row['id']}' asks for flags in words; quote what YAML takes for yes or no"
        )
    if row["severity"] == "lossy" and not row["weighs"]:
        raise ValueError(f"{PATH.name}: rule '{row['id']}' is to weigh something, as it is lossy")
    return Rule(
        **{
            **row,
            "cite": tuple(row["cite"]),
            "met_by": tuple(row["met_by"].split(" > ")) if row["met_by"] else (),
        }
    )


@cache
def _weights() -> Mapping[str, int]:
    return {rule.id: rule.weighs for rule in rules()}


def loss(findings: Iterable[str]) -> int:
    """What findings cost together, by id; the same thing lost on both channels is one loss."""
    return sum(_weights().get(name, 0) for name in set(findings))


@cache
def lower_is_worse(name: str) -> bool:
    """Which way the numbers of a rule get worse."""
    return next(rule.compare for rule in rules() if rule.id == name) == "below"


def words() -> Mapping[str, Mapping[str, Any]]:
    """What each finding means, by id: entries of the glossary, with its `term`."""
    return {rule.id: {"term": rule.id.replace("-", " "), **rule.means} for rule in rules() if rule.means}
