"""The engine: mate -> circuit -> solve -> judge -> route. Pure functions over the catalogue's records;
nothing here reads or writes files but the rulebook."""

from .judge import judge
from .matrix import matrix, pairings
from .route import routes
from .verdict import VERDICTS, Finding, Verdict

__all__ = ["VERDICTS", "Finding", "Verdict", "judge", "matrix", "pairings", "routes"]
