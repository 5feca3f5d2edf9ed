"""The ledger and the table of ways kept with the catalogue. Printing is left to the caller."""

from __future__ import annotations

from pathlib import Path

from generator import ledger
from generator.catalogue import ever, load
from generator.ledger import ways
from generator.ledger.changes import changelog
from generator.ledger.revision import at_revision

KINDS = ("connectors", "assignments", "ports", "leads")
Told = tuple[str, list[ledger.LedgerError]]  # what changed, and with `--check` which files are stale


def kept(options, remembered: Path) -> Told:
    """The ledger written, or with `--check` held against the engine. Raises NoRevision."""
    catalogue, directory = load(options.pinouts), options.pinouts / "verdicts"
    before = ledger.read(directory) if options.since is None else at_revision(directory, options.since)
    rows = ledger.rows(catalogue, directory, remembered, mend=True, address=options.cluster)
    changes = changelog(before, ledger.text(rows))
    if options.check:
        return changes, list(ledger.stale(catalogue, rows, directory, remembered))
    ledger.keep(catalogue, rows, directory, remembered)
    ever.note(options.pinouts, {kind: getattr(catalogue, kind) for kind in KINDS})
    return changes, []


def ways_kept(options, begun: Path) -> Told:
    """The table of ways written, or with `--check` held against a search."""
    catalogue, directory = load(options.pinouts), options.pinouts / "verdicts" / ways.FOLDER
    found = ways.ways(catalogue, directory, begun, mend=True)
    if options.check:
        return "", list(ways.stale(catalogue, found, directory))
    ways.keep(catalogue, found, directory)
    begun.unlink(missing_ok=True)
    return "", []
