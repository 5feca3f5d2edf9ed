"""The ledger kept with the catalogue is believed where it still holds, and nowhere else."""

import sqlite3
from contextlib import closing
from importlib import import_module

import pytest

from generator import ledger
from generator.catalogue import load
from generator.engine import pairings
from generator.ledger import LedgerError, fingerprint, numbers
from generator.ledger.recorded import recorded

JUDGED = import_module("generator.ledger.judged")


@pytest.fixture
def counted(monkeypatch):
    """The leads of the pairings that are judged."""
    calls = []

    def counting(catalogue, start, through, target):
        calls.append(through[0])
        return recorded(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "recorded", counting)
    return calls


@pytest.fixture
def kept(small, pinouts):
    """The folder of a whole ledger, and its rows."""
    rows = ledger.rows(small, pinouts / "verdicts")
    ledger.keep(small, rows, pinouts / "verdicts")
    return pinouts / "verdicts", rows


def test_without_a_ledger_all_is_judged(small, pinouts, counted):
    assert [row["through"] for row in ledger.rows(small, pinouts / "verdicts")] == [
        ["block"],
        ["crossed"],
        ["straight"],
    ]
    assert counted == ["block", "crossed", "straight"]


def test_a_whole_ledger_judges_nothing(small, kept, counted):
    directory, rows = kept
    counted.clear()
    assert ledger.rows(small, directory) == rows
    assert not counted


def test_only_what_changed_is_judged(kept, changed, counted):
    directory, _ = kept
    counted.clear()
    rows = ledger.rows(changed("leads/block.yaml", "capacitor: 10 uF", "capacitor: 22 uF"), directory)
    assert counted == ["block"]
    assert [row["through"] for row in rows] == [["block"], ["crossed"], ["straight"]]


def test_which_pairings_there_are_is_listed_anew_where_a_record_is_another(
    kept, changed, pinouts, tmp_path, monkeypatch, counted
):
    directory, rows = kept
    calls = []
    monkeypatch.setattr(
        "generator.ledger.kept.pairings", lambda catalogue: calls.append(1) or pairings(catalogue)
    )
    small, memory = load(pinouts), tmp_path / "readings.sqlite"
    assert (
        ledger.rows(small, directory, memory) == ledger.rows(small, directory, memory) == rows
        and len(calls) == 1
    )
    fewer = changed("leads/block.yaml", "half: male", "half: female")
    assert {row["through"][0] for row in ledger.rows(fewer, directory, memory)} == {
        "crossed",
        "straight",
    } and len(calls) == 2
    monkeypatch.setattr(fingerprint, "pairings_digest", lambda: "another engine")
    assert len(ledger.rows(fewer, directory, memory)) == 2 and len(calls) == 3
    with closing(sqlite3.connect(memory)) as file, file:
        file.execute("UPDATE lists SET pairings = x'00'")
    assert len(ledger.rows(fewer, directory, memory)) == 2 and len(calls) == 4


def test_another_engine_judges_all(small, kept, counted, monkeypatch):
    directory, rows = kept
    counted.clear()
    monkeypatch.setattr(fingerprint, "engine_digest", lambda words: "another engine")
    assert ledger.rows(small, directory) == rows
    assert counted == ["block", "crossed", "straight"]


@pytest.mark.parametrize(
    "change, complaint",
    [
        (
            lambda text: text.replace("desk-in", "desk-im", 1),
            "verdicts/player-out.txt: not as it was written, edited by hand or from another version",
        ),
        (lambda text: text[:-1], "verdicts/player-out.txt, line 4: cut short"),
        (lambda text: text + "=======\n", "verdicts/player-out.txt, line 5: no row of a ledger: '======='"),
    ],
)
def test_a_ledger_that_is_not_as_written_is_named_and_left_alone(small, kept, change, complaint):
    directory, _ = kept
    path = directory / "player-out.txt"
    path.write_text(change(path.read_text("utf-8")), "utf-8")
    spoilt = path.read_text("utf-8")
    with pytest.raises(ledger.LedgerError) as fault:
        ledger.rows(small, directory)
    assert str(fault.value) == f"{complaint}; `python -m generator ledger` writes it anew"
    assert path.read_text("utf-8") == spoilt


