"""Questions, lessons and handouts made from the catalogue and the ledger: every right answer
follows from the data."""

from .bank import core, drawn, question
from .facts import Facts
from .kinds import KINDS
from .question import FORMS, LEVELS, NoQuestion, Question

__all__ = ["FORMS", "KINDS", "LEVELS", "Facts", "NoQuestion", "Question", "core", "drawn", "question"]
