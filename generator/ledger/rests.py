"""What a ledger rests on, beside it in `rests-on.tsv`: a digest of the engine, of every record, and of every
file of the ledger itself."""

from __future__ import annotations

import re
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from .fingerprint import LENGTH
from .lines import LedgerError

RESTS_ON = "rests-on.tsv"
HEAD = "# What the verdicts beside it rest on; written by `python -m generator ledger`.\n"
ENGINE, FILE = ("engine", "all"), "file"
Record = tuple[str, str]  # kind and id
DIGEST = re.compile(rf"[0-9a-f]{{{LENGTH}}}")


def text(rested: Mapping[Record, str], files: Mapping[str, str]) -> str:
    """What is written, of digests and of files by name."""
    found = {**rested, **{(FILE, name): digest(content) for name, content in files.items()}}
    return HEAD + "".join(f"{kind}\t{name}\t{told}\n" for (kind, name), told in sorted(found.items()))


def digest(content: str) -> str:
    return sha256(content.encode()).hexdigest()[:LENGTH]


def read(path: Path, mend: bool = False) -> dict[Record, str]:
    """The digests in a file; with `mend` none where a line of it is none, else LedgerError."""
    try:
        return _read(path)
    except LedgerError:
        if mend:
            return {}
        raise


def _read(path: Path) -> dict[Record, str]:
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
