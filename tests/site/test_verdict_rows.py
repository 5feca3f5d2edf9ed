"""The short rows the pages show."""

import pytest

from generator.engine.verdict import VERDICTS
from generator.ledger import row
from generator.site.verdicts import ORDER, best, grouped, rank, tally


def judged(verdict, through=(), findings=(), offered=""):
    return {
        "from": "a",
        "through": list(through),
        "into": "b",
        "verdict": verdict,
        "conditions": "",
        "offered": offered,
        "offer": offered and "In this order.",
        "findings": list(findings),
    }


def finding(name, severity, value=None):
    return {
        "id": name,
        "severity": severity,
        "subject": f"into/{name}",
        "value": value,
        "unit": "V",
        "limit": 10.0,
        "says": f"{name} says.",
    }


def test_the_order_is_the_engines():
    assert ORDER == VERDICTS


def test_only_what_decided_is_kept():
    short = row(
        judged(
            "dangerous",
            findings=[
                finding("over-volts", "dangerous", 44.6),
                finding("over-volts", "dangerous", 12.0),
                finding("unbalanced", "lossy", 3.0),
            ],
        )
    )
    assert short["findings"] == ["over-volts"]
    assert short["also"] == ["unbalanced"]
    assert (short["number"], short["subject"]) == ("44.6 V / 10 V", "into/over-volts")


def test_safe_needs_no_number():
    short = row(judged("safe", findings=[finding("supply-into-output", "note", 1.0)]))
    assert (short["number"], short["subject"]) == ("", "")


def test_an_unknown_verdict_is_refused():
    with pytest.raises(ValueError) as fault:
        row(judged("fine"))
    assert (
        str(fault.value)
        == "'fine' is not a verdict; the verdicts are safe, lossy, no signal, dangerous, does not fit"
    )


def test_best_first_then_fewest_leads():
    rows = [
        row(judged(verdict, through))
        for verdict, through in (
            ("dangerous", ()),
            ("safe", ("x",)),
            ("lossy", ()),
            ("safe", ()),
            ("no signal", ("y",)),
        )
    ]
    ordered = [(one["verdict"], one["through"]) for one in sorted(rows, key=rank)]
    assert ordered == [("safe", []), ("safe", ["x"]), ("lossy", []), ("no signal", ["y"]), ("dangerous", [])]
    assert [one["verdict"] for one in grouped(rows, "into")["b"]] == [verdict for verdict, _ in ordered]
    assert tally(rows) == {"dangerous": 1, "no signal": 1, "lossy": 1, "safe": 2}
    assert list(tally(rows)) == ["dangerous", "no signal", "lossy", "safe"]


def test_what_a_switch_makes_well_comes_after_what_is_well_without_and_stays_dangerous():
    rows = [
        row(judged(verdict, (name,), offered=offered))
        for name, verdict, offered in (
            ("a", "dangerous", ""),
            ("b", "dangerous", "lossy"),
            ("c", "lossy", ""),
            ("d", "dangerous", "safe"),
            ("e", "safe", ""),
        )
    ]
    assert [one["through"][0] for one in sorted(rows, key=rank)] == ["e", "d", "c", "b", "a"]
    assert [best(rows), best(rows[:2]), best(rows[:4])] == ["safe", "dangerous", "lossy"]
    assert (rows[3]["offered"], rows[3]["offer"]) == ("safe", "In this order.")
