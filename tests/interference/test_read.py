"""The file that describes a run: what it may say, and exactly what is said against nonsense."""

from pathlib import Path

import pytest
import yaml

from generator.interference.run import Beside, Device, Lead, Run, Spare, Thing, Transmitter, from_data

GOOD = """\
name: Lectern to the mixer
mains: 120 V 60 Hz
from: {device: mic-dynamic-xlr, powered: the lead}
into: {device: mixer-mic-in-p48-xlr, powered: earthed mains, contact-1: wanders}
sockets: same room
shares-with-dimmers: yes
held: no
measured: {volts: 12 mV, amps: 30 uA}
bond: 50 mohm
transformer: no
ferrite: 1.5 kohm
leads:
  - {cable: foil-pair, length: 27 m, screen: worn}
  - {lead: xlr-f-to-xlr-m-3m}
beside:
  - {cable: flex, load: dimmed-lamp, amps: 4 A, distance: 5 cm, along: 10 m, lies: crossing}
  - {cable: lamp-lead}
spare: {lies: coiled, turns: 10, across: 30 cm, distance: 20 cm}
near:
  - {thing: toroid, distance: 20 cm}
radio:
  - {what: phone, distance: 30 cm}
assume: {loop-width: 40 cm, rejection: 65 dB}
"""
LEAST = """\
from: {device: line-unbalanced}
into: {device: line-input-unbalanced}
leads:
  - {cable: coax-thin, length: 5 m}
"""


def test_everything_a_run_may_say(read):
    assert read(GOOD) == Run(
        Device("mic-dynamic-xlr", "battery"),
        Device("mixer-mic-in-p48-xlr", "earthed", True),
        (Lead("foil-pair", 27.0, "worn"), Lead("mic-pair", 3.0)),
        name="Lectern to the mixer",
        volts=120.0,
        hertz=60.0,
        sockets="same room",
        dimmers=True,
        measured_volts=0.012,
        measured_amps=30e-6,
        bond=0.05,
        ferrite=1500.0,
        beside=(
            Beside("flex", "dimmed-lamp", 4.0, 0.05, 10.0, "crossing"),
            Beside("lamp-lead", "unknown", 0.0, 0.010),
        ),
        spare=Spare("coiled", 10.0, 0.30, 0.20),
        things=(Thing("toroid", 0.20),),
        transmitters=(Transmitter("phone", 0.30),),
        assume={"loop-width": 0.40, "rejection": 65.0},
    )


def test_the_least_a_run_must_say(read):
    run = read(LEAST)
    assert (run.volts, run.hertz, run.sockets) == (230.0, 50.0, "unknown")
    assert (run.source.powered, run.input.powered) == ("insulated", "insulated")  # by their kind


def test_a_run_survives_as_data(read):
    for text in (GOOD, LEAST):
        assert from_data(read(text).as_data()) == read(text)


NONSENSE = yaml.safe_load((Path(__file__).parent / "nonsense.yaml").read_text("utf-8"))


@pytest.mark.parametrize("name", NONSENSE)
def test_nonsense_is_refused_by_name(faults, name):
    row = NONSENSE[name]
    text = "" if "empty" in row else LEAST.replace(*row.get("change", ("", ""))) + row.get("add", "")
    assert faults(text) == f"run.yaml:{row['at']}: error[{row['rule']}]\n    {row['says']}"


def test_every_fault_is_told_in_one_run(faults):
    said = faults(LEAST.replace("5 m", "-5 m").replace("line-unbalanced", "lin"))
    assert [line.split(": error")[0] for line in said.splitlines() if "error[" in line] == [
        "run.yaml:1:16",
        "run.yaml:4:32",
    ]
