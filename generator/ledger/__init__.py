"""The computed verdict of every single-lead pairing: judged on all cores, remembered between runs, kept as text in git."""

from .judged import judged
from .lines import read, text, write

__all__ = ["judged", "read", "text", "write"]
