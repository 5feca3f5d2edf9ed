"""Faults: one record for every kind, collected in one run, printed so that an editor can jump to them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from .nodes import Place
from .rules import RULES


LONGEST, WHOLE, MANY = 200, 4000, 500  # characters of a value that are echoed, and of a message; faults
_LONG = re.compile(rf"[^\s']{{{LONGEST + 1},}}")


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
        where = f"{_plain(defined_at.path)}:{defined_at.line}" if defined_at else None
        self._found.add(Problem(_plain(place.path), place.line, place.column, rule, _cut(message), where))

    def many(self) -> bool:
        """So many that no more is sought what an author may have meant: that takes
        longer than all the rest."""
        return len(self._found) > MANY

    def sorted(self) -> list[Problem]:
        """By path, line, column, then rule and message."""
        return sorted(self._found, key=lambda p: (p.path, p.line, p.column, p.rule, p.message))


def _cut(message: str) -> str:
    """The message on one line, without what is longer than any name and what is beyond WHOLE."""
    cut = _LONG.sub(lambda found: f"{found[0][:LONGEST]}...", _one_line(message))
    return cut if len(cut) <= WHOLE else f"{cut[:WHOLE]}..."


def _one_line(text: str) -> str:
    return _plain(re.sub(r"\s+", " ", text))


def _plain(text: str) -> str:
    """With a sign to be seen in the place of each that nobody sees, that turns the line round or
    that no terminal takes."""
    return text if text.isprintable() else "".join(sign if sign.isprintable() else "\ufffd" for sign in text)


def short(text: str) -> str:
    """What a file says, as much of it as is echoed: it may hold a value of any length."""
    line = _one_line(text)
    return line if len(line) <= LONGEST else f"{line[:LONGEST]}..."


def quoted(text: str) -> str:
    """The same, in quotes."""
    return f"'{short(text)}'"


def did_you_mean(word: str, options: Iterable[str]) -> str:
    """A sentence naming the nearest option, with a leading space, or nothing."""
    near = nearest(word, options)
    return f" Did you mean {quoted(near[0])}?" if near else ""


def a(words: str) -> str:
    """The words with their article: 'an emf', 'a sink'."""
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def nearest(word: str, options: Iterable[str]) -> list[str]:
    """The option most like `word`, if any is like it at all."""
    return get_close_matches(word, list(options), n=1, cutoff=0.6)


def not_one_of(word: str, what: str, options: Iterable[str]) -> str:
    """\"'rign' is not a contact of 'x'; it has tip, ring, sleeve. Did you mean 'ring'?\" for a `what` of
    \"a contact of 'x'\"."""
    options = list(options)
    return (
        f"{quoted(word)} is not {what}; it has "
        f"{', '.join(map(short, options)) or 'none'}.{did_you_mean(word, options)}"
    )
