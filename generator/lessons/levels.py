"""How hard a question is: what its kind asks for, how rare its case is, how many
mistakes are listed about it."""

from __future__ import annotations

from collections.abc import Iterable

from .facts import Facts
from .question import LEVELS
from .tables import table

MANY = 4  # listed mistakes, from which on one more step is counted


def level(
    facts: Facts, kind: str, ports: Iterable[str] = (), connectors: Iterable[str] = (), mistakes: int = 0
) -> str:
    """One of LEVELS. `ports` and `connectors` are ids of what it is about, `mistakes` how many ways to
    get it wrong are listed."""
    rare = any(port not in facts.everyday for port in ports)
    rare = rare or any(connector not in table("common")["connectors"] for connector in connectors)
    score = int(table("common")["kinds"][kind]) + (2 if rare else 0) + (mistakes >= MANY)
    return LEVELS[min(score // 2, len(LEVELS) - 1)]
