"""Which inputs take a signal for their own, where the kind alone does not tell, and what light needs."""

from math import isclose, log10

from box import hears, inlet, lead, outlet, read, sends

from generator.catalogue import default_directory, load
from generator.engine import judge
from generator.engine.kinds import expected, one_family, said


def test_a_form_is_heard_by_what_understands_it():
    plain, madi = sends(kind="digital"), sends(kind="data", form="MADI")
    assert one_family(plain, hears(kind="digital"))
    assert not one_family(madi, hears(kind="digital"))
    assert not one_family(plain, hears(kind="data", forms=("MADI",)))
    assert one_family(madi, hears(kind="data", forms=("network", "MADI")))


def test_words_say_the_form_where_there_is_one():
    assert said(sends(kind="data", form="USB")) == "USB"
    assert said(sends(kind="data")) == "data"
    assert (
        expected(hears(kind="clock", forms=("tri-level sync", "black burst")))
        == "tri-level sync or black burst"
    )


def test_pictures_of_another_form_are_no_signal():
    """Common practice: a composite input makes nothing of serial digital video (SMPTE ST 259 is data)."""
    found = judge(
        load(default_directory()), "camera-video-out-bnc-serial", ("bnc-to-bnc-75-ohm",), "video-in-bnc"
    )
    assert found.verdict == "no signal"
    [why] = [finding for finding in found.findings if finding.id == "other-kind"]
    assert "sends serial digital video and" in why.says and "expects analogue pictures" in why.says


def test_a_contact_may_be_fed_by_what_it_closes():
    """Common practice: that is what a contact output is for."""
    found = judge(load(default_directory()), "contact-out-35", ("phone-35-trs-to-35-trs",), "contact-in-35")
    assert found.verdict == "safe"
    assert not {"supply-into-output", "not-for-data"} & {finding.id for finding in found.findings}


def gain(catalogue, output, input):
    """What a lead of one strand, which joins no metalwork, leaves of one volt, dB."""
    readings = read(catalogue, output, input, lead(catalogue, "2"))
    return next(one.value for one in readings if one.quantity == "path-gain" and one.subject == "from")


def test_light_needs_no_way_back():
    """By hand: 1 kohm from the lamp and 3 kohm at the eye leave 3/4, 20 log10(0.75) = -2.5 dB."""
    catalogue = load(default_directory())
    lamp = outlet(
        catalogue,
        "drive emf lit dark 0 V",
        "window resistor lit hot 1 kohm",
        sources=(sends(kind="digital", output=("hot", "dark")),),
    )
    eye = inlet(
        catalogue,
        "pane resistor hot dark 3 kohm",
        listeners=(hears(kind="digital", between=("hot", "dark")),),
    )
    assert isclose(gain(catalogue, lamp, eye), 20 * log10(0.75), abs_tol=1e-3)
    wired = inlet(
        catalogue,
        "pane resistor hot back 3 kohm",
        listeners=(hears(kind="digital", between=("hot", "back")),),
    )
    assert gain(catalogue, lamp, wired) < -100
