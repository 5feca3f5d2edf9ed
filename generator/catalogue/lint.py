"""All faults of a catalogue."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from .problems import Problem
from .survey import survey


def lint(directory: Path, own: Sequence[Path] = ()) -> list[Problem]:
    """Every fault of every file under `directory` and of somebody's own, sorted; empty when there is none."""
    return survey(Path(directory), own).problems.sorted()
