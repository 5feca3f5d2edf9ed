"""The ledger as text: one file per outlet, one line per lead and inlet, computed fields only, so that a diff
shows what a change of data did.

    LEAD  INLET  VERDICT  FINDINGS  NUMBER  SUBJECT  OFFERED  OFFER

separated by tabs, the last two only where there is an offer; `-` for none. FINDINGS are those that
decided, then after `|` what else costs something. NUMBER and SUBJECT, the place and the part, are
of the first that decided.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import zip_longest
from pathlib import Path

from generator.engine.verdict import VERDICTS

from .rows import Row

HEAD = "# Computed by `python -m generator ledger`; never edited by hand.\n"
NONE, ALSO = "-", "|"
WRITES = "python -m generator ledger"
UNREAD = "\ufffd"  # stands for what is no text, see `read`


class LedgerError(Exception):
    """A ledger that cannot be read: file, line, and which command mends it."""

    def __init__(self, what: str, writes: str = WRITES) -> None:
        super().__init__(f"verdicts/{what}; `{writes}` writes it anew")
        self.what = what


def text(rows: Iterable[Row]) -> dict[str, str]:
    """Rows -> file name -> content."""
    lines: dict[str, list[str]] = {}
    for row in rows:
        lines.setdefault(f"{row['from']}.txt", []).append(line(row))
    return {name: HEAD + "".join(sorted(found)) for name, found in sorted(lines.items())}


def line(row: Row) -> str:
    """A row as a line of text."""
    also = (ALSO, *row["also"]) if row["also"] else ()
    fields = [
        "+".join(row["through"]),
        row["into"],
        row["verdict"],
        " ".join((*row["findings"], *also)),
        row["number"],
        row["subject"],
    ]
    if row["offered"]:
        fields += [row["offered"], row["offer"]]
    return "\t".join(field or NONE for field in fields) + "\n"


def rows(files: Mapping[str, str], skip: bool = False) -> Iterator[Row]:
    """The rows of a ledger. LedgerError for a line that is none; with `skip` it is passed over."""
    for name, content in files.items():
        lines = content.split("\n")[:-1]
        for number, told in enumerate(lines, 1):
            if not told.startswith("#"):
                try:
                    yield _row(name, number, told)
                except LedgerError:
                    if not skip:
                        raise
        if content and not content.endswith("\n") and not skip:
            raise LedgerError(f"{name}, line {len(lines) + 1}: cut short")


def first_difference(one: str, other: str) -> int:
    """The number of the first line in which two texts differ."""
    return next(
        number for number, (a, b) in enumerate(zip_longest(one.split("\n"), other.split("\n")), 1) if a != b
    )


def _row(name: str, number: int, told: str) -> Row:
    fields = ["" if field == NONE else field for field in told.split("\t")]
    if (
        len(fields) not in (6, 8)
        or fields[2] not in VERDICTS
        or (fields[6:7] and fields[6] not in VERDICTS)
        or UNREAD in told
    ):
        raise LedgerError(f"{name}, line {number}: no row of a ledger: '{told[:60]}'")
    through, into, verdict, findings, decides, subject, offered, offer = ([*fields, "", ""])[:8]
    deciding, _, also = findings.partition(ALSO)
    return {
        "from": name.removesuffix(".txt"),
        "through": through.split("+") if through else [],
        "into": into,
        "verdict": verdict,
        "findings": deciding.split(),
        "also": also.split(),
        "number": decides,
        "subject": subject,
        "offered": offered,
        "offer": offer,
    }


def write(files: Mapping[str, str], directory: Path) -> None:
    """Make a directory hold exactly these files, touching only what changed."""
    directory.mkdir(parents=True, exist_ok=True)
    for stale in directory.glob("*.txt"):
        if stale.name not in files:
            stale.unlink()
    for name, content in files.items():
        path = directory / name
        if not path.exists() or path.read_bytes() != content.encode():
            path.write_text(content, encoding="utf-8")


def read(directory: Path) -> dict[str, str]:
    """The files of a ledger: name -> content. What is no text is read all the same, as UNREAD, so that it can
    be named with its line."""
    return {
        path.name: path.read_text(encoding="utf-8", errors="replace")
        for path in sorted(directory.glob("*.txt"))
    }
