"""Earlier results are used where nothing they rest on has changed, and nowhere else."""

import json
import re
from functools import partial

import pytest
from remembering import ALL, JUDGED, a_memory, asked, count_judged

from generator import ledger
from generator.engine import judge, pairings
from generator.ledger import fingerprint
from generator.ledger.fingerprint import Fingerprints

counted, memory = pytest.fixture(count_judged), pytest.fixture(a_memory)


def test_nothing_is_judged_twice(small, memory, counted):
    first = ledger.judged(small, memory)
    assert counted == ALL
    assert ledger.judged(small, memory) == first
    assert counted == ALL


def test_what_is_remembered_is_what_was_judged(small, memory):
    assert (
        ledger.judged(small, memory)
        == ledger.judged(small, memory)
        == ledger.judged(small)
        == [
            json.loads(json.dumps(judge(small, "player-out", (lead,), "desk-in").as_data()))
            for lead in ("block", "crossed", "straight")
        ]
    )


@pytest.mark.parametrize(
    "name, old, new, again",
    [
        (
            "leads/block.yaml",
            "capacitor: 10 uF",
            "capacitor: 22 uF",
            {("block",)},
        ),  # only what it goes through
        # crossed is the same as straight
        ("leads/straight.yaml", "label: round plug", "label: the round one", {("straight",), ("crossed",)}),
        (
            "ports/desk-in.yaml",
            "feed: 6.8 kohm",
            "feed: 6.81 kohm",
            {("block",), ("crossed",), ("straight",)},
        ),
        ("cables/pair.yaml", "core: 80 mohm/m", "core: 90 mohm/m", {("crossed",), ("straight",)}),
        (
            "connectors/round.yaml",
            "female: {forward: {1: 1 mm",
            "female: {forward: {1: 2 mm",
            {("block",), ("crossed",), ("straight",)},
        ),
        ("ports/desk-in.yaml", "name: ", "also_called: [console in]\nname: ", set()),  # a word to search by
        ("leads/block.yaml", "name: ", "cautions: [Mind the end.]\nname: ", set()),
        # no answer shows it
        ("assignments/round-balanced.yaml", "name: Balanced on a round one", "name: Balanced, round", set()),
    ],
)
def test_only_what_changed_is_judged_again(small, changed, memory, counted, name, old, new, again):
    ledger.judged(small, memory)
    counted.clear()
    fresh = ledger.judged(changed(name, old, new), memory)
    assert set(counted) == again
    assert [answer["through"] for answer in fresh] == [["block"], ["crossed"], ["straight"]]


@pytest.mark.parametrize(
    "name, old, new",
    [
        (
            "circuits/input.yaml",
            "momentary: unknown, evidence: common practice",
            "momentary: unknown, evidence: derived",
        ),
        (
            "circuits/input.yaml",
            "momentary: unknown, evidence: common practice",
            "momentary: unknown, evidence: published, cite: handbook",
        ),
        ("circuits/input.yaml", "evidence: published, cite: handbook", "evidence: from memory"),
    ],
)
def test_how_a_thing_is_known_is_told_and_changes_no_row(
    small, changed, pinouts, memory, counted, name, old, new
):
    """No row is judged again; a whole answer, which says so, is."""
    pairing = ("player-out", ("block",), "desk-in")
    rows, answers = ledger.rows(small, pinouts / "verdicts", memory), ledger.judged(small, memory)
    ledger.keep(small, rows, pinouts / "verdicts", memory)
    counted.clear()
    other = changed(name, old, new)
    assert Fingerprints(other, words=False).of(pairing) == Fingerprints(small, words=False).of(pairing)
    assert (
        ledger.rows(other, pinouts / "verdicts", memory) == rows
        and list(ledger.stale(other, rows, pinouts / "verdicts", memory)) == []
    )
    assert not counted
    assert (Fingerprints(other).of(pairing) == Fingerprints(small).of(pairing)) == ("published" in old)
    again = ledger.judged(other, memory)
    assert bool(counted) == ("published" not in old)
    assert again == ledger.judged(other) and [one["verdict"] for one in again] == [
        one["verdict"] for one in answers
    ]


@pytest.mark.parametrize(
    "name, old, new",
    [
        ("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\nalso_called: [console in]"),
        ("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\ncautions: [Mind the end.]"),
        ("ports/desk-in.yaml", "evidence: from memory", "evidence: from memory\nchecked: 2026-11-26"),
        ("ports/desk-in.yaml", "evidence: from memory", "evidence: from memory\nnote: Measured once."),
        ("connectors/round.yaml", "checked: 2026-11-25", "checked: 2026-11-26"),
        ("leads/block.yaml", "evidence: from memory", "evidence: from memory\ntell_apart: By its ends."),
    ],
)
def test_words_about_a_record_judge_nothing(small, changed, pinouts, memory, counted, name, old, new):
    rows = ledger.rows(small, pinouts / "verdicts", memory)
    answers = ledger.judged(small, memory)
    ledger.keep(small, rows, pinouts / "verdicts", memory)
    counted.clear()
    other = changed(name, old, new)
    assert (
        ledger.rows(other, pinouts / "verdicts", memory) == rows
        and list(ledger.stale(other, rows, pinouts / "verdicts", memory)) == []
    )
    assert ledger.judged(other, memory) == answers
    assert not counted


def test_a_changed_partner_of_a_spare_end_counts(small, changed, memory):
    """straight names desk-in as the usual partner of its end."""
    prints = Fingerprints(small)
    before = prints.of(("player-out", ("straight",), "desk-in"))
    assert (
        Fingerprints(changed("ports/desk-in.yaml", "earthed: maybe", "earthed: yes")).of(
            ("player-out", ("straight",), "desk-in")
        )
        != before
    )


def test_a_stopped_run_goes_on_where_it_was(small, memory, counted, monkeypatch):
    """What was judged is kept whatever stops it."""

    def stopping(made, catalogue, start, through, target):
        if through == ("straight",):
            raise KeyboardInterrupt
        return made(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "recorded", partial(stopping, counted_one := JUDGED.recorded))
    with pytest.raises(KeyboardInterrupt):
        ledger.judged(small, memory)
    monkeypatch.setattr(JUDGED, "recorded", counted_one)
    counted.clear()
    ledger.judged(small, memory)
    assert counted == {("straight",): 1}


def test_pairings_that_are_gone_leave_the_memory_once_they_are_most(changed, pinouts, memory):
    for number, left in ((10, 3), (20, 6), (30, 3)):
        today = changed("ports/desk-in.yaml", "feed: 6.8 kohm", f"feed: 6.8{number} kohm")
        ledger.rows(today, pinouts / "verdicts", memory)
        assert asked(memory, "SELECT count(*) FROM pairings") == [(left,)]
        changed("ports/desk-in.yaml", f"feed: 6.8{number} kohm", "feed: 6.8 kohm")
    prints = Fingerprints(today, words=False)
    assert {digest for (digest,) in asked(memory, "SELECT digest FROM pairings")} == set(
        map(prints.readings, pairings(today))
    )


def test_what_is_never_asked_is_never_asked():
    """No module that judges looks at a field the digest leaves out."""
    code = "\n".join(path.read_text("utf-8") for path in fingerprint.judging())
    # a module may be called as a field is
    code = re.sub(r"^from [\w.]+ import", "", code, flags=re.MULTILINE)
    for kind, names in fingerprint.UNASKED.items():
        for name in names - {"evidence", "device"}:
            assert not re.search(rf"\.{name}\b", code), (kind, name)
