"""The check's own logic, run by node: the address, what fits, and what stands in for an answer that
cannot be worked out."""

import json

import pytest
from small_check import ORDER, QUESTION, STRAIGHT, run


def test_without_an_engine_there_is_no_verdict():
    assert run(f"check.judge({QUESTION})") == {"failed": "The calculation did not load."}


def test_an_engine_that_breaks_down_gives_no_verdict():
    assert run(f"check.judge({QUESTION})", "answering(() => { throw new Error('singular'); });") == {
        "failed": "The calculation broke down."
    }


@pytest.mark.parametrize("verdict", ["lossy", "no signal", "dangerous"])
def test_a_verdict_as_careful_as_the_table_is_shown(verdict):
    assert (
        run(
            f"(await check.judge({STRAIGHT})).judged.verdict", f"answering(() => ({{verdict: '{verdict}'}}));"
        )
        == verdict
    )


def test_a_verdict_milder_than_the_table_is_never_shown():
    milder = "answering(() => ({verdict: 'safe'}));"
    assert run(f"check.judge({STRAIGHT})", milder) == {
        "failed": "The calculation in this browser came out milder than it should."
    }
    # another catalogue, such as one with a lead of the bench
    assert (
        run(f"(await check.judge({STRAIGHT}, {{data: {{...Ringfence.data}}}})).judged.verdict", milder)
        == "safe"
    )


def test_an_order_the_table_does_not_know_is_never_shown():
    """Nor is an order that promises more: what the table calls plainly dangerous stays so."""
    offering = lambda offered: (
        f"answering(() => ({{verdict: 'dangerous', offered: '{offered}', offer: 'Do.'}}));"
    )
    assert "failed" in run(
        "check.judge({from: 'player', through: [], into: 'desk'})",
        "answering(() => ({verdict: 'dangerous', offered: 'safe', offer: 'Do.'}));",
    )
    assert (
        run(
            "(await check.judge({from: 'player', through: ['odd'], into: 'desk'})).judged.offered",
            offering("safe"),
        )
        == "safe"
    )
    assert (
        run(
            "(await check.judge({from: 'player', through: ['odd'], into: 'desk'})).judged.verdict",
            "answering(() => ({verdict: 'dangerous', offered: '', offer: ''}));",
        )
        == "dangerous"
    )


def test_a_word_that_is_no_verdict_is_not_shown_as_one():
    assert run(f"check.judge({QUESTION})", "answering(() => ({verdict: 'fine'}));") == {
        "failed": "The calculation gave no verdict."
    }


def test_the_table_gives_rows_best_first():
    assert run("ui.rows('mic', 'desk').map((row) => [row.through, row.verdict, row.findings])") == [
        [["cable"], "safe", []],
        [[], "lossy", ["dull"]],
    ]
    assert run("ui.row('mic', [], 'desk').verdict") == "lossy"
    assert run("ui.row('mic', ['cable', 'cable'], 'desk') || null") is None


def test_the_table_tells_what_a_switch_makes_well_and_in_which_order():
    assert run(
        "ui.rows('player', 'desk').map((row) => [row.verdict, row.offered, row.offer, ui.worth(row), "
        "ui.works(row)])"
    ) == [["dangerous", "safe", ORDER, 0.5, True], ["lossy", "", "", 1, True]]
    assert run(
        "[ui.worth({verdict: 'dangerous', offered: 'lossy'}), ui.works({verdict: 'no signal', offered: ''})]"
    ) == [1.5, False]


def test_what_is_dangerous_is_marked_so_whatever_a_switch_makes_of_it():
    assert run(
        "[ui.pair('player', 'desk').best, ui.pair('player', 'desk').danger, ui.pair('player', "
        "'mic').best, ui.pair('mic', 'desk').best]"
    ) == ["lossy", True, "dangerous", "safe"]
    assert sorted(run("[...ui.joined().bests]")) == ["dangerous", "lossy", "safe"]


@pytest.mark.parametrize(
    "value, unit, said",
    [
        (44.6, "V", "44.6 V"),
        (0.00705, "A", "7.05 mA"),
        (-240, "dB", "below −120 dB"),
        (-12.4, "dB", "−12.4 dB"),
        (0.673, "dB", "0.7 dB"),
        (12, "dB", "12 dB"),
        (None, "V", "not known"),
        (0, "V", "0 V"),
        (6810, "ohm", "6.81 kΩ"),
        (0.9996, "V", "1 V"),
    ],
)
def test_numbers(value, unit, said):
    assert run(f"ui.amount({json.dumps(value)}, {json.dumps(unit)})") == said
