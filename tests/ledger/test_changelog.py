"""What changed between two ledgers, as a person reads it."""

import pytest

from generator.engine import VERDICTS
from generator.ledger.changes import changelog
from generator.ledger.lines import HEAD


def book(**files):
    return {
        f"{outlet}.txt": HEAD
        + "".join(f"{lead}\t{inlet}\t{verdict}\t-\t-\t-\n" for lead, inlet, verdict in lines)
        for outlet, lines in files.items()
    }


def test_nothing_changed():
    assert (
        changelog(book(mic=[("-", "desk", "safe")]), book(mic=[("-", "desk", "safe")]))
        == "No verdict changed.\n"
    )
    assert changelog({}, {}) == "No verdict changed.\n"


def test_a_number_alone_is_not_news():
    before, after = (
        {"mic.txt": "-\tdesk\tlossy\tdull\t-3.1 dB\t-\n"},
        {"mic.txt": "-\tdesk\tlossy\tdull+thin\t-3.2 dB\t-\n"},
    )
    assert changelog(before, after) == "No verdict changed.\n"


def test_worst_news_first_then_what_came_and_went():
    before = book(
        mic=[
            ("a", "desk", "safe"),
            ("b", "desk", "dangerous"),
            ("c", "desk", "lossy"),
            ("d", "desk", "safe"),
            ("e", "desk", "safe"),
        ]
    )
    after = book(
        mic=[
            ("a", "desk", "lossy"),
            ("b", "desk", "safe"),
            ("c", "desk", "dangerous"),
            ("d", "desk", "no signal"),
        ],
        player=[("a", "amp", "safe"), ("b", "amp", "safe")],
    )
    assert (
        changelog(before, after)
        == """\
- mic through c into desk: lossy -> dangerous
- mic through d into desk: safe -> no signal
- mic through a into desk: safe -> lossy
- mic through b into desk: dangerous -> safe
- 2 pairings added
- 1 pairings removed
"""
    )


@pytest.mark.parametrize("verdict", VERDICTS[:4])
def test_every_verdict_of_a_pairing_has_its_place(verdict):
    """A pairing whose halves do not fit is not in the ledger."""
    assert (
        f": lossy -> {verdict}" in changelog(book(mic=[("-", "x", "lossy")]), book(mic=[("-", "x", verdict)]))
        or verdict == "lossy"
    )
