"""What a verdict rests on, as short digests: the records involved, the rules, the engine itself.
Equal digests, equal verdict.

A whole answer has sentences in it, and says how each thing is known; a row of the ledger has neither. So
there are two digests of everything, with `words` and without. A third is of what readings are made by: the
rules may change and every reading stays.
"""

from __future__ import annotations

import ast
import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from generator.catalogue.records import Catalogue, Evidence, Lead
from generator.engine import __file__ as engine_file

Pairing = tuple[str, tuple[str, ...], str]
ENGINE = Path(engine_file).parent
FORM = Path(__file__).with_name("form.py")
RECORDS = ("connectors", "ports", "leads")
UNASKED = {  # fields of these records that no verdict and no sentence of one is made of
    "Connector": {"recognise", "also_called", "evidence", "looks", "light", "outside"},
    "Half": {"sizes"},
    "Port": {"device", "circuits", "cautions", "also_called", "evidence", "met", "asks", "same_as"},
    "Lead": {"looks_like", "tell_apart", "cautions", "also_called", "evidence", "met"},
    "Evidence": {"checked", "note"},
}
# fields of a rule that are told, and decide nothing
WORDS = {"says", "remedy", "mend", "reason", "evidence", "cite", "means", "met_by"}
RULES = "rulebook.yaml"
LISTS = "matrix"  # the module that says which pairings there are
SEARCHES = "route"  # the one that finds ways
# the module that gives a verdict, and what in it makes readings
JUDGES, READS = "judge", ("read", "readings_of")
APPLYING = {JUDGES, "findings", "misfit", "rulebook", "verdict"}  # modules that make verdicts of readings
# fields of a syntax tree that say nothing, or not in every version of Python
UNSAID = {"ctx", "kind", "type_comment", "type_params"}
LENGTH = 24  # of a digest, hexadecimal digits

# records are frozen, so the digest of each is worked out once
_known: dict[tuple[int, bool], tuple[Any, str]] = {}


class Fingerprints:
    """Digests of the pairings of one catalogue: of whole answers with `words`, of rows without."""

    def __init__(self, catalogue: Catalogue, words: bool = True) -> None:
        self.catalogue, self.words = catalogue, words

    def of(self, pairing: Pairing) -> str:
        """The digest of everything that can change the verdict of this pairing."""
        return self._with(self.engine(), pairing)

    def readings(self, pairing: Pairing) -> str:
        """The digest of everything that can change a reading of this pairing; the rules cannot."""
        return self._with(readings_digest(self.words), pairing)

    def _with(self, code: str, pairing: Pairing) -> str:
        return _short(" ".join((code, *(self.record(*record) for record in self.records(pairing)))))

    def engine(self) -> str:
        """The digest of the engine and its rules."""
        return engine_digest(self.words)

    def pairings(self) -> str:
        """The digest of everything that can change which pairings there are."""
        return _short(
            " ".join((pairings_digest(), *self.every().values(), *(name for _, name in self.every())))
        )

    def every(self) -> Mapping[tuple[str, str], str]:
        """The digest of every record a verdict may rest on."""
        return {
            (kind, name): self.record(kind, name)
            for kind in RECORDS
            for name in getattr(self.catalogue, kind)
        }

    def records(self, pairing: Pairing) -> Iterator[tuple[str, str]]:
        """Kind and id of every record this verdict rests on."""
        start, through, target = pairing
        ports, connectors = [start, target], set()
        for name in through:
            yield "leads", name
            lead: Lead = self.catalogue.leads[name]
            ports += [end.usual for end in lead.ends.values() if end.usual]
            connectors |= {end.connector for end in lead.ends.values()}
        for name in ports:
            yield "ports", name
            connectors.add(self.catalogue.ports[name].connector)
        yield from (("connectors", name) for name in sorted(connectors))

    def record(self, kind: str, name: str) -> str:
        record = getattr(self.catalogue, kind)[name]
        known = _known.get((id(record), self.words))
        if known is None or known[0] is not record:
            known = _known[id(record), self.words] = (record, _short(repr(_asked(record, self.words))))
        return known[1]


