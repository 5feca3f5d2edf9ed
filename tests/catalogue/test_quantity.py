"""Quantities as people write them -> SI."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.catalogue.quantity import QuantityFault, parse


@pytest.mark.parametrize(
    ("text", "unit", "nominal", "low", "high"),
    [
        ("6.81 kohm", "ohm", 6810, 6810, 6810),
        ("48 V", "V", 48, 48, 48),
        ("48V", "V", 48, 48, 48),
        ("-12 V", "V", -12, -12, -12),
        ("80 mohm", "ohm", 0.08, 0.08, 0.08),
        ("1 Mohm", "ohm", 1e6, 1e6, 1e6),
        ("47 uF", "F", 47e-6, 47e-6, 47e-6),
        ("100 pF/m", "F/m", 100e-12, 100e-12, 100e-12),
        ("20 mohm/m", "ohm/m", 0.02, 0.02, 0.02),
        ("4 mm", "m", 0.004, 0.004, 0.004),
        ("3 m", "m", 3, 3, 3),
        ("0..9.5 mm", "m", 0.00475, 0, 0.0095),
        ("90 deg", "deg", 90, 90, 90),
        ("0.4 %", "1", 0.004, 0.004, 0.004),
        ("44..52 V", "V", 48, 44, 52),
        ("-60 .. -50 V", "V", -55, -60, -50),
        ("48 V +-4 V", "V", 48, 44, 52),
        ("48 V ± 4 V", "V", 48, 44, 52),
        ("48 V +-400 mV", "V", 48, 47.6, 48.4),
        ("6.81 kohm +-20 %", "ohm", 6810, 5448, 8172),
        ("-10 V +-10 %", "V", -10, -11, -9),
        ("1e3 ohm", "ohm", 1000, 1000, 1000),
    ],
)
def test_si(text, unit, nominal, low, high):
    value = parse(text, unit)
    assert (value.unit, value.text) == (unit, text)
    assert (value.nominal, value.low, value.high) == pytest.approx((nominal, low, high), rel=1e-12)


def test_levels():
    """0 dBu is 0.775 V rms, the voltage of 1 mW in 600 ohm, and 0 dBV is 1 V rms (common practice
    in every level table)."""
    assert parse("0 dBu", "V").nominal == pytest.approx(math.sqrt(1e-3 * 600))
    assert parse("+4 dBu", "V").nominal == pytest.approx(1.228, abs=5e-4)
    assert parse("-10 dBV", "V").nominal == pytest.approx(0.3162, abs=5e-5)
    assert parse("-50 dBu", "V").nominal == pytest.approx(2.449e-3, abs=5e-7)


def test_a_level_range_has_its_middle_in_decibels():
    value = parse("-60..-40 dBV", "V")
    assert (value.low, value.nominal, value.high) == pytest.approx((1e-3, 10**-2.5, 1e-2))
    assert parse("-50 dBV +-10 dB", "V").high == pytest.approx(1e-2)


def test_powers_of_ten_are_exact():
    """What is written is the number a program would write: no 6809.999999."""
    assert parse("6.81 kohm").nominal == 6810.0
    assert parse("2.2 pF").nominal == 2.2e-12
    assert parse("0.1 %").nominal == 0.001


def test_unknown():
    assert parse("unknown", "V") is None


FORMS = (
    "write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, 6.81 kohm +-20 %) "
    "or `unknown`."
)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "48",
        "V",
        "nan V",
        "inf",
        "4,7 kohm",
        "48 V +- V",
        "1..2..3 V",
        "44..52 V +-1 V",
        "0x10 V",
        "--1 V",
        "1 2 V",
    ],
)
def test_bad(text):
    with pytest.raises(QuantityFault) as fault:
        parse(text, "V")
    assert fault.value.rule == "bad-quantity"
    assert str(fault.value) == f"'{text}' is not a quantity; {FORMS}"


@pytest.mark.parametrize(
    ("text", "rule", "message"),
    [
        ("52..44 V", "bad-quantity", "'52..44 V' runs backwards; write the lower value first."),
        ("48 A", "wrong-unit", "'48 A' is a current; a voltage (V) is wanted here."),
        ("3 deg", "wrong-unit", "'3 deg' is an angle; a voltage (V) is wanted here."),
        ("48 V +-4 ohm", "wrong-unit", "the tolerance of '48 V +-4 ohm' is in ohm, its value in V."),
        ("4 dBu +-1 V", "wrong-unit", "the tolerance of '4 dBu +-1 V' is in V, its value in dBu."),
        ("1e999 V", "bad-quantity", "'1e999 V' is too large to be a quantity."),
        ("99999 dBu", "bad-quantity", "'99999 dBu' is too large to be a quantity."),
        (
            "48 Volt",
            "bad-quantity",
            (
                "'Volt' in '48 Volt' is not a unit; units are V, A, W, ohm, F, H, m, deg, %, ohm/m, F/m, dB, "
                "dBu, dBV, with prefixes p n u m k M."
            ),
        ),
    ],
)
def test_fault(text, rule, message):
    with pytest.raises(QuantityFault) as fault:
        parse(text, "V")
    assert (fault.value.rule, str(fault.value)) == (rule, message)


@given(st.text(alphabet="0123456789.+-±% eEVAmkMunpohdBugFHW/..", max_size=24))
def test_any_text_is_a_quantity_or_a_fault(text):
    try:
        value = parse(text)
    except QuantityFault:
        return
    if value:
        assert value.low <= value.high
        assert all(map(math.isfinite, (value.nominal, value.low, value.high)))


@given(st.floats(-1e9, 1e9), st.floats(0, 1e9))
def test_ranges_hold_their_nominal(low, width):
    value = parse(f"{low!r}..{low + width!r} V", "V")
    assert value.low <= value.nominal <= value.high
