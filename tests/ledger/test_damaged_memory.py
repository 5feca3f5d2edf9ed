"""A memory that is damaged, no memory at all, or in use twice: said, and judged anew."""

import pytest
from remembering import ALL, JUDGED, a_memory, asked, count_judged

from generator import ledger
from generator.engine import pairings
from generator.ledger.fingerprint import Fingerprints

counted, memory = pytest.fixture(count_judged), pytest.fixture(a_memory)


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE pairings SET readings = substr(readings, 1, length(readings) - 9) WHERE digest = ?",
        "UPDATE pairings SET readings = x'00' WHERE digest = ?",
        "UPDATE pairings SET readings = NULL WHERE digest = ?",
        "UPDATE pairings SET readings = 'words' WHERE digest = ?",
    ],
)
def test_a_damaged_pairing_is_said_and_judged_anew(small, memory, counted, capsys, words):
    first = ledger.judged(small, memory)
    counted.clear()
    asked(memory, words, Fingerprints(small, words=False).readings(("player-out", ("crossed",), "desk-in")))
    assert ledger.judged(small, memory) == first
    assert (
        capsys.readouterr().err == f"{memory}: 1 of its pairings is damaged; what it held is judged anew.\n"
        and counted == {("crossed",): 1}
    )
    assert ledger.judged(small, memory) == first and counted.total() == 1
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("words", ["DELETE FROM outlines", "UPDATE outlines SET text = substr(text, 1, 20)"])
def test_damaged_outlines_are_said_and_judged_anew(small, memory, counted, capsys, words):
    first = ledger.judged(small, memory)
    counted.clear()
    asked(memory, words)
    assert ledger.judged(small, memory) == first
    assert (
        capsys.readouterr().err
        == f"{memory}: 3 of its pairings are damaged; what they held is judged anew.\n"
        and counted == ALL
    )
    assert ledger.judged(small, memory) == first and counted == ALL


@pytest.mark.parametrize(
    "spoil",
    [
        lambda whole: b"\xff\x00" * 5000,
        lambda whole: whole[:100] + b"\x00" * (len(whole) - 100),
        lambda whole: b'{"from": "player-out"}\n',
        lambda whole: whole[:4096] + b"\xaa" * (len(whole) - 4096),
    ],
    ids=["noise", "zeros", "text", "its pages"],
)
def test_a_file_that_is_none_is_said_and_begun_anew(small, memory, counted, capsys, spoil):
    first = ledger.judged(small, memory)
    counted.clear()
    memory.write_bytes(spoil(memory.read_bytes()))
    assert ledger.judged(small, memory) == first
    assert capsys.readouterr().err == f"{memory}: damaged; what it held is judged anew.\n" and counted == ALL
    assert ledger.judged(small, memory) == first and counted == ALL
    assert capsys.readouterr().err == ""


def test_a_file_that_cannot_be_opened_is_named(small, memory):
    memory.mkdir(parents=True)
    with pytest.raises(OSError, match="unable to open database file") as fault:
        ledger.judged(small, memory)
    assert fault.value.filename == str(memory)


def test_two_runs_at_once_do_no_harm(small, memory, counted):
    """One begins while another is in the middle of the same."""
    wanted = list(pairings(small))
    slow = JUDGED.told_of(dict, small, memory, wanted)
    found = [next(slow)]
    other = ledger.judged(small, memory)
    assert [*found, *slow] == other == ledger.judged(small)
    counted.clear()
    assert ledger.judged(small, memory) == other and not counted
