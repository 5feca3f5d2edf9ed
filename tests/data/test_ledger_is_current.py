"""The committed verdicts are what the engine says of the catalogue today: no verdict changes unseen."""

import re
from itertools import zip_longest

import once

from generator import ledger
from generator.catalogue import default_directory
from generator.ledger import numbers
from generator.ledger.changes import changelog

DIRECTORY = default_directory() / "verdicts"
NUMBER = re.compile(r"(?<=[\t ])[−-]?\d+(?:\.\d+)?")


def test_the_ledger_is_current(catalogue):
    """Rows whose records or engine changed since it was written are judged, all of them."""
    committed, fresh = ledger.read(DIRECTORY), ledger.text(once.rows(catalogue))
    assert committed == fresh, "run `python -m generator ledger`:\n" + changelog(committed, fresh)


def test_the_engine_says_what_the_ledger_says(catalogue):
    """A lot of the rows that tell most and every record and finding, whatever the digests say; with
    RINGFENCE_WHOLE set, all."""
    committed = {once.pairing(row): row for row in once.rows(catalogue)}
    wrong = [
        (row, committed[once.pairing(row)])
        for row in map(ledger.row, once.judged(catalogue))
        if row != committed[once.pairing(row)]
    ]
    assert not wrong, f"{len(wrong)} rows, the first: {wrong[0]}"


def test_every_number_of_what_tells_most_is_the_one_in_the_file(catalogue):
    """Notes and figures too, which no verdict shows. Of what is judged anew."""
    committed = numbers.rows(numbers.read(DIRECTORY)[numbers.FILE])
    chosen = {once.pairing(row) for row in ledger.telling(once.rows(catalogue))}
    assert set(committed) <= chosen and len(committed) > 0.99 * len(chosen)
    fresh = {once.pairing(one): numbers.lines(one) for one in once.judged(catalogue)}
    wrong = [
        (was, now)
        for pairing in chosen & set(fresh)
        for was, now in zip_longest(committed.get(pairing, ()), fresh[pairing], fillvalue="")
        if not alike(was, now)
    ]
    assert not wrong, f"{len(wrong)} lines, the first: {wrong[0]}"


def alike(was, now):
    """The same line, but for what another processor's rounding does to the last digit shown."""
    return NUMBER.sub("", was) == NUMBER.sub("", now) and all(
        abs(a - b) <= (0.11 if " dB" in was else 0.006 * abs(a))
        for a, b in zip(*(list(map(float, NUMBER.findall(line.replace("−", "-")))) for line in (was, now)))
    )


def test_lines_differ_by_more_than_a_last_digit():
    assert alike("a\t9.84 mA / 5 mA\n", "a\t9.85 mA / 5 mA\n")
    assert (
        not alike("a\t9.84 mA / 5 mA\n", "a\t9.94 mA / 5 mA\n")
        and not alike("a\t9.84 mA\n", "a\t9.84 A\n")
        and not alike("a\t1\n", "")
    )


def test_what_tells_most_has_every_record_and_every_finding(catalogue):
    known = once.rows(catalogue)
    chosen = ledger.telling(known)
    for some in (
        (lambda one: [one["from"]]),
        (lambda one: one["through"]),
        (lambda one: [one["into"]]),
        (lambda one: (*one["findings"], *one["also"])),
    ):
        assert {name for one in chosen for name in some(one)} == {name for one in known for name in some(one)}
    assert (
        sum(one["verdict"] == "safe" for one in chosen) > sum(one["verdict"] == "safe" for one in known) / 16
    )


def test_what_it_rests_on_is_current(catalogue):
    """So that a fresh clone judges nothing."""
    assert (DIRECTORY / "rests-on.tsv").read_text("utf-8") == ledger.rests_on(
        catalogue, {**ledger.read(DIRECTORY), **numbers.read(DIRECTORY)}
    ), "run `python -m generator ledger`"


def test_every_outlet_that_fits_anything_has_its_file(catalogue):
    names = {path.stem for path in DIRECTORY.glob("*.txt")}
    outlets = {port.id for port in catalogue.ports.values() if port.sources}
    assert names
    assert names <= outlets


def test_computed_fields_only():
    """Six fields a line, and two more where there is an offer; no names, no words that change when a text is
    corrected, but the order of an offer."""
    for path in DIRECTORY.glob("*.txt"):
        head, *lines = path.read_text("utf-8").splitlines()
        assert head.startswith("# Computed by")
        assert lines == sorted(lines)
        assert {len(line.split("\t")) for line in lines} <= {6, 8}, path.name