def test_mending_judges_what_is_not_as_written_and_nothing_else(small, kept, counted):
    directory, rows = kept
    path = directory / "player-out.txt"
    written = path.read_text("utf-8")
    for spoilt in (written[:-1], written + "=======\n", written.replace("desk-in", "desk-im", 1)):
        path.write_text(spoilt, "utf-8")
        counted.clear()
        assert ledger.rows(small, directory, mend=True) == rows
        assert counted == ["block", "crossed", "straight"]
        ledger.keep(small, rows, directory)
        assert path.read_text("utf-8") == written
    (directory / "rests-on.tsv").write_text("<<<<<<< ours\n", "utf-8")
    assert ledger.rows(small, directory, mend=True) == rows


def test_numbers_of_what_tells_most_stand_beside_it(small, kept, changed, counted):
    directory, rows = kept
    written = (directory / "numbers.tsv").read_text("utf-8")
    assert {tuple(line.split("\t")[:3]) for line in written.splitlines()[1:]} == {
        ("player-out", name, "desk-in") for name in ("block", "crossed", "straight")
    }
    counted.clear()
    ledger.keep(small, rows, directory)
    assert not counted and (directory / "numbers.tsv").read_text("utf-8") == written, (
        "what still holds is kept"
    )
    other = changed("leads/block.yaml", "volts: unknown, momentary: 50 V", "volts: 20 V, momentary: 20 V")
    ledger.keep(other, ledger.rows(other, directory), directory)
    assert set(counted) == {"block"}


@pytest.mark.parametrize(
    "spoil, line",
    [
        (lambda text: text.replace("# ", "<<<<<<< ours\n# ", 1), 1),
        (lambda text: text[:-1], None),
        (lambda text: text.replace("\t", " ", 1), 2),
        (lambda text: text.replace("block", "bl\ufffdck"), None),
        (lambda text: text.replace("always", "never"), None),
    ],
)
def test_a_file_of_numbers_that_is_not_as_written_is_named_and_written_anew(
    small, kept, counted, spoil, line, monkeypatch
):
    directory, rows = kept
    path = directory / numbers.FILE
    written = path.read_text("utf-8")
    path.write_text(spoil(written), "utf-8")
    assert path.read_text("utf-8") != written
    monkeypatch.setattr("generator.ledger.kept.file_at_revision", lambda directory, revision, name: written)
    with pytest.raises(
        LedgerError,
        match=(
            rf"^verdicts/numbers\.tsv, line {line or r'[0-9]+'}: not as it was written, edited by hand or "
            r"from another version; `"
        ),
    ):
        ledger.rows(small, directory)
    counted.clear()
    assert ledger.rows(small, directory, mend=True) == rows and not counted, (
        "no row of the ledger rests on it"
    )
    ledger.keep(small, rows, directory)
    assert path.read_text("utf-8") == written
    assert list(ledger.stale(small, rows, directory)) == []


def test_a_number_is_told_with_its_place_its_setting_and_its_limit():
    finding = {
        "id": "over-volts",
        "where": "output stage",
        "when": "phantom on, settled",
        "value": 46.6,
        "unit": "V",
        "limit": 16.0,
    }
    figure = {
        "id": "load-seen",
        "where": "output",
        "value": 2190.0,
        "unit": "ohm",
        "says": "It sees 2.19 kΩ.",
    }
    judged = {
        "from": "player-out",
        "through": ["a", "b"],
        "into": "desk-in",
        "findings": [finding, finding],
        "figures": [figure],
    }
    assert numbers.lines(judged) == [
        "player-out\ta+b\tdesk-in\tover-volts\toutput stage\tphantom on, settled\t46.6 V / 16 V\n",
        "player-out\ta+b\tdesk-in\tload-seen\toutput\t-\t2.19 kΩ\n",
    ]
    assert numbers.lines(judged | {"through": []})[0].startswith("player-out\t-\tdesk-in\t")


def test_a_file_that_is_gone_is_named(small, kept):
    directory, _ = kept
    (directory / "player-out.txt").unlink()
    with pytest.raises(ledger.LedgerError) as fault:
        ledger.rows(small, directory)
    assert str(fault.value) == "verdicts/player-out.txt: missing; `python -m generator ledger` writes it anew"


def test_what_it_rests_on_is_read_line_by_line(small, kept):
    directory, _ = kept
    (directory / "rests-on.tsv").write_text("# head\nports\tdesk-in\n", "utf-8")
    with pytest.raises(ledger.LedgerError) as fault:
        ledger.rows(small, directory)
    assert str(fault.value) == (
        "verdicts/rests-on.tsv, line 2: not a kind, a name and a digest: 'ports\tdesk-in'; `python -m "
        "generator ledger` writes it anew"
    )
