"""The computed verdict of every single-lead pairing: judged on all cores, remembered between
runs, kept as text in git."""

from .judged import judged
from .kept import keep, rests_on, rows, stale
from .lines import LedgerError, read, text
from .numbers import telling
from .rows import Row, row
from .workers import NoCluster

__all__ = [
    "LedgerError",
    "NoCluster",
    "Row",
    "judged",
    "keep",
    "read",
    "rests_on",
    "row",
    "rows",
    "stale",
    "telling",
    "text",
]
