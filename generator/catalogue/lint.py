"""All faults of a catalogue."""

from __future__ import annotations

from pathlib import Path

from .problems import Problem
from .survey import survey


def lint(directory: Path) -> list[Problem]:
    """Every fault of every file under `directory`, sorted; empty when there is none."""
    return survey(Path(directory)).problems.sorted()
