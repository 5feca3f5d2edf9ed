"""A question of questions.yaml, declared: what a manual is asked, in its own words."""

from __future__ import annotations

from .scalars import Amount, Choice, Words
from .shapes import Field, Record

QUESTION = Record(
    {
        "asks": Field(Words(), "the question, in a manual's words", True),
        "unit": Field(Choice(("V", "A", "W", "ohm")), "the unit of the answer; none where it is yes or no"),
        "least": Field(Amount(None), "below it, it is a slip of the pen"),
        "most": Field(Amount(None), "above it, it is a slip of the pen"),
        "level": Field(Choice(("yes", "no")), "may it be given in decibels"),
        "beyond": Field(Words(), "what is said of such a slip"),
    }
)
