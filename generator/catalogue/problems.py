"""Faults: one record for every kind, collected in one run, printed so that an editor can jump to them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from .nodes import Place
from .rules import RULES


LONGEST, WHOLE = 200, 4000  # characters of a value that are echoed, and of a message
_LONG = re.compile(  # what begins at a quote that opens or ends at one that closes, or has no blank; no list of names between two quoted ones
    rf"(?<!\w')(?<=')[^'\n]{{{LONGEST + 1},}}(?=')|[^'\n]{{{LONGEST + 1},}}(?='(?!\w))|\S{{{LONGEST + 1},}}")
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]")  # also turns of direction, nothing wide


@dataclass(frozen=True)
class Problem:
    """A fault at a 1-based line and column; `rule` is a key of RULES, `defined_at` is 'path:line'."""

    path: str
    line: int
    column: int
    rule: str
    message: str
    defined_at: str | None = None

    def __str__(self) -> str:
        lines = [f"{self.path}:{self.line}:{self.column}: error[{self.rule}]", f"    {self.message}"]
        if self.defined_at:
            lines.append(f"    defined at {self.defined_at}")
        return "\n".join(lines)


class CatalogueError(Exception):
    """Raised by `load`; `problems` holds every fault of every file, sorted."""

    def __init__(self, problems: Iterable[Problem]):
        self.problems = list(problems)
        super().__init__("\n".join(map(str, self.problems)))


class Problems:
    """Collects faults. The same fault met twice (by way of `same_as`) is one fault."""

    def __init__(self) -> None:
        self._found: set[Problem] = set()

    def add(self, place: Place, rule: str, message: str, defined_at: Place | None = None) -> None:
        """Note a fault; a rule that is not in RULES is a mistake in this package."""
        if rule not in RULES:
            raise KeyError(rule)
        message = CONTROL.sub("\ufffd", _cut(message))
        where = f"{defined_at.path}:{defined_at.line}" if defined_at else None
        self._found.add(Problem(place.path, place.line, place.column, rule, message, where))

    def sorted(self) -> list[Problem]:
        """By path, line, column, then rule and message."""
        return sorted(self._found, key=lambda p: (p.path, p.line, p.column, p.rule, p.message))


def _cut(message: str) -> str:
    """The message with quoted values of more than LONGEST characters cut short; a file may hold a value of any length."""
    cut = _LONG.sub(lambda found: f"{found[0][:LONGEST]}...", message)
    return cut if len(cut) <= WHOLE else f"{cut[:WHOLE]}..."


def did_you_mean(word: str, options: Iterable[str]) -> str:
    """A sentence naming the nearest option, with a leading space, or nothing."""
    near = nearest(word, options)
    return f" Did you mean '{near[0]}'?" if near else ""


def a(words: str) -> str:
    """The words with their article: 'an emf', 'a sink'."""
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def nearest(word: str, options: Iterable[str]) -> list[str]:
    """The option most like `word`, if any is like it at all."""
    return get_close_matches(word, list(options), n=1, cutoff=0.6)


def not_one_of(word: str, what: str, options: Iterable[str]) -> str:
    """\"'rign' is not a contact of 'x'; it has tip, ring, sleeve. Did you mean 'ring'?\" for a `what` of \"a contact of 'x'\"."""
    options = list(options)
    return f"'{word}' is not {what}; it has {', '.join(options) or 'none'}.{did_you_mean(word, options)}"
