"""The rulebook: which reading, against which limit, makes which finding. The rules are data, in rulebook.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

SEVERITIES = ("note", "lossy", "no signal", "dangerous")
PATH = Path(__file__).with_name("rulebook.yaml")


@dataclass(frozen=True)
class Rule:
    """A row. `limit` is a number in the reading's unit, or `own` for the part's own rating. `compare` is above or below;
    `margin` is the fraction of the limit by which it may be missed.
    `says` and `remedy` are sentences with {names} of the reading."""

    id: str
    quantity: str
    compare: str
    limit: float | str
    severity: str
    says: str
    remedy: str
    reason: str
    evidence: str
    cite: tuple[str, ...]
    only: Mapping[str, str]
    margin: float


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
    row = {"remedy": "", "cite": [], "only": {}, "margin": 0.0, **row}
    if row["severity"] not in SEVERITIES or row["compare"] not in ("above", "below"):
        raise ValueError(f"{PATH.name}: rule '{row['id']}' has a severity or comparison that does not exist")
    return Rule(**{**row, "cite": tuple(row["cite"])})
