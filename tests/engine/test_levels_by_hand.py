"""Levels, treble and what parts see, of devices of two or three parts (derived)."""

from dataclasses import replace
from math import sqrt

import pytest
from bench import part
from box import BOND, DRIVE, hears, inlet, outlet, read, sends, stands

from generator.engine.levels import shout
from generator.engine.pad import pad_words

DRIVEN = DRIVE, "inner resistor stage hot 10 mohm", BOND
BATTERY = DRIVE, "battery emf up stage 10 V", "inner resistor up hot 10 mohm", BOND


def values(found, *quantities):
    """Of what is plugged in."""
    return {
        reading.quantity: reading.value
        for reading in found
        if reading.quantity in quantities and reading.state != "plugging"
    }


@pytest.fixture
def over_earth(catalogue):
    """1 V behind 100 ohm into 10 kohm; the screen is a bad one of 10 kohm, and where both devices stand on
    mains earth, that goes round it."""

    def over_earth(*more):
        start = outlet(
            catalogue,
            DRIVE,
            "build-out resistor stage hot 100 ohm",
            "bad resistor screen chassis 10 kohm",
            sources=(sends(output=("hot", "chassis"), nominal=1.0, maximum=1.0),),
            earthed="maybe",
        )
        target = inlet(
            catalogue,
            "load resistor hot chassis 10 kohm",
            BOND,
            *more,
            listeners=(hears(sensitivity=1.0, maximum=1.0),),
            earthed="maybe",
        )
        return read(catalogue, start, target)

    return over_earth


def test_too_hot_is_asked_where_most_arrives_and_too_quiet_where_least_does(over_earth):
    """10 / 10.1 with mains earth, -0.086 dB; 10 / 20.1 without, -6.06 dB."""
    assert values(over_earth(), "over-level", "under-level") == pytest.approx(
        {"over-level": -0.086, "under-level": 6.064}, abs=0.005
    )


def test_treble_is_asked_where_it_suffers_most(over_earth):
    """1.584 nF across 10.1 kohm beside 10 kohm, 5.025 kohm: half the power is left at 20 kHz. With mains
    earth 99 ohm, and nothing is lost."""
    assert values(over_earth("cable capacitor hot chassis 1.584 nF"), "treble") == pytest.approx(
        {"treble": -3.0}, abs=0.02
    )


@pytest.mark.parametrize("place, lost", [("outlet", 0.0), ("inlet", -3.0)])
def test_treble_a_device_lacks_by_itself_is_not_lost_on_the_way(catalogue, place, lost):
    """796 pF behind 10 kohm: half the power is left at 20 kHz; 0.01 dB of that is lost at 1 kHz already."""
    capacitor = ("dull capacitor hot chassis 796 pF",)
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 10 kohm",
        BOND,
        *capacitor * (place == "outlet"),
        sources=(sends(),),
    )
    target = inlet(
        catalogue,
        "load resistor hot chassis 100 Mohm",
        BOND,
        *capacitor * (place == "inlet"),
        listeners=(hears(),),
    )
    assert values(read(catalogue, start, target), "treble") == pytest.approx({"treble": lost}, abs=0.02)


def test_of_a_pickup_treble_is_what_lies_at_3_khz(catalogue):
    """common practice: a magnetic pickup has little above its resonance. 530.5 pF behind 100 kohm: half the
    power is left at 3 kHz, nine tenths at 1 kHz, which are 2.55 dB."""
    start = outlet(
        catalogue, DRIVE, "winding resistor stage hot 100 kohm", BOND, sources=(sends(kind="instrument"),)
    )
    target = inlet(
        catalogue,
        "load resistor hot chassis 1000 Mohm",
        "cable capacitor hot chassis 530.5 pF",
        BOND,
        listeners=(hears(kind="instrument"),),
    )
    assert values(read(catalogue, start, target), "treble", "pickup-treble") == pytest.approx(
        {"pickup-treble": -2.553}, abs=0.005
    )


@pytest.mark.parametrize("most, shouted", [(2.0, 2.0), (100.0, 10**1.3)])
def test_no_voice_makes_a_microphone_give_more_than_it_can(most, shouted):
    """from memory: a shout is 120 dB SPL, 26 dB above the 94 dB SPL of its nominal level, here 1 V."""
    assert shout(sends(kind="microphone", nominal=1.0, maximum=most)) == pytest.approx(shouted)


