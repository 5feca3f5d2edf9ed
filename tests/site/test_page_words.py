"""Numbers and signs on the pages."""

import math

import pytest

from generator.site import words


@pytest.mark.parametrize(
    "value, unit, shown",
    [
        (6810, "ohm", "6.81 kΩ"),
        (0.00705, "A", "7.05 mA"),
        (48, "V", "48 V"),
        (None, "V", "not known"),
        (math.inf, "ohm", "without end"),
    ],
)
def test_amount(value, unit, shown):
    assert words.amount(value, unit) == shown


def test_level_zero_dbu_is_a_milliwatt_in_600_ohm():
    """0 dBu = 0.7746 V: the square root of 1 mW times 600 ohm."""
    assert words.level(math.sqrt(0.6)) == "0.0 dBu (775 mV)"
    assert words.level(1.0) == "2.2 dBu (1 V)"
    assert words.level(None) == "not known"


@pytest.mark.parametrize(
    "typed, shown",
    [
        ("6.81 kohm +-20 %", "6.81 kΩ ± 20 %"),
        ("44..52 V", "44 to 52 V"),
        ("47 uF", "47 µF"),
        ("-50 dBu", "−50 dBu"),
        ("100 pF/m", "100 pF/m"),
        ("unknown", "unknown"),
    ],
)
def test_written(typed, shown):
    assert words.written(typed) == shown


def test_listed():
    assert [words.listed(list("abc"[:n])) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_role():
    assert words.role("hot") == "hot (+)"
    assert words.role("main.in-hot") == "in hot"
