"""The readings of earlier runs, in one file: they hold as long as nothing they are made of changes,
whatever the rules say of them.

Of every pairing it has the numbers of its readings, way by way; all else about a reading stands once in a
table of outlines. Of every rulebook that rows were judged by it has the rules, so that it can be told what a
change of rules comes to.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from time import monotonic
from typing import Any

from .fingerprint import Pairing
from .form import Damaged, Flat, Outline, Written, outlined, packed, unpacked, unzipped

TABLES = """
    CREATE TABLE IF NOT EXISTS outlines (number INTEGER PRIMARY KEY, quantity TEXT, text BLOB UNIQUE);
    CREATE INDEX IF NOT EXISTS quantities ON outlines (quantity);
    CREATE TABLE IF NOT EXISTS pairings (digest TEXT PRIMARY KEY, whole TEXT, readings BLOB);
    CREATE TABLE IF NOT EXISTS lists (digest TEXT PRIMARY KEY, pairings BLOB);
    CREATE TABLE IF NOT EXISTS rulebooks (engine TEXT PRIMARY KEY, code TEXT, rules TEXT);
"""
WAIT = 60.0  # s for another run to finish writing
EVERY = 1.0  # s between writings


class Memory:
    """One file of readings; several processes may use it at once. One that cannot be used is begun anew.
    What asks raises Damaged."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._numbers: dict[str, int] = {}  # of outlines
        self._outlines: dict[int, Outline] = {}
        self._kept: list[tuple] = []  # that is not written yet
        self._saved = monotonic()
        path.parent.mkdir(parents=True, exist_ok=True)
        self._file: sqlite3.Connection | None = None
        self._written(len, self)

    def _ask(self, words: str, *given) -> list[tuple]:
        """What the file says to a sentence of SQL. Raises Damaged; the words of a machine that refuses it are
        those of any other file."""
        try:
            return self._connected().execute(words, given).fetchall()
        except sqlite3.ProgrammingError:
            raise
        except sqlite3.OperationalError as fault:
            raise OSError(0, str(fault), str(self.path)) from None
        except sqlite3.DatabaseError as fault:
            raise Damaged(str(fault)) from None

    def _written(self, work: Callable[..., Any], *given) -> Any:
        """What is written goes into a new file where the old one cannot be used."""
        try:
            return work(*given)
        except Damaged:
            self._anew()
            return work(*given)

    def _connected(self) -> sqlite3.Connection:
        if self._file is None:
            self._file = sqlite3.connect(self.path, timeout=WAIT, isolation_level=None)
            self._file.execute("PRAGMA journal_mode=WAL")  # who reads does not wait for who writes
            self._file.execute("PRAGMA synchronous=NORMAL")
            self._file.executescript(TABLES)
        return self._file

    def _anew(self) -> None:
        sys.stderr.write(f"{self.path}: damaged; what it held is judged anew.\n")
        self._file.close()
        for more in ("", "-wal", "-shm"):
            self.path.with_name(self.path.name + more).unlink(missing_ok=True)
        self._file = None
        self._numbers.clear()
        self._outlines.clear()

    def keep(self, digest: str, whole: str, written: Sequence[Flat]) -> None:
        """Remember the readings of a pairing (see form.py) under their digest; `whole` is the one that sees
        how each thing is known too."""
        self._kept.append((digest, whole, written))
        if monotonic() - self._saved > EVERY:
            self.save()

    def save(self) -> None:
        """Write what is kept so far, all at once: another run never waits for this one to go on."""
        if self._kept:
            self._written(self._save)
        self._kept.clear()
        self._saved = monotonic()

    def _save(self) -> None:
        self._ask("BEGIN IMMEDIATE")
        for digest, whole, written in self._kept:
            self._ask(
                "INSERT OR REPLACE INTO pairings VALUES (?, ?, ?)",
                digest,
                whole,
                packed(written, self._number),
            )
        self._ask("COMMIT")

    def _number(self, text: str) -> int:
        """The number of an outline; a new one for one that is not known."""
        if text not in self._numbers:
            read, told = json.loads(text), zlib.compress(text.encode())
            self._ask(
                "INSERT OR IGNORE INTO outlines (quantity, text) VALUES (?, ?)",
                read[0] if isinstance(read, list) else "",
                told,
            )
            self._numbers[text] = self._ask("SELECT number FROM outlines WHERE text = ?", told)[0][0]
        return self._numbers[text]

    def close(self) -> None:
        self.save()
        self._file.close()

    def recalled(self, digest: str, whole: str | None = None) -> list[Written] | None:
        """What was read of each way of a pairing; None where that is not known, or was known otherwise than
        `whole` has it. Raises Damaged."""
        found = self._ask("SELECT whole, readings FROM pairings WHERE digest = ?", digest)
        if not found or whole not in (None, found[0][0]):
            return None
        return unpacked(found[0][1], self._outline)

    def _outline(self, number: int) -> Outline:
        if number not in self._outlines:
            found = self._ask("SELECT text FROM outlines WHERE number = ?", number)
            self._outlines[number] = outlined(found[0][0] if found else b"")
        return self._outlines[number]

    def holds(self, digest: str) -> bool:
        """Is anything to be had of a pairing?"""
        try:
            return bool(self._ask("SELECT 1 FROM pairings WHERE digest = ?", digest))
        except Damaged:
            return False

    def packed(self, digest: str) -> bytes | None:
        """The readings of a pairing as they are kept, packed."""
        found = self._ask("SELECT readings FROM pairings WHERE digest = ?", digest)
        return found[0][0] if found else None

    def outlines(self, quantity: str) -> dict[int, list]:
        """The outlines of readings of a quantity, by number. Raises Damaged."""
        return {
            number: outlined(text)
            for number, text in self._ask("SELECT number, text FROM outlines WHERE quantity = ?", quantity)
        }

    def note(self, engine: str, code: str, rules: Mapping) -> None:
        """Remember the rules of an engine, and which code applies them."""
        self._written(
            self._ask, "INSERT OR REPLACE INTO rulebooks VALUES (?, ?, ?)", engine, code, json.dumps(rules)
        )

    def rulebook(self, engine: str, code: str) -> dict | None:
        """The rules of an engine with this code, as they were noted."""
        found = self._ask("SELECT rules FROM rulebooks WHERE engine = ? AND code = ?", engine, code)
        return json.loads(found[0][0]) if found else None

    def listed(self, digest: str) -> list[Pairing] | None:
        """The pairings of a catalogue as they were listed."""
        found = self._ask("SELECT pairings FROM lists WHERE digest = ?", digest)
        return (
            [(start, tuple(through), target) for start, through, target in json.loads(unzipped(found[0][0]))]
            if found
            else None
        )

    def enlist(self, digest: str, pairings: Sequence[Pairing]) -> None:
        """Remember the pairings of a catalogue, the latest alone."""
        self._written(self._ask, "DELETE FROM lists")
        self._written(
            self._ask,
            "INSERT OR REPLACE INTO lists VALUES (?, ?)",
            digest,
            zlib.compress(json.dumps(pairings).encode()),
        )

    def __len__(self) -> int:
        """How many pairings it holds."""
        return self._ask("SELECT count(*) FROM pairings")[0][0]

    def forget(self, kept: Iterable[str]) -> None:
        """Leave the pairings of these digests only."""
        known = {digest for (digest,) in self._ask("SELECT digest FROM pairings")}
        self._ask("BEGIN IMMEDIATE")
        for digest in known.difference(kept):
            self._ask("DELETE FROM pairings WHERE digest = ?", digest)
        self._ask("COMMIT")


@contextmanager
def opened(path: Path | None) -> Iterator[Memory | None]:
    """The memory in a file, saved in the end whatever happens."""
    memory = Memory(path) if path else None
    try:
        yield memory
    finally:
        if memory is not None:
            memory.close()
