"""The ledger kept with the catalogue, and what it rests on: the rows still true are read from it, and only the others judged.

What it rests on stands beside it, in `rests-on.tsv`: a digest of the engine, of every record, and of every file of the ledger itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path

from generator.catalogue.records import Catalogue
from generator.engine import pairings

from .fingerprint import LENGTH, Fingerprints
from .judged import judged
from .lines import LedgerError, first_difference, read, text, write
from .lines import rows as rows_of
from .revision import NoRevision, file_at_revision
from .rows import Row, row

RESTS_ON = "rests-on.tsv"
HEAD = "# What the verdicts beside it rest on; written by `python -m generator ledger`.\n"
ENGINE, FILE = ("engine", "all"), "file"
DIGEST = re.compile(rf"[0-9a-f]{{{LENGTH}}}")


def rows(catalogue: Catalogue, directory: Path, remembered: Path | None = None) -> list[Row]:
    """Every pairing's row, in order of outlet, inlet, lead: from the ledger in `directory` where it still holds, judged where not.

    LedgerError where the ledger is there and is not as it was written.
    """
    files, rested = read(directory), _read_rests(directory / RESTS_ON)
    if files or rested:
        _check(files, rested, directory)
    prints = Fingerprints(catalogue)
    known = {(one["from"], tuple(one["through"]), one["into"]): one for one in rows_of(files)}
    if rested.get(ENGINE) != prints.engine(words=False):
        known = {}
    standing = lambda pairing: pairing in known and all(rested.get(record) == prints.record(*record) for record in prints.records(pairing))
    every = list(pairings(catalogue))
    wanted = [pairing for pairing in every if not standing(pairing)]
    fresh = dict(zip(wanted, map(row, judged(catalogue, remembered, wanted))))
    return [fresh[pairing] if pairing in fresh else known[pairing] for pairing in every]


def keep(catalogue: Catalogue, fresh: list[Row], directory: Path) -> None:
    """Write the ledger of a catalogue and what it rests on."""
    files = text(fresh)
    write(files, directory)
    (directory / RESTS_ON).write_text(rests_on(catalogue, files), encoding="utf-8")


def stale(catalogue: Catalogue, fresh: list[Row], directory: Path) -> Iterator[LedgerError]:
    """Each file in `directory` that is not what `keep` would write, with the first line that differs."""
    found, wanted = read(directory), text(fresh)
    if (directory / RESTS_ON).exists():
        found[RESTS_ON] = (directory / RESTS_ON).read_text(encoding="utf-8", errors="replace")
    wanted[RESTS_ON] = rests_on(catalogue, wanted)
    for name in sorted(found.keys() | wanted.keys()):
        if found.get(name) != wanted.get(name):
            yield LedgerError(f"{name}, line {first_difference(found.get(name, ''), wanted.get(name, ''))}: not what the engine says today")


def rests_on(catalogue: Catalogue, files: Mapping[str, str]) -> str:
    """The text of `rests-on.tsv`."""
    prints = Fingerprints(catalogue)
    found = {ENGINE: prints.engine(words=False), **prints.every(), **{(FILE, name): _digest(content) for name, content in files.items()}}
    return HEAD + "".join(f"{kind}\t{name}\t{digest}\n" for (kind, name), digest in sorted(found.items()))


def _digest(content: str) -> str:
    return sha256(content.encode()).hexdigest()[:LENGTH]


def _read_rests(path: Path) -> dict[tuple[str, str], str]:
    if not path.exists():
        return {}
    found = {}
    *lines, rest = path.read_text(encoding="utf-8", errors="replace").split("\n")
    for number, line in enumerate(lines, 1):
        fields = line.split("\t")
        if line.startswith("#"):
            continue
        if len(fields) != 3 or not DIGEST.fullmatch(fields[2]):
            raise LedgerError(f"{path.name}, line {number}: not a kind, a name and a digest: '{line[:60]}'")
        found[fields[0], fields[1]] = fields[2]
    if rest:
        raise LedgerError(f"{path.name}, line {len(lines) + 1}: cut short")
    return found


def _check(files: Mapping[str, str], rested: Mapping[tuple[str, str], str], directory: Path) -> None:
    """LedgerError where a ledger and what it rests on do not belong together."""
    for name in sorted({name for kind, name in rested if kind == FILE} | set(files)):
        if name not in files:
            raise LedgerError(f"{name}: missing")
        written = rested.get((FILE, name))
        if not written:
            raise LedgerError(f"{RESTS_ON}: missing, or without a line for {name}")
        if written != _digest(files[name]):
            list(rows_of({name: files[name]}))  # a line that is none is named before all else
            raise LedgerError(f"{name}{_where(name, files[name], written, directory)}: not as it was written, edited by hand or from another version")


def _where(name: str, content: str, written: str, directory: Path) -> str:
    """The line that is not as it was written, where git has the file as it was."""
    try:
        committed = file_at_revision(directory, "HEAD", name)
    except NoRevision:
        return ""
    return f", line {first_difference(committed, content)}" if _digest(committed) == written else ""
