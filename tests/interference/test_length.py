"""Length: treble against length, the trade's rules of thumb with their numbers, and where impedance
begins to count.
"""

import pytest

from generator import interference
from generator.interference.formulas import length
from generator.interference.reach import LENGTHS, impedances, reaches, treble
from generator.interference.run import Device, Lead, Run


def of(tables, source_ohm, cable, input_ohm=2e3):
    [one] = reaches(source_ohm, input_ohm, tables, (cable,))
    return one


def test_a_microphone_reaches_a_hundred_metres(tables):
    """200 ohm, 100 m at 100 pF/m: 0.27 dB at 20 kHz (fact sheet); the rule of thumb of a hundred
    metres is a rule of convenience.
    """
    assert of(tables, 200, "mic-pair", 1e12).treble[LENGTHS.index(100.0)] == pytest.approx(-0.27, abs=0.01)
    assert (
        of(tables, 200, "star-quad", 1e12).treble[LENGTHS.index(100.0)]
        < of(tables, 200, "mic-pair", 1e12).treble[LENGTHS.index(100.0)]
    )


def test_a_guitar_does_not(tables):
    """Ten kilohms lose half of the treble within some metres: the six metres of the trade are a
    rule about treble.
    """
    one = of(tables, 10e3, "instrument-lead", 1e6)
    assert one.metres < 6 and one.treble[LENGTHS.index(10.0)] < -3


def test_the_three_metres_of_unbalanced_leads_are_not_about_treble(tables):
    """A player of 1 kohm reaches 40 m and more; the rule of three metres is about hum."""
    assert of(tables, 1e3, "coax-heavy", 20e3).metres > 40


def test_longer_is_never_brighter(tables):
    for one in reaches(1e3, 20e3, tables):
        assert list(one.treble) == sorted(one.treble, reverse=True), one.cable
        assert all(value <= 0 for value in one.treble)


def test_treble_of_a_run_adds_its_leads(tables):
    one = Run(
        Device("line-unbalanced", "battery"),
        Device("line-input-unbalanced", "battery"),
        (Lead("coax-thin", 30.0),),
    )
    two = Run(one.source, one.input, (Lead("coax-thin", 10.0), Lead("coax-thin", 20.0)))
    assert treble(one, tables) == pytest.approx(treble(two, tables))
    assert "treble left at 20 kHz: −" in interference.as_lines(
        interference.tell(Run(one.source, one.input, (Lead("coax-thin", 300.0),)), tables), tables
    )


def test_impedance_counts_for_digital_signals_and_not_for_sound(tables):
    """A tenth of a wave: three metres at 6 MHz, a kilometre at 20 kHz."""
    assert length.long_for(20e3, 0.66) == pytest.approx(989, rel=0.01)
    found = {one.kind: one for one in impedances(tables, 75.0)}
    assert found["aes3"].short == pytest.approx(3.3, abs=0.1)
    assert found["aes3"].back == pytest.approx(35 / 185) and found["aes3id"].back == 0
    assert found["timecode"].short > 900
    assert all(one.metres > 0 for one in found.values())


def test_a_source_without_resistance_loses_nothing():
    assert length.corner(0, 1e-10, 100) == float("inf") and length.treble(0, 1e-10, 100, 20e3) == 0
