"""The kinds of text a run's file may hold: amounts within what is possible, ids of what is known."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import ClassVar

from generator.catalogue.problems import did_you_mean
from generator.catalogue.scalars import Scalar

from . import amount


@dataclass(frozen=True)
class Measure(Scalar):
    """An amount in `unit`, above 0 (or from 0 where `zero`), at most `most`; `thing` is what the complaint
    calls it.
    """

    unit: str
    most: str
    thing: str
    zero: bool = False
    what: ClassVar[str] = "an amount"

    def fault(self, text, name, context):
        try:
            value = amount.parse(text, self.unit)
        except amount.AmountFault as fault:
            return fault.rule, str(fault)
        if value < 0 or (value == 0 and not self.zero):
            return (
                "non-positive",
                f"'{text}' is {'below' if value < 0 else 'not above'} zero; {self.thing} must be above it.",
            )
        if value > amount.parse(self.most, self.unit):
            return "bad-number", f"'{text}' is beyond {self.thing}; the most is {self.most}."
        return None

    def value(self, text: str) -> float:
        """The number of a text that was checked."""
        return amount.parse(text, self.unit)


@dataclass(frozen=True)
class OneOf(Scalar):
    """An id of a table or, where `ports` says so, a port of the catalogue."""

    options: Collection[str]
    rule: str
    of: str
    what: ClassVar[str] = "an id"

    def fault(self, text, name, context):
        if text not in self.options:
            few = (
                ", ".join(self.options)
                if len(self.options) < 20
                else f"{', '.join(list(self.options)[:8])} or an id of the catalogue"
            )
            return (
                self.rule,
                f"there is no {self.of} '{text}'; write {few}.{did_you_mean(text, self.options)}",
            )
        return None
