"""The workshop's commands: what they print, and exact complaints with the nearest right thing. Exit status
2 for bad use."""

import json

import pytest

MAINS = (
    "'{}': This workshop makes, tests and mends no mains leads. They are work for people licensed for it "
    "where you are; ask your regulator, or buy the lead made.\n"
)


def test_meter(ask):
    status, printed, complained = ask("meter", "xlr-f-to-xlr-m-3m")
    assert (status, complained) == (0, "")
    lines = printed.splitlines()
    assert lines[0] == "XLR microphone lead, 3 m"
    assert "  Take care: Unplug every end before you put a probe on it." in printed
    assert f"  {'a.2-b.2':24} below 0.6 Ω: a wire" in lines
    assert "  all 18 other pairs: no reading" in lines


def test_meter_for_programs(ask):
    answer = json.loads(ask("meter", "xlr-f-to-xlr-m-pad-20-db", "--json")[1])
    assert list(answer) == ["lead", "readings", "unseen", "cautions", "light"]
    for reading in answer["readings"]:
        assert list(reading) == ["between", "ohm", "shows", "beep", "farad", "says"]
    through = next(r for r in answer["readings"] if r["between"] == ["a.2", "b.2"])
    assert through["ohm"]["low"] < 680 < through["ohm"]["high"] and through["beep"] == "no"
    assert next(r for r in answer["readings"] if r["between"] == ["a.1", "b.2"])["ohm"] == {
        "low": None,
        "high": None,
    }


@pytest.mark.parametrize("command", ["meter", "faults", "diagnose"])
def test_an_unknown_lead_names_the_nearest(ask, command):
    assert ask(command, "xlr-f-to-xlr-m-2m") == (
        2,
        "",
        "'xlr-f-to-xlr-m-2m' is not in the catalogue. Nearest: xlr-f-to-xlr-m-20m, xlr-f-to-xlr-m-3m, "
        "xlr-f-to-xlr-m-100m.\n",
    )


@pytest.mark.parametrize("name", ["kettle-lead", "mains-lead-3m", "iec-c13-lead"])
def test_mains_leads_are_refused(ask, name):
    assert ask("meter", name) == (2, "", MAINS.format(name))


def test_faults(ask):
    status, printed, complained = ask("faults", "rca-to-rca")
    assert (status, complained) == (0, "")
    assert "What you hear, and what explains it, the most common first:" in printed
    assert "How common a fault is, is from memory." in printed


def test_faults_for_programs(ask):
    answer = json.loads(ask("faults", "rca-to-rca", "--json")[1])
    assert list(answer) == ["lead", "faults", "symptoms", "weights", "judged", "cautions"]
    ids = {fault["id"] for fault in answer["faults"]}
    for fault in answer["faults"]:
        assert list(fault) == ["id", "says", "weight", "mend", "readings", "alike", "heard"]
    for symptom in answer["symptoms"]:
        assert set(symptom["faults"]) <= ids and symptom["says"]
    gone = next(fault for fault in answer["faults"] if fault["id"] == "open:a.centre")
    assert gone["readings"] == [{"between": "a.centre-b.centre", "shows": "no reading"}] and gone[
        "alike"
    ] == ["open:b.centre"]


def test_diagnose(ask):
    status, printed, complained = ask(
        "diagnose", "rca-to-rca", "--read", "a.centre-b.centre=open", "--read", "a.shell-b.shell=0.1ohm"
    )
    assert (status, complained) == (0, "")
    assert "a.centre or b.centre open" in printed


def test_diagnose_for_programs(ask):
    answer = json.loads(ask("diagnose", "rca-to-rca", "--json")[1])
    assert list(answer) == ["lead", "state", "sure", "named", "brief", "likely", "next", "misfits", "further"]
    assert answer["state"] == "measuring" and answer["next"]["expected"]


@pytest.mark.parametrize(
    "words, complaint",
    [
        (
            ("diagnose", "rca-to-rca", "--read", "a.center-b.centre=open"),
            (
                "'a.center-b.centre' is not a pair of contacts of this lead. Nearest: a.centre-b.centre, "
                "a.shell-b.centre, b.shell-b.centre.\n"
            ),
        ),
        (("pad", "--loss", "20V"), "--loss: '20V' is a voltage; a ratio in dB (dB) is wanted here.\n"),
        (("pad", "--loss", "0dB"), "--loss: '0dB' is not above zero; write a loss like 20 dB.\n"),
        (
            ("pad", "--loss", "20dB", "--source", "unknown"),
            "--source: 'unknown' is not above zero; write a resistance like 200 ohm.\n",
        ),
        (("pad", "--loss", "20dB", "--form", "Q"), "'Q' is not a form of pad; there are U, H, L, O.\n"),
        (("blocker", "--corner", "5"), "--corner: '5' is not a frequency above zero; write it like 10 Hz.\n"),
    ],
)
def test_bad_use(ask, words, complaint):
    assert ask(*words) == (2, "", complaint)


def test_pad(ask):
    answer = json.loads(ask("pad", "--loss", "20dB", "--source", "150ohm", "--load", "1.5kohm", "--json")[1])
    assert answer["resistors"] == {"leg": 620, "across": 150} and answer["loss"] == pytest.approx(20, abs=0.5)
    assert ask("pad", "--loss", "20dB")[1].startswith(
        "U-pad, 20.2 dB between 200 Ω and 2 kΩ (asked for 20 dB)\n"
    )
    assert ask("pad")[0] == 2


def test_blocker(ask):
    assert ask("blocker")[1].startswith(
        "Phantom blocker: 22 µF in each leg, 63 V, + towards the input that gives phantom\n"
    )


def test_build(ask):
    status, printed, complained = ask("build", "xlr-f-to-xlr-m-pad-20-db")
    assert (status, complained) == (0, "")
    for words in (
        "Buy:",
        "Solder, end a:",
        "Order of work:",
        "Test:",
        "To order it instead:",
        "It must pass",
    ):
        assert words in printed
    answer = json.loads(ask("build", "xlr-f-to-xlr-m-3m", "--json")[1])
    assert list(answer) == [
        "lead",
        "name",
        "cautions",
        "buy",
        "components",
        "matching",
        "strip",
        "solder",
        "steps",
        "shell",
        "colours",
        "sleeve",
        "label",
        "test",
        "order",
    ]
