"""Numbers as a meter shows them."""

import pytest

from generator.engine.words import conditions, fixed, quantity, setting_words


@pytest.mark.parametrize(
    "value, unit, text",
    [
        (44.595, "V", "44.6 V"),
        (7.0485e-3, "A", "7.05 mA"),
        (2400, "ohm", "2.4 kΩ"),
        (1e6, "ohm", "1 MΩ"),
        (48, "V", "48 V"),
        (0.0141, "A", "14.1 mA"),
        (999.6, "ohm", "1 kΩ"),
        (999.4, "ohm", "999 Ω"),
        (0.3384e-3, "A", "338 µA"),
        (3.1e-9, "A", "3.1 nA"),
        (-12, "V", "−12 V"),
        (0, "V", "0 V"),
        (-20.806, "dB", "−20.8 dB"),
        (66.07, "dB", "66.1 dB"),
        (-191.6, "dB", "under −120 dB"),
        (-0.04, "dB", "0.0 dB"),
        (1, "", "1"),
        (0.1692, "W", "169 mW"),
    ],
)
def test_quantity(value, unit, text):
    assert quantity(value, unit) == text


@pytest.mark.parametrize(
    "value, places, text",
    [
        (0.5, 0, "1"),
        (-0.5, 0, "−1"),
        (1.25, 1, "1.3"),
        (-1.25, 1, "−1.3"),
        (0.04, 1, "0.0"),
        (-0.04, 1, "0.0"),
        (12, 2, "12.00"),
        (0.05, 2, "0.05"),
    ],
)
def test_fixed_rounds_half_away_from_zero_and_has_no_negative_zero(value, places, text):
    assert fixed(value, places) == text


NAMES = {"phantom": "phantom 48 V", "plug-in-power": "plug-in power", "pad": "pad"}


def test_settings_in_words():
    assert (
        setting_words({"phantom": "on", "plug-in-power": "off"}, NAMES)
        == "phantom 48 V on, plug-in power off"
    )
    assert setting_words({}, {}) == ""


def test_no_condition_when_all_settings_end_alike():
    assert conditions([({"phantom": "on"}, "safe"), ({"phantom": "off"}, "safe")], NAMES) == ""
    assert conditions([({}, "safe")], {}) == ""


def test_a_condition_names_the_switch_that_decides():
    settings = [({"phantom": "on"}, "dangerous"), ({"phantom": "off"}, "safe")]
    assert conditions(settings, NAMES) == "Dangerous with phantom 48 V on; safe with phantom 48 V off."


def test_a_switch_that_does_not_matter_is_not_named():
    settings = [
        ({"phantom": a, "pad": b}, "dangerous" if a == "on" else "safe")
        for a in ("on", "off")
        for b in ("on", "off")
    ]
    assert conditions(settings, NAMES) == "Dangerous with phantom 48 V on; safe with phantom 48 V off."


def test_what_no_switch_alone_decides_is_told_as_the_rest():
    settings = [
        ({"phantom": a, "pad": b}, "safe" if (a, b) == ("on", "off") else "lossy")
        for a in ("on", "off")
        for b in ("on", "off")
    ]
    assert conditions(settings, NAMES) == "Safe with phantom 48 V on, pad off; lossy otherwise."
