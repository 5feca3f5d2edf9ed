"""A caution of a port or a lead."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """What to take care of; `when` names the conditions (WHEN), of which one must be there for an answer to tell it. None: always."""

    says: str
    when: tuple[str, ...] = ()
