"""The workshop's commands: what they print, and exact complaints with the nearest right thing. Exit status
2 for bad use."""

import json

import pytest

from generator.__main__ import main

MAINS = (
    "'{}': This workshop makes, tests and mends no mains leads. They are work for "
    "people licensed for it where you are; ask your regulator, "
    "or buy the lead made.\n"
)


@pytest.fixture
def ask(capsys):
    """Runs a command; gives (exit status, what it printed, what it complained)."""

    def ask(*words):
        try:
            status = main([str(word) for word in words])
        except SystemExit as left:  # argparse
            status = left.code
        return (status, *capsys.readouterr())

    return ask


def test_meter(ask):
    status, printed, complained = ask("meter", "xlr-f-to-xlr-m-3m")
    assert (status, complained) == (0, "")
    lines = printed.splitlines()
    assert lines[0] == "XLR microphone lead, 3 m"
    assert "  Take care: Unplug every end before you put a probe on it." in printed
    assert f"  {'a.2-b.2':24} 0 Ω to 0.6 Ω: a wire" in lines
    assert "  all 18 other pairs: no reading" in lines


def test_meter_for_programs(ask):
    answer = json.loads(ask("meter", "xlr-f-to-xlr-m-pad-20-db", "--json")[1])
    assert list(answer) == ["lead", "readings", "unseen", "cautions"]
    for reading in answer["readings"]:
        assert list(reading) == ["between", "ohm", "shows", "beep", "farad", "says"]
    through = next(r for r in answer["readings"] if r["between"] == ["a.2", "b.2"])
    assert through["ohm"]["low"] < 680 < through["ohm"]["high"] and through["beep"] == "no"
    assert next(r for r in answer["readings"] if r["between"] == ["a.1", "b.2"])["ohm"] == {
        "low": None,
        "high": None,
    }


@pytest.mark.parametrize("command", ["meter"])
def test_an_unknown_lead_names_the_nearest(ask, command):
    assert ask(command, "xlr-f-to-xlr-m-2m") == (
        2,
        "",
        "'xlr-f-to-xlr-m-2m' is not in the catalogue. Nearest: xlr-f-to-xlr-m-20m, "
        "xlr-f-to-xlr-m-3m, xlr-f-to-xlr-m-100m.\n",
    )


@pytest.mark.parametrize("name", ["kettle-lead", "mains-lead-3m", "iec-c13-lead"])
def test_mains_leads_are_refused(ask, name):
    assert ask("meter", name) == (2, "", MAINS.format(name))
