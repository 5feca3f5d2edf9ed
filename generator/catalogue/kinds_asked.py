"""Questions and what they set, declared: what a manual is asked, in its own words, and which numbers of a
circuit its answer is."""

from __future__ import annotations

from .scalars import Amount, Choice, Name, Number, Ref, Words
from .shapes import Field, ListOf, MapOf, Record

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


def fields(value: Amount) -> dict[str, Field]:
    """What a circuit says of them; `value` is what a parameter may be."""
    ask = Record(
        {
            "sets": Field(ListOf(Name(), least=1, one=True), "the parameters a number sets"),
            "times": Field(Number(0, rule="bad-number"), "what the number is multiplied by first"),
            "yes": Field(MapOf(value, Name()), "parameter: the value a yes sets"),
            "no": Field(MapOf(value, Name()), "parameter: the value a no sets"),
        },
        one_of=(("sets", "yes"),),
    )
    return {
        "asks": Field(MapOf(ask, Ref("questions")), "question: what a manual's answer to it sets"),
        "unasked": Field(MapOf(Words(), Name()), "parameter that decides: why no manual tells it"),
    }
