"""YAML -> checked, frozen records: `load(directory)` gives a Catalogue or raises
CatalogueError with every fault."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from . import build
from .problems import CatalogueError, Problem
from .records import (
    GRADES,
    OWN,
    Ask,
    Assignment,
    Catalogue,
    Connector,
    Converter,
    Coupling,
    End,
    Evidence,
    Feeding,
    Half,
    Join,
    Lead,
    Limit,
    Listener,
    Need,
    Network,
    Part,
    Port,
    Quantity,
    Question,
    Reference,
    Source,
    Spot,
    Spring,
    Supply,
)
from .survey import survey

__all__ = [
    "GRADES",
    "OWN",
    "Ask",
    "Assignment",
    "Catalogue",
    "CatalogueError",
    "Connector",
    "Converter",
    "Coupling",
    "End",
    "Evidence",
    "Feeding",
    "Half",
    "Join",
    "Lead",
    "Limit",
    "Listener",
    "Need",
    "Network",
    "Part",
    "Port",
    "Problem",
    "Quantity",
    "Question",
    "Reference",
    "Source",
    "Spot",
    "Spring",
    "Supply",
    "default_directory",
    "load",
]


def default_directory() -> Path:
    """The `pinouts` directory beside the package."""
    return Path(__file__).resolve().parents[2] / "pinouts"


def load(directory: Path, own: Sequence[Path] = ()) -> Catalogue:
    """Everything under `directory`, and somebody's own files or folders of them. Raises CatalogueError
    (`.problems`, all of them, sorted) if anything is wrong."""
    context = survey(Path(directory), own)
    problems = context.problems.sorted()
    if problems:
        raise CatalogueError(problems)
    return build.catalogue(context)
