"""The ledger kept with the catalogue, and what it rests on: the rows still true are read from it, and only the others judged.

What it rests on stands beside it, in `rests-on.tsv`: a digest of the engine, of every record, and of every file of the ledger itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from hashlib import sha256
from pathlib import Path

from generator.catalogue.records import Catalogue
from generator.engine import pairings

from . import numbers
from .fingerprint import Fingerprints, Pairing
from .judged import judged
from .lines import MENDED, LedgerError, read, text, write
from .lines import rows as rows_of
from .rows import Row, row

RESTS_ON = "rests-on.tsv"
HEAD = "# What the verdicts beside it rest on; written by `python -m generator ledger`.\n"
ENGINE, FILE = ("engine", "all"), "file"


def rows(catalogue: Catalogue, directory: Path, remembered: Path | None = None, mend: bool = False) -> list[Row]:
    """Every pairing's row, in order of outlet, inlet, lead: from the ledger in `directory` where it still holds, judged where not.

    LedgerError where a file of the ledger is not as it was written; with `mend` such a file is as if it were not there.
    """
    files, rested = read(directory), _read_rests(directory / RESTS_ON, mend)
    if mend:
        files = {name: content for name, content in files.items() if rested.get((FILE, name)) == _digest(content)}
    known = {_pairing(one): one for one in rows_of(files)} if mend or _holds(files, rested) else {}
    standing, every = _standing(catalogue, rested), list(pairings(catalogue))
    wanted = [pairing for pairing in every if pairing not in known or not standing(pairing)]
    fresh = dict(zip(wanted, map(row, judged(catalogue, remembered, wanted))))
    return [fresh[pairing] if pairing in fresh else known[pairing] for pairing in every]


def keep(catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None = None) -> None:
    """Write the ledger of a catalogue, the numbers of what tells most of it, and what both rest on."""
    files, told = text(fresh), _numbers(catalogue, fresh, directory, remembered)
    write(files, directory)
    (directory / numbers.FILE).write_text(told, encoding="utf-8")
    (directory / RESTS_ON).write_text(rests_on(catalogue, files), encoding="utf-8")


def _numbers(catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None) -> str:
    """The text of `numbers.tsv`: lines that still hold are kept, for the others their pairings are judged."""
    known, standing = numbers.read(directory), _standing(catalogue, _read_rests(directory / RESTS_ON, mend=True))
    chosen = [_pairing(one) for one in numbers.telling(fresh)]
    wanted = [pairing for pairing in chosen if pairing not in known or not standing(pairing)]
    found = dict(zip(wanted, map(numbers.lines, judged(catalogue, remembered, wanted))))
    return numbers.text(found[pairing] if pairing in found else known[pairing] for pairing in chosen)


def _standing(catalogue: Catalogue, rested: Mapping[tuple[str, str], str]) -> Callable[[Pairing], bool]:
    """Is what was judged of a pairing, resting on these digests, still true?"""
    prints = Fingerprints(catalogue)
    if rested.get(ENGINE) != prints.engine(words=False):
        return lambda pairing: False
    return lambda pairing: all(rested.get(record) == prints.record(*record) for record in prints.records(pairing))


def _pairing(row: Row) -> Pairing:
    return row["from"], tuple(row["through"]), row["into"]


def rests_on(catalogue: Catalogue, files: Mapping[str, str]) -> str:
    """The text of `rests-on.tsv`."""
    prints = Fingerprints(catalogue)
    found = {ENGINE: prints.engine(words=False), **prints.every(), **{(FILE, name): _digest(content) for name, content in files.items()}}
    return HEAD + "".join(f"{kind}\t{name}\t{digest}\n" for (kind, name), digest in sorted(found.items()))


def _digest(content: str) -> str:
    return sha256(content.encode()).hexdigest()[:24]


def _read_rests(path: Path, mend: bool) -> dict[tuple[str, str], str]:
    if not path.exists():
        return {}
    found = {}
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        fields = line.split("\t")
        if line.startswith("#"):
            continue
        if len(fields) != 3 and mend:
            return {}
        if len(fields) != 3:
            raise LedgerError(f"verdicts/{path.name}, line {number}: not a kind, a name and a digest: '{line[:60]}'; {MENDED}")
        found[fields[0], fields[1]] = fields[2]
    return found


def _holds(files: Mapping[str, str], rested: Mapping[tuple[str, str], str]) -> bool:
    """Is there a ledger, with what it rests on? LedgerError where the two do not belong together."""
    if not rested:
        return False
    for name in {name for kind, name in rested if kind == FILE} | set(files):
        if name not in files:
            raise LedgerError(f"verdicts/{name}: missing; {MENDED}")
        if rested.get((FILE, name)) != _digest(files[name]):
            list(rows_of({name: files[name]}))  # a line that is none is named before all else
            raise LedgerError(f"verdicts/{name}: not as it was written, edited by hand or from another version; {MENDED}")
    return True