@pytest.mark.parametrize("known", ["maximum", "sensitivity"])
def test_an_input_of_which_half_is_known_is_not_known(catalogue, known):
    start = outlet(catalogue, *DRIVEN, sources=(sends(nominal=1.0, maximum=2.0),))
    target = inlet(catalogue, "load resistor hot chassis 10 kohm", BOND, listeners=(hears(**{known: 3.0}),))
    assert values(read(catalogue, start, target), "unknown-level") == {"unknown-level": 1.0}


@pytest.mark.parametrize(
    "over, pad",
    [
        (3.0, "5 dB pad: 62 Ω"),
        (15.0, "15 dB pad: 360 Ω"),
        (16.2, "20 dB pad: 680 Ω"),
        (20.0, "20 dB pad: 680 Ω"),
        (20.1, "25 dB pad: 1.3 kΩ"),
    ],
)
def test_a_pad_takes_off_at_least_what_is_too_much(over, pad):
    """20 dB are a tenth: 150 ohm of 1.5 kohm, so 675 ohm in each leg, and 680 can be bought. 5 dB: 58.3, 15
    dB: 346.8, 25 dB: 1259 ohm."""
    assert pad_words(over).startswith(f"{pad} in each leg, 150 Ω across the input ")


def rated(catalogue, coil=None):
    """100 ohm rated in every way."""
    load = replace(part("load resistor hot chassis 100 ohm"), coil=coil)
    limits = [stands(catalogue, quantity, "load", 1e3, 1e3) for quantity in ("volts", "amps", "watts")]
    return inlet(catalogue, load, BOND, limits=limits, listeners=(hears(),))


def test_direct_current_in_a_resistor(catalogue):
    """10 V over 100 ohm: 0.1 A and 1 W."""
    found = read(catalogue, outlet(catalogue, *BATTERY, sources=(sends(),)), rated(catalogue))
    expected = {"part-volts": 10.0, "part-amps": 0.1, "part-watts": 1.0}
    assert values(found, *expected) == pytest.approx(expected, rel=1e-3)


def test_signal_in_a_resistor_counts_at_its_peak_and_heats_by_its_rms(catalogue):
    """10 V rms over 100 ohm: 14.1 V and 0.141 A peak, 1 W."""
    found = read(catalogue, outlet(catalogue, *DRIVEN, sources=(sends(maximum=10.0),)), rated(catalogue))
    expected = {"part-volts": 10 * sqrt(2), "part-amps": 0.1 * sqrt(2), "part-watts": 1.0}
    assert values(found, *expected) == pytest.approx(expected, rel=1e-3)


def test_a_winding_is_rated_for_what_pulls_one_way(catalogue):
    """10 V direct and 10 V of signal over 100 ohm: 0.1 A pulls, the signal moves it to and fro."""
    start = outlet(catalogue, *BATTERY, sources=(sends(maximum=10.0),))
    assert values(read(catalogue, start, rated(catalogue, coil="voice coil")), "part-amps") == pytest.approx(
        {"part-amps": 0.1}, rel=1e-3
    )


@pytest.mark.parametrize(
    "rating, way, volts",
    [
        ("known", "straight", 0.0),
        ("known", "turned", 10.0),
        ("unknown", "straight", 10.0),
        ("unknown", "turned", 10.0),
    ],
)
def test_which_way_round_a_capacitor_sits_matters_where_its_rating_is_known(catalogue, rating, way, volts):
    """common practice: an electrolytic capacitor takes a volt or two the wrong way round and is
    at home the right way."""
    ends = "hot chassis" if way == "straight" else "chassis hot"
    limit = stands(catalogue, "reverse", "couple", *[1.5 if rating == "known" else None] * 2)
    target = inlet(
        catalogue,
        f"couple capacitor {ends} 10 uF",
        "load resistor hot chassis 10 kohm",
        BOND,
        limits=[limit],
        listeners=(hears(),),
    )
    found = read(catalogue, outlet(catalogue, *BATTERY, sources=(sends(),)), target)
    [value] = {r.value for r in found if r.quantity.endswith("reverse") and r.state == "settled"}
    assert value == pytest.approx(volts, rel=1e-3)