def _asked(value: Any, words: bool) -> Any:
    """A record as plain tuples and dicts, without what judging never asks; without `words` how a thing is
    known is not asked either."""
    if is_dataclass(value):
        kind = type(value).__name__
        if kind == Evidence.__name__ and not words:
            return None
        return kind, *(
            (field.name, _asked(getattr(value, field.name), words))
            for field in fields(value)
            if field.name not in UNASKED.get(kind, ())
        )
    if isinstance(value, Mapping):
        return {name: _asked(one, words) for name, one in value.items()}
    return tuple(_asked(one, words) for one in value) if isinstance(value, (tuple, list)) else value


@cache
def engine_digest(words: bool) -> str:
    """A digest of the engine's rules, with their `words` or without, and of the code that judges. How the
    code is laid out, in which of these modules a thing stands, comments and docstrings change nothing, nor
    does what only shows or searches."""
    return _short(code_digest(words) + _rows(ENGINE / RULES, words))


@cache
def code_digest(words: bool) -> str:
    """The same without the rulebook."""
    return _short("".join([*_code(judging()), *(_rows(path, words) for path in _tables())]))


@cache
def readings_digest(words: bool) -> str:
    """The same of what readings are made by, and of the form they are kept in."""
    return _short(
        "".join(
            [
                *_code([FORM]),
                *_code([ENGINE / f"{JUDGES}.py"], READS),
                *_code(reading()),
                *(_rows(path, words) for path in _tables()),
            ]
        )
    )


@cache
def pairings_digest() -> str:
    """The same of what lists the pairings."""
    return _short("".join(_code(_reached({LISTS}))))


@cache
def search_digest() -> str:
    """The same of what finds ways, beside what judges."""
    return _short("".join(_code(sorted(set(_reached({SEARCHES})) - set(judging())))))


def _tables() -> list[Path]:
    """What is data beside the rules."""
    return sorted(set(ENGINE.glob("*.yaml")) - {ENGINE / RULES})


def _rows(path: Path, words: bool) -> str:
    return repr(
        [
            {name: row[name] for name in row if words or name not in WORDS}
            for row in yaml.safe_load(path.read_text(encoding="utf-8"))
        ]
    )


def _short(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:LENGTH]


def judging() -> list[Path]:
    """The modules of the engine that a verdict is made by: judge.py, and whatever it imports."""
    return _reached({JUDGES})


def reading() -> list[Path]:
    """The modules that readings are made by: what judge.py imports beside those that apply rules, and
    whatever that imports."""
    return _reached(_imported(ENGINE / f"{JUDGES}.py") - APPLYING)


def _reached(names: set[str]) -> list[Path]:
    found, todo = set(), set(names)
    while todo:
        path = ENGINE / f"{todo.pop()}.py"
        found.add(path)
        todo |= {name for name in _imported(path) if ENGINE / f"{name}.py" not in found}
    return sorted(found)


def _imported(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {
        node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.level == 1 and node.module
    }


def _code(paths: Iterable[Path], chosen: Collection[str] = ()) -> list[str]:
    """What some modules do, or the chosen functions of them: everything they define, in an order of its own,
    whichever of them it stands in."""
    nodes = (node for path in paths for node in ast.parse(path.read_text(encoding="utf-8")).body)
    return sorted(
        _meaning(node)
        for node in nodes
        if not _aside(node) and (not chosen or getattr(node, "name", "") in chosen)
    )


def _aside(node: ast.stmt) -> bool:
    """An import or a docstring."""
    return isinstance(node, (ast.Import, ast.ImportFrom)) or (
        isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    )


def _meaning(part: Any) -> str:
    """A syntax tree as text, alike in every version of Python: without docstrings, without what is empty,
    wherever it stands in its file."""
    if isinstance(part, list):
        return f"[{','.join(map(_meaning, part))}]"
    if not isinstance(part, ast.AST):
        return repr(part)
    inside = {
        name: value
        for name, value in ast.iter_fields(part)
        if name not in UNSAID and value is not None and value != []
    }
    if (
        isinstance(part, (ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef))
        and ast.get_docstring(part, clean=False) is not None
    ):
        inside["body"] = part.body[1:]
    return f"{type(part).__name__}({','.join(f'{name}={_meaning(value)}' for name, value in inside.items())})"
