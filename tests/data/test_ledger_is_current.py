"""The committed verdicts are what the engine says of the catalogue today: no verdict changes unseen."""

import once

from generator import ledger
from generator.catalogue import default_directory
from generator.ledger.changes import changelog


def test_the_ledger_is_current(catalogue):
    committed, fresh = ledger.read(default_directory() / "verdicts"), ledger.text(once.judged(catalogue))
    assert committed == fresh, "run `python -m generator ledger`:\n" + changelog(committed, fresh)


def test_every_outlet_that_fits_anything_has_its_file(catalogue):
    names = {path.stem for path in (default_directory() / "verdicts").glob("*.txt")}
    outlets = {port.id for port in catalogue.ports.values() if port.sources}
    assert names
    assert names <= outlets


def test_computed_fields_only():
    """Five fields a line, no names, no words that change when a text is corrected."""
    for path in (default_directory() / "verdicts").iterdir():
        head, *lines = path.read_text("utf-8").splitlines()
        assert head.startswith("# Computed by")
        assert lines == sorted(lines)
        assert all(len(line.split("\t")) == 5 for line in lines), path.name
