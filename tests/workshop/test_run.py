"""A run traced by swapping and removing. Sources: 'The cost of troubleshooting cost clusters with inside
information' (likelihood over cost is the best order of repairs), the classic textbook weather table for
information, and halving (a trade article)."""

from math import log2

import pytest

from generator.workshop.run import Run, Try, after, by_ratio, expected_cost, gain, run, traced
from generator.workshop.safety import Misuse

CHAIN = ("mic-condenser-p48-xlr", ["xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-20m"], "mixer-mic-in-p48-xlr")


def test_repairs_by_likelihood_over_cost():
    """p = .5 .3 .2, cost 5 1 2: b first, then a or c; 4.9 on average. Most likely first would be 5.9."""
    repairs = {"a": (0.5, 5), "b": (0.3, 1), "c": (0.2, 2)}
    assert by_ratio(repairs)[0] == "b"
    assert expected_cost([repairs[name] for name in by_ratio(repairs)]) == pytest.approx(4.9)
    assert expected_cost([repairs[name] for name in "bca"]) == pytest.approx(4.9)
    assert expected_cost([repairs[name] for name in "abc"]) == pytest.approx(5.9)


def test_information_of_a_yes_or_no(monkeypatch):
    """9 against 5 is 0.940 bit (the textbook weather table); an even split is one bit."""
    monkeypatch.setattr("generator.workshop.run.table", lambda name: {"answers": {"chance": "0"}})
    assert gain({"in": 9 / 14, "out": 5 / 14}, Try("t", "", frozenset({"in"}), 1)) == pytest.approx(
        0.940, abs=5e-4
    )
    assert gain({"in": 0.5, "out": 0.5}, Try("t", "", frozenset({"in"}), 1)) == 1


def test_with_nothing_else_known_start_in_the_middle():
    elements = {f"lead{i}": 1 / 8 for i in range(8)}
    tries = [Try(str(cut), "", frozenset(list(elements)[:cut]), 20) for cut in range(1, 8)]
    assert max(tries, key=lambda one: gain(elements, one)).id == "4"


def test_every_element_is_found_by_honest_answers(catalogue):
    """Whatever is at fault, true answers lead to it, in no more tries than there are elements; halving
    helps: log2 is the bound below."""
    for symptom in ("dead", "no-phantom", "hum", "buzz", "radio", "crackle", "thin"):
        known = run(catalogue, *CHAIN, symptom)
        for fault in known.likely:
            tried = []
            data = traced(catalogue, *CHAIN, symptom, tried)
            while data["next"]:
                covers = next(one.covers for one in known.tries if one.id == data["next"]["id"])
                tried.append(f"{data['next']['id']}={'gone' if fault in covers else 'stays'}")
                data = traced(catalogue, *CHAIN, symptom, tried)
            assert data["state"] == "found" and data["likely"][0]["element"] == fault, (symptom, fault, tried)
            assert len(tried) <= len(known.likely) + 1
    assert log2(5) < 3


def test_the_cheap_look_comes_first(catalogue):
    """A look at the switches costs five seconds and is tried before any swap of a dead run."""
    data = traced(catalogue, *CHAIN, "dead", [])
    assert data["next"]["id"] == "look" and data["sound"]
    assert [one["bits_a_minute"] for one in data["tries"]] == sorted(
        (one["bits_a_minute"] for one in data["tries"]), reverse=True
    )


def test_a_found_lead_goes_on_to_the_meter(catalogue):
    data = traced(catalogue, *CHAIN, "crackle", ["swap-lead2=gone", "swap-lead1=stays"])
    assert data["state"] == "found" and data["lead"] == "xlr-f-to-xlr-m-20m"


def test_a_run_that_could_never_work_says_so(catalogue):
    data = traced(catalogue, "mic-condenser-p48-xlr", ["xlr-f-to-xlr-m-3m"], "mixer-mic-in-xlr", "dead", [])
    assert not data["sound"] and data["says"].startswith("With nothing broken this run ends no signal: ")


def test_a_wrong_answer_is_not_final():
    known = Run({"a": 0.5, "b": 0.5}, {}, (Try("t", "", frozenset({"a"}), 1),))
    assert 0 < after(known, [("t", True)])["b"] < 0.05
    assert after(known, [("t", True), ("t", False)]) == pytest.approx({"a": 0.5, "b": 0.5})


@pytest.mark.parametrize(
    "symptom, tried, complaint",
    [
        (
            "dead",
            ["swap-lead9=gone"],
            "'swap-lead9' is nothing to try on this run; there are look, swap-lead1, swap-lead2, "
            "bypass-lead1-lead2, swap-source, swap-input.",
        ),
        ("dead", ["look"], "'look' does not say how it ended; write look=gone or look=stays."),
        (
            "ded",
            [],
            "'ded' is not a symptom of a run; there are dead, no-phantom, hum, buzz, radio, crackle, thin.",
        ),
    ],
)
def test_bad_use(catalogue, symptom, tried, complaint):
    with pytest.raises(Misuse) as found:
        traced(catalogue, *CHAIN, symptom, tried)
    assert str(found.value) == complaint
