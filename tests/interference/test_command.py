"""`interfere`: what it prints, as lines and as JSON, and its exit status."""

import json

import pytest

from generator import interference
from generator.__main__ import main

RUN = """\
name: Player into the mixer
from: {device: player-line-out-rca, powered: earthed mains}
into: {device: mixer-line-in-635-ts}
sockets: other circuit
leads:
  - {cable: coax-thin, length: 5 m}
"""


@pytest.fixture
def ask(capsys, write):
    def ask(text, *more):
        status = main(["interfere", str(write(text)), *more])
        return (status, *capsys.readouterr())

    return ask


def test_the_answer_comes_first(ask):
    status, printed, complained = ask(RUN)
    assert (status, complained) == (0, "")
    lines = printed.splitlines()
    assert lines[0] == "Player into the mixer"
    assert lines[1].startswith("You hear it in the pauses, as a buzz")
    assert lines[2].startswith("Most of it: The cases of the two devices stand at different voltages")
    assert "  A better cable gains 15 dB." in lines
    assert any(
        line.startswith("Measure AC volts and amps between the two cases; some 50 mV and 80 mA")
        for line in lines
    )
    assert any(line.startswith("  Lifting the earth of a mains plug") for line in lines)
    assert lines[-2] == "Never lift a mains earth, and stop where a case tingles; that is for an electrician."


def test_the_same_as_data(ask, read):
    status, printed, complained = ask(RUN, "--json")
    assert (status, complained) == (0, "")
    data = json.loads(printed)
    assert data["dominant"] == "chassis" and data["said"] == "in pauses"
    assert [len(level["volts"]) for level in data["paths"].values()] == [3] * 7
    assert interference.from_data(data["run"]) == read(RUN)
    assert {one["id"] for one in data["remedies"]} >= {"same-strip", "transformer", "cable"}


def test_a_bad_run_is_bad_use(ask):
    status, printed, complained = ask(RUN.replace("5 m", "-5 m"))
    assert (status, printed) == (2, "")
    said = "'-5 m' is below zero; the length of a run must be above it."
    assert complained == f"run.yaml:6:32: error[non-positive]\n    {said}\n"


def test_a_file_that_is_not_there(capsys, tmp_path):
    assert main(["interfere", str(tmp_path / "none.yaml")]) == 2
    assert (
        capsys.readouterr().err
        == "none.yaml:1:1: error[not-a-file]\n    this cannot be read: No such file or directory.\n"
    )


def test_cautions_are_told_where_they_apply(ask):
    batteries = RUN.replace("earthed mains", "battery").replace(
        "mixer-line-in-635-ts}", "mixer-line-in-635-ts, powered: battery}"
    )
    assert "mains earth, and stop" not in ask(batteries.replace("sockets: other circuit\n", ""))[1]
    feeder = "beside:\n  - {cable: round-feeder, load: dimmer-rack, distance: 1 m}\n"
    near = f"{RUN}{feeder}radio:\n  - {{what: two-way-radio, distance: 2 m}}\n"
    printed = ask(near)[1]
    assert "Feeders and distribution belong to those licensed for them" in printed
    assert "Keep people clear of an aerial" in printed
    assert "Feeders" not in ask(RUN)[1]
