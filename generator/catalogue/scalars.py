"""The kinds of text a key may hold. Each can check a node and describe itself to an editor (JSON Schema)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from . import plausible, quantity
from .context import SINGULAR, Context
from .nodes import Many, Node, Text
from .problems import did_you_mean, quoted, short

NAME = r"[a-z][a-z0-9]*(-[a-z0-9]+)*"
CONTACT = r"[a-z0-9][a-z0-9+-]*"
HIDDEN = re.compile(
    r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\U000e0000-\U000e007f]"
)
_TYPES = {Text: "text", Many: "a list"}


def kind_of_node(node: Node) -> str:
    return _TYPES.get(type(node), "a map")


class Scalar:
    """Base: `fault(text, name, context)` returns (rule, message) or None. `name` says under which key the
    text stands, in quotes."""

    what: ClassVar[str] = "text"
    # an editor may read `1` as a number where we read text
    json_types: ClassVar[list[str]] = ["string", "number"]

    def check(self, node: Node, name: str, context: Context) -> Node | None:
        """The node, or None if something is wrong with it; what is wrong goes to the context's problems."""
        if not isinstance(node, Text):
            context.problems.add(
                node.place, "wrong-type", f"{name} must be {self.what}, not {kind_of_node(node)}."
            )
            return None
        hidden = HIDDEN.search(node.text)
        if hidden:
            context.problems.add(
                node.place,
                "hidden-character",
                f"{name} holds the character U+{ord(hidden[0]):04X}, which nobody sees; take it out.",
            )
            return None
        if not node.text.strip():
            context.problems.add(node.place, "empty-value", f"{name} has no value; {self.what} is wanted.")
            return None
        fault = self.fault(node.text, name, context)
        if fault:
            context.problems.add(node.place, *fault)
        return None if fault else node

    def fault(self, text: str, name: str, context: Context) -> tuple[str, str] | None:
        return None

    def leaves(self, node: Text):
        yield node, self

    def schema(self) -> dict:
        return {"type": self.json_types}


class Words(Scalar):
    """Any text."""


@dataclass(frozen=True)
class Name(Scalar):
    """A name the author chooses: of a part, a node, a role."""

    pattern: str = NAME
    what: ClassVar[str] = "a name"

    def fault(self, text, name, context):
        if not re.fullmatch(self.pattern, text):
            return (
                "bad-name",
                (
                    f"{quoted(text)} is not a name; write lower-case letters, digits and single hyphens, "
                    "such as feed-hot."
                ),
            )

    def schema(self):
        return {"type": self.json_types, "pattern": f"^({self.pattern})$"}


@dataclass(frozen=True)
class Choice(Scalar):
    """One of a closed list."""

    options: tuple[str, ...]
    rule: str = "bad-choice"

    @property
    def what(self) -> str:
        return "one of " + ", ".join(self.options)

    def fault(self, text, name, context):
        if text not in self.options:
            guess = did_you_mean(text, self.options)
            return self.rule, f"{quoted(text)} is not a legal value of {name}; write {self.what}.{guess}"

    def schema(self):
        # as an older YAML reads them
        booleans = [value == "yes" for value in self.options if value in ("yes", "no")]
        return {"enum": [*self.options, *booleans]}


class Nothing(Scalar):
    """A key that needs no value: `wire:`."""

    def check(self, node, name, context):
        if isinstance(node, Text) and not node.text:
            return node
        context.problems.add(node.place, "wrong-type", f"{name} takes no value; leave it empty.")
        return None

    def schema(self):
        return {"enum": ["", None]}


class Date(Scalar):
    """An ISO date."""

    what = "a date such as 2026-11-25"

    def fault(self, text, name, context):
        try:
            good = date.fromisoformat(text).isoformat() == text
        except ValueError:
            good = False
        # it may be tomorrow already where it was written
        if good and date.fromisoformat(text) > date.today() + timedelta(days=1):
            return "bad-date", f"{quoted(text)} is still to come; write the day it was checked."
        if not good:
            return "bad-date", f"{quoted(text)} is not a date; write year-month-day, such as 2026-11-25."

    def schema(self):
        return {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}


@dataclass(frozen=True)
class Ref(Scalar):
    """The id of another record."""

    kind: str

    @property
    def what(self) -> str:
        return f"the id of a {SINGULAR[self.kind]}"

    def check(self, node, name, context):
        node = super().check(node, name, context)
        return node if node and context.check_reference(self.kind, node.text, node.place) else None

    def schema(self):
        return {"type": "string", "pattern": f"^({NAME})$"}


@dataclass(frozen=True)
class Number(Scalar):
    """A plain number or fraction (`0.5`, `-1`, `1/2200`) between two bounds, both excluded."""

    above: float = float("-inf")
    below: float = float("inf")
    rule: str = "bad-number"
    what: ClassVar[str] = "a number"

    def fault(self, text, name, context):
        value = number(text)
        if value is None:
            return "bad-number", f"{quoted(text)} is not a number; write 0.5, -1 or 1/2200."
        if not self.above < value < self.below:
            return (
                self.rule,
                (
                    f"{name} is {short(text)}; it must lie between {self.above:g} and {self.below:g}, both "
                    "excluded."
                ),
            )


def number(text: str) -> float | None:
    """The value of `0.5`, `-1` or `1/2200`; None if it is no finite number."""
    if not re.fullmatch(r"[+-]?\d*\.?\d+(/\d*\.?\d+)?", text, re.ASCII):
        return None
    over, _, under = text.partition("/")
    return float(over) / float(under or 1) if float(under or 1) else None


@dataclass(frozen=True)
class Amount(Scalar):
    """A quantity in `unit` (any, if None). It may not be negative unless `negative`, nor zero if `positive`.
    `unknown` may be legal, and so may the name of a parameter."""

    unit: str | None
    positive: bool = False
    negative: bool = False
    unknown: bool = False
    parameter: bool = False

    @property
    def what(self) -> str:
        return quantity.described(self.unit) if self.unit else "a quantity"

    def check(self, node, name, context):
        node = super().check(node, name, context)
        if node and not context.confirmed and not self.names_parameter(node.text):
            value = quantity.parse(node.text, self.unit)
            unlikely = value and plausible.fault(value, name, context.kind)
            if unlikely:
                context.problems.add(node.place, "implausible", unlikely)
        return node

    def names_parameter(self, text: str) -> bool:
        return self.parameter and text != quantity.UNKNOWN and re.fullmatch(NAME, text) is not None

    def fault(self, text, name, context):
        if self.names_parameter(text):
            return None
        try:
            value = quantity.parse(text, self.unit)
        except quantity.QuantityFault as fault:
            return fault.rule, str(fault)
        if value is None:
            return (
                None
                if self.unknown
                else ("not-unknown", f"{name} cannot be unknown: the circuit could not be solved.")
            )
        if self.positive and value.low <= 0:
            return "non-positive", f"{quoted(text)} is not above zero; {self.what} must be."
        if not self.negative and value.low < 0:
            return "non-positive", f"{quoted(text)} is below zero; {self.what} must not be."
        return None
