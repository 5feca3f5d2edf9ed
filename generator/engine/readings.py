"""What an instrument would show: the numbers a verdict rests on, before any rule has looked at them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.catalogue.records import Evidence


@dataclass(frozen=True)
class Reading:
    """One number. `subject` tells readings of one quantity apart (place/part), `where` says it in words. `state` is settled, plugging or signal; `setting` is the number of the supply setting, None where supplies
    do not matter. `limit` is the part's own rating where it has one; `evidence` says how that is known.
    `words` fill the {names} in the rulebook's sentences; `flags` are what a rule's `only` looks at."""

    quantity: str
    subject: str
    where: str
    value: float
    unit: str
    state: str
    setting: int | None = None
    limit: float | None = None
    evidence: Evidence | None = None
    words: Mapping[str, str] = field(default_factory=dict)
    flags: Mapping[str, str] = field(default_factory=dict)
