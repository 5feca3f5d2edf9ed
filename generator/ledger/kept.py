"""The ledger kept with the catalogue, and what it rests on: the rows still true are read from it,
and only the others judged.

What it rests on stands beside it, in `rests-on.tsv`: a digest of the engine, of every record, and of every
file of the ledger itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from generator.catalogue.records import Catalogue
from generator.engine import pairings

from . import numbers, rules
from .fingerprint import LENGTH, Fingerprints, Pairing, code_digest
from .form import Damaged
from .judged import told_of
from .lines import LedgerError, first_difference, read, text, write
from .lines import rows as rows_of
from .memory import opened
from .revision import NoRevision, file_at_revision
from .rows import Row, row

RESTS_ON = "rests-on.tsv"
HEAD = "# What the verdicts beside it rest on; written by `python -m generator ledger`.\n"
ENGINE, FILE = ("engine", "all"), "file"
Record = tuple[str, str]  # kind and id
DIGEST = re.compile(rf"[0-9a-f]{{{LENGTH}}}")


def rows(
    catalogue: Catalogue,
    directory: Path,
    remembered: Path | None = None,
    mend: bool = False,
    address: str | None = None,
) -> list[Row]:
    """Every pairing's row, in order of outlet, inlet, lead: from the ledger in `directory` where it still
    holds, judged where not.

    LedgerError where a file of the ledger is not as it was written; with `mend` such a file is as if it were
    not there. With an `address` of a cluster that judges; raises NoCluster.
    """
    files, rested = read(directory), _read_rests(directory / RESTS_ON, mend)
    if mend:
        files = {
            name: content for name, content in files.items() if rested.get((FILE, name)) == _digest(content)
        }
    elif files or rested:
        _check({**files, **numbers.read(directory)}, rested, directory)
    known, every = {_pairing(one): one for one in rows_of(files, skip=mend)}, _every(catalogue, remembered)
    held = _standing(
        catalogue,
        rested,
        remembered,
        {pairing: next(iter(known[pairing]["findings"]), "") for pairing in every if pairing in known},
    )
    known = {pairing: one for pairing, one in known.items() if pairing in held}
    fresh = iter(
        list(
            told_of(
                row, catalogue, remembered, [pairing for pairing in every if pairing not in held], address
            )
        )
    )
    found = [known[pairing] if pairing in held else next(fresh) for pairing in every]
    _forget(catalogue, remembered, every)
    return found


def _every(catalogue: Catalogue, remembered: Path | None) -> list[Pairing]:
    """Every pairing, from memory where no record is another."""
    digest, found = Fingerprints(catalogue, words=False).pairings(), None
    with opened(remembered) as memory:
        if memory is not None:
            with suppress(Damaged):
                found = memory.listed(digest)
        if found is None:
            found = list(pairings(catalogue))
            if memory is not None:
                memory.enlist(digest, found)
    return found


def _forget(catalogue: Catalogue, remembered: Path | None, every: Sequence[Pairing]) -> None:
    """Leave what is remembered of these pairings only, once most of it is of others."""
    with opened(remembered) as memory:
        if memory is not None and len(memory) > 2 * len(every):
            memory.forget(map(Fingerprints(catalogue, words=False).readings, every))


def keep(catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None = None) -> None:
    """Write the ledger of a catalogue, the numbers of what tells most of it, and what both rest on."""
    write(_files(catalogue, fresh, directory, remembered), directory)


def _files(
    catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None
) -> dict[str, str]:
    """File name -> content of all that `keep` writes."""
    files = {**text(fresh), numbers.FILE: _numbers(catalogue, fresh, directory, remembered)}
    return {**files, RESTS_ON: rests_on(catalogue, files)}


def _numbers(catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None) -> str:
    """The text of `numbers.tsv`: lines that still hold are kept, for the others their pairings are judged."""
    rested = _read_rests(directory / RESTS_ON, mend=True)
    written = (
        content
        for name, content in numbers.read(directory).items()
        if rested.get((FILE, name)) == _digest(content)
    )
    known, chosen = numbers.rows(next(written, "")), [_pairing(one) for one in numbers.telling(fresh)]
    held = _standing(catalogue, rested, remembered, {pairing: None for pairing in chosen if pairing in known})
    found = iter(
        list(
            told_of(
                numbers.lines, catalogue, remembered, [pairing for pairing in chosen if pairing not in held]
            )
        )
    )
    return numbers.text(known[pairing] if pairing in held else next(found) for pairing in chosen)


def _standing(
    catalogue: Catalogue,
    rested: Mapping[Record, str],
    remembered: Path | None,
    asked: Mapping[Pairing, str | None],
) -> set[Pairing]:
    """Those of the pairings asked about of which what was judged, resting on these digests, is still true.
    Where only the rulebook is another that is so where all readings meet the same rules; `asked` says of what
    the number is told, see `rules.standing`."""
    prints = Fingerprints(catalogue, words=False)
    same = [
        pairing
        for pairing in asked
        if all(rested.get(record) == prints.record(*record) for record in prints.records(pairing))
    ]
    if not remembered:
        return set(same) if rested.get(ENGINE) == prints.engine() else set()
    with opened(remembered) as memory:
        today, code = rules.book(), code_digest(words=False)
        memory.note(prints.engine(), code, today)
        if rested.get(ENGINE) == prints.engine():
            return set(same)
        before = memory.rulebook(rested.get(ENGINE, ""), code)
        if before is None:
            return set()
        digests = {prints.readings(pairing): pairing for pairing in same}
        return {
            digests[digest]
            for digest in rules.standing(
                memory, before, today, {digest: asked[pairing] for digest, pairing in digests.items()}
            )
        }


def _pairing(row: Row) -> Pairing:
    return row["from"], tuple(row["through"]), row["into"]


def stale(
    catalogue: Catalogue, fresh: list[Row], directory: Path, remembered: Path | None = None
) -> Iterator[LedgerError]:
    """Each file in `directory` that is not what `keep` would write, with the first line that differs."""
    found, wanted = (
        {**read(directory), **numbers.read(directory)},
        _files(catalogue, fresh, directory, remembered),
    )
    if (directory / RESTS_ON).exists():
        found[RESTS_ON] = (directory / RESTS_ON).read_text(encoding="utf-8", errors="replace")
    for name in sorted(found.keys() | wanted.keys()):
        if found.get(name) != wanted.get(name):
            yield LedgerError(
                f"{name}, line {first_difference(found.get(name, ''), wanted.get(name, ''))}: not what the "
                "engine says today"
            )


def rests_on(catalogue: Catalogue, files: Mapping[str, str]) -> str:
    """The text of `rests-on.tsv`."""
    prints = Fingerprints(catalogue, words=False)
    found = {
        ENGINE: prints.engine(),
        **prints.every(),
        **{(FILE, name): _digest(content) for name, content in files.items()},
    }
    return HEAD + "".join(f"{kind}\t{name}\t{digest}\n" for (kind, name), digest in sorted(found.items()))


def _digest(content: str) -> str:
    return sha256(content.encode()).hexdigest()[:LENGTH]


def _read_rests(path: Path, mend: bool = False) -> dict[tuple[str, str], str]:
    """The digests in a file; with `mend` none where a line of it is none, else LedgerError."""
    try:
        return _rests(path)
    except LedgerError:
        if mend:
            return {}
        raise


def _rests(path: Path) -> dict[tuple[str, str], str]:
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
            if name != numbers.FILE:
                list(rows_of({name: files[name]}))  # a line that is none is named before all else
            raise LedgerError(
                f"{name}{_where(name, files[name], written, directory)}: not as it was written, edited by "
                "hand or from another version"
            )


def _where(name: str, content: str, written: str, directory: Path) -> str:
    """The line that is not as it was written, where git has the file as it was."""
    try:
        committed = file_at_revision(directory, "HEAD", name)
    except NoRevision:
        return ""
    return f", line {first_difference(committed, content)}" if _digest(committed) == written else ""
