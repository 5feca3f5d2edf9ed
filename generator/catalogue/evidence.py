"""How a fact is known."""

from __future__ import annotations

from dataclasses import dataclass

GRADES = ("standard", "published", "common practice", "derived", "from memory")
# what somebody read in the manual of one device: evidence in their own files, never in the catalogue
OWN = "your manual"


@dataclass(frozen=True)
class Evidence:
    """How a fact is known: one of GRADES or OWN, the sources it cites, when it was last checked
    (ISO date), a remark."""

    grade: str
    cite: tuple[str, ...] = ()
    checked: str | None = None
    note: str | None = None
