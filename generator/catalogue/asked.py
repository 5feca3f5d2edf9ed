"""The records of what a manual can answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .evidence import Evidence


@dataclass(frozen=True)
class Question:
    """What a manual can answer, in its words. `unit` is the SI unit of the answer, None where it is yes or
    no; a number lies between `least` and `most`, and `beyond` is said of one that does not. A `level` may
    be given in decibels."""

    id: str
    asks: str
    unit: str | None
    least: float | None = None
    most: float | None = None
    level: bool = False
    beyond: str = ""


@dataclass(frozen=True)
class Fed:
    """A number of a port that comes from a parameter: `field` of the part, limit, source, listener or need of
    this id, and which end of a range counts there (whole, nominal, low, high)."""

    kind: str
    id: str
    field: str
    take: str


@dataclass(frozen=True)
class Ask:
    """One question about one port. A number, times `times`, is the value of every parameter it feeds; yes
    and no have values of their own. `value` is what the catalogue has, as written; `spread` a tolerance
    it keeps, in per cent."""

    id: str
    question: str
    instances: tuple[str, ...]
    feeds: Mapping[str, tuple[Fed, ...]]
    answers: Mapping[str, Mapping[str, str]]
    times: float
    value: str
    spread: str
    evidence: Evidence
