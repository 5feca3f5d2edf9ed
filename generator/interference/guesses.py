"""What was guessed for a run, so that an answer can show it and a person can put a better number in its
place.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from .run import Run
from .tables import Tables


@dataclass(frozen=True)
class Guess:
    """One number nobody gave: its name where it can be replaced (else empty), its three values (none for a
    device), where it comes from.
    """

    words: str
    key: str
    values: tuple[float, ...]
    unit: str
    evidence: str
    cite: tuple[str, ...]
    reason: str


@dataclass
class Guesses:
    """Reads constants for one run; what the run gives itself comes first."""

    run: Run
    tables: Tables
    used: dict[str, Guess] = field(default_factory=dict)

    def constant(self, key: str, end: int) -> float:
        """A row of the constants at one end."""
        if key in self.run.assume:
            return self.run.assume[key]
        row = self.tables.constants[key]
        self.note(row, row["words"], row["values"], UNITS[key], key)
        return row["values"][end]

    def given(self, key: str, otherwise: float) -> float:
        """A number of the run itself, or what it would be otherwise."""
        return self.run.assume.get(key, otherwise)

    def note(
        self,
        row: Mapping[str, Any],
        words: str,
        values: tuple[float, ...] = (),
        unit: str = "",
        key: str = "",
    ) -> None:
        """Remember that a row was used."""
        guess = Guess(
            words, key, tuple(values), unit, row["evidence"], tuple(row.get("cite", ())), row["reason"]
        )
        self.used.setdefault(words, guess)


UNITS = {
    "contacts": "ohm",
    "loop-inductance": "H/m",
    "loop-width": "m",
    "uneven-lay": "1",
    "connector-area": "m2",
    "alignment": "1",
    "one-pole": "1",
    "capacitance-balance": "1",
    "wire-diameter": "m",
    "contact-1": "ohm",
    "room-field": "T",
    "figure-of-eight": "1",
    "angle-off": "deg",
    "tape": "m",
    "quad": "dB",
    "transformer": "F",
    "bond": "ohm",
    "meter": "1",
}
GIVEN = {"imbalance": "ohm", "rejection": "dB"}  # figures of the devices that a run may replace as well
