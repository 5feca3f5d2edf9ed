"""What a person types out of a manual: understood as the trade writes it, or refused with the reason."""

import pytest

from generator.catalogue import default_directory, load
from generator.own import Nonsense, said


@pytest.fixture(scope="module")
def catalogue():
    return load(default_directory())


def ask(catalogue, port, question):
    found = next(ask for ask in catalogue.ports[port].asks if ask.question == question)
    return found, catalogue.questions[question]


OUT, MIC, IN, PICTURE = (
    "mixer-line-out-xlr",
    "mic-condenser-p48-xlr",
    "mixer-mic-in-p48-xlr",
    "player-video-out-rca",
)


@pytest.mark.parametrize(
    "port, question, typed, means",
    [
        (OUT, "highest-volts-at-output", "63 V", "63 V"),
        (OUT, "highest-volts-at-output", "63v", "63 V"),
        (OUT, "highest-volts-at-output", " 6,3\u00a0V ", "6.3 V"),
        (OUT, "highest-volts-at-output", "9 to 52 V", "9..52 V"),
        (OUT, "highest-volts-at-output", "", None),
        (OUT, "highest-volts-at-output", "silent", None),
        (OUT, "maximum-output-level", "+24 dBu", "24 dBu"),
        (OUT, "maximum-output-level", "\u221210 dBV", "-10 dBV"),
        (OUT, "maximum-output-level", "775 mV", "775 mV"),
        (MIC, "microphone-sensitivity", "20 mV/Pa", "20 mV"),
        (MIC, "microphone-sensitivity", "-34 dB", "-34 dBV"),
        (MIC, "microphone-sensitivity", "-34 dB re 1 V/Pa", "-34 dBV"),
        (OUT, "output-impedance", "150 \u03a9", "75 ohm"),
        (OUT, "output-impedance", "4k7", "2350 ohm"),
        (OUT, "output-impedance", "1,2 k\u03a9", "600 ohm"),
        (IN, "phantom-voltage", "48 V", "48 V +-8.3333 %"),
        (IN, "phantom-voltage", "44..52 V", "44..52 V"),
        (PICTURE, "resting-volts", "0 V", "0 V"),
        (PICTURE, "resting-volts", "0..2 V", "0..2 V"),
        (MIC, "capacitor-rating", "63 V", "63 V"),
        (IN, "current-into-input", "10 mA", "10 mA"),
        (OUT, "may-meet-phantom", "Yes", "yes"),
        (OUT, "may-meet-phantom", "silent", None),
    ],
)
def test_understood(catalogue, port, question, typed, means):
    """A tolerance stays where the catalogue has one, and both legs together are told by a manual as one
    impedance. Nothing is a number only where the range of the question begins with it."""
    assert said(typed, *ask(catalogue, port, question)) == means


@pytest.mark.parametrize(
    "question, typed, why",
    [
        ("highest-volts-at-output", "0 V", "0 V? It must be more than nothing."),
        ("highest-volts-at-output", "4800 V", "4800 V? Phantom is 48 V; outputs take between 0.5 and 250 V."),
        ("highest-volts-at-output", "4,800 V", "4,800 V? 4,800 may be 4800 or 4.800: write one of them."),
        ("highest-volts-at-output", "63", "63 of what? Write the unit too, such as 63 V."),
        ("highest-volts-at-output", "-3 V", "-3 V? It must be more than nothing."),
        ("highest-volts-at-output", "52..9 V", "52..9 V? Write the lower number first."),
        ("highest-volts-at-output", "5 dBu", "'dBu' is no unit here: write V or mV."),
        ("highest-volts-at-output", "a lot", "Write a number and its unit, such as 63 V."),
        ("highest-volts-at-output", "9" * 60, "That is too long to be a number."),
        (
            "maximum-output-level",
            "18 dBFS",
            "dBFS is a level inside a digital device: write the level at the socket, in dBu, dBV or V.",
        ),
        ("maximum-output-level", "20 dB", "'dB' is no unit here: write dBu, dBV, V or mV."),
        ("may-meet-phantom", "perhaps", "Answer yes, no or silent."),
    ],
)
def test_refused(catalogue, question, typed, why):
    with pytest.raises(Nonsense) as refused:
        said(typed, *ask(catalogue, OUT, question))
    assert str(refused.value) == why


def test_a_direct_voltage_below_nothing_is_refused(catalogue):
    with pytest.raises(Nonsense) as refused:
        said("-1 V", *ask(catalogue, PICTURE, "resting-volts"))
    assert str(refused.value) == "-1 V? Outputs stand at 0 to 60 V, most at 0 V."


def test_what_is_said_of_a_slip_has_the_range_in_it(catalogue):
    """Every question that asks for a number has a range, a unit and words for what lies outside."""
    for question in catalogue.questions.values():
        if question.unit:
            assert question.least < question.most and question.beyond.endswith("."), question.id
