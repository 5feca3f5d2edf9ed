"""What a verdict rests on, as short digests: the records involved, the rules, the engine itself. Equal digests, equal verdict.

A whole verdict has sentences in it, a row of the ledger has none: with the digest of the engine goes one that does not see the rulebook's words.
"""

from __future__ import annotations

import ast
import hashlib
import tokenize
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any

import yaml

from generator.catalogue.records import Catalogue, Lead
from generator.engine import __file__ as engine_file

Pairing = tuple[str, tuple[str, ...], str]
ENGINE = Path(engine_file).parent
RECORDS = ("connectors", "ports", "leads")
UNASKED = {  # fields of these records that no verdict and no sentence of one is made of
    "Connector": {"recognise", "also_called", "evidence", "looks", "outside"},
    "Half": {"sizes"},
    "Port": {"device", "circuits", "cautions", "also_called", "evidence", "met", "asks", "same_as"},
    "Lead": {"looks_like", "tell_apart", "cautions", "also_called", "evidence", "met"},
    "Evidence": {"checked", "note"},
}
WORDS = {"says", "remedy", "mend", "reason", "evidence", "cite"}  # fields of a rule that are told, and decide nothing
LENGTH = 24  # of a digest, hexadecimal digits


class Fingerprints:
    """Digests of the pairings of one catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.known: dict[tuple[str, str], str] = {}

    def of(self, pairing: Pairing) -> str:
        """The digest of everything that can change the verdict of this pairing."""
        parts = (self.engine(), *(self.record(*record) for record in self.records(pairing)))
        return hashlib.sha256(" ".join(parts).encode()).hexdigest()[:LENGTH]

    def engine(self, words: bool = True) -> str:
        """The digest of the engine and its rules; without `words` a sentence of the rulebook changes nothing."""
        return engine_digest(words)

    def every(self) -> Mapping[tuple[str, str], str]:
        """The digest of every record a verdict may rest on."""
        return {(kind, name): self.record(kind, name) for kind in RECORDS for name in getattr(self.catalogue, kind)}

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
        if (kind, name) not in self.known:
            self.known[kind, name] = hashlib.sha256(repr(_asked(getattr(self.catalogue, kind)[name])).encode()).hexdigest()[:LENGTH]
        return self.known[kind, name]


def _asked(value: Any) -> Any:
    """A record as plain tuples and dicts, without what judging never asks."""
    if is_dataclass(value):
        kind = type(value).__name__
        return kind, *((field.name, _asked(getattr(value, field.name))) for field in fields(value) if field.name not in UNASKED.get(kind, ()))
    if isinstance(value, Mapping):
        return {name: _asked(one) for name, one in value.items()}
    return tuple(map(_asked, value)) if isinstance(value, (tuple, list)) else value


@cache
def engine_digest(words: bool) -> str:
    """A digest of the engine's rules, with their `words` or without, and of the code that judges; comments, docstrings and empty lines change
    nothing, nor does what only shows or searches."""
    whole = hashlib.sha256()
    for path in judging():
        whole.update(_meaning(path.read_text(encoding="utf-8")).encode())
    for path in sorted(ENGINE.glob("*.yaml")):
        rules = yaml.safe_load(path.read_text(encoding="utf-8"))
        whole.update(repr([{name: rule[name] for name in rule if words or name not in WORDS} for rule in rules]).encode())
    return whole.hexdigest()[:LENGTH]


def judging() -> list[Path]:
    """The modules of the engine that a verdict is made by: judge.py, and whatever it imports."""
    found, todo = set(), {"judge"}
    while todo:
        path = ENGINE / f"{todo.pop()}.py"
        found.add(path)
        names = {node.module for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.ImportFrom) and node.level == 1}
        todo |= {name for name in names if ENGINE / f"{name}.py" not in found}
    return sorted(found)


def _meaning(code: str) -> str:
    """Python code without comments, docstrings and empty lines, alike in every version of Python."""
    lines = code.splitlines()
    for token in tokenize.generate_tokens(StringIO(code).readline):
        if token.type == tokenize.COMMENT:
            row, column = token.start
            lines[row - 1] = lines[row - 1][:column]
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) and ast.get_docstring(node, clean=False) is not None:
            lines[node.body[0].lineno - 1:node.body[0].end_lineno] = [""] * (node.body[0].end_lineno - node.body[0].lineno + 1)
    return "\n".join(line.rstrip() for line in lines if line.strip())
