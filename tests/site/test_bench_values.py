"""Values and addresses of the bench, run by node: read as the catalogue reads them, or refused in words."""

import json

import pytest
from bench_leads import WIRINGS, in_node

from generator.catalogue.quantity import parse

node = pytest.fixture(scope="module")(in_node)

STRICT = [
    "4.7 kohm",
    "4.7kohm",
    ".5 ohm",
    "10 uF",
    "10 nF",
    "47 pF",
    "6.81 kohm +-20 %",
    "5..20 mohm",
    "100 ohm +-1 ohm",
    "1 kohm +-10 ohm",
    "1e3 ohm",
    "0.1..0.2 Mohm",
    "3 m",
    "50 mm",
    "63 V",
    "0.25 W",
]
REFUSED = [
    "",
    "x",
    "4.7",
    "4.7 kohm ohm",
    "-4 ohm",
    "0 ohm",
    "2..1 ohm",
    "1..2 ohm +-1 ohm",
    "1 ohm +-1 V",
    "1 GHz",
    "1 __proto__",
    "1 constructor",
    "9" * 400 + " ohm",
    "unknown",
    "1 ohm\n2 ohm",
    "10 F/m",
]


@pytest.mark.parametrize("text", STRICT)
def test_a_quantity_is_read_as_the_catalogue_reads_it(node, text):
    known = parse(text)
    read = node(f"ui.quantity({json.dumps(text)}, {json.dumps(known.unit)})")["value"]
    assert read["unit"] == known.unit and read["text"] == text
    assert [read["nominal"], read["low"], read["high"]] == pytest.approx(
        [known.nominal, known.low, known.high], rel=1e-15
    )


def test_what_is_no_resistance_is_refused(node):
    read = node(f"{json.dumps(REFUSED)}.map((text) => ui.quantity(text, 'ohm'))")
    for text, found in zip(REFUSED, read, strict=True):
        assert set(found) == {"fault"}, text
    assert node("ui.quantity('4.7', 'ohm').fault") == "Write a number and a unit, such as 4.7 kohm."


@pytest.mark.parametrize(
    "typed, unit, tidied",
    [
        ("4k7", "ohm", "4.7 kohm"),
        ("4,7 kΩ", "ohm", "4.7 kohm"),
        ("4.7K", "ohm", "4.7 kohm"),
        ("680", "ohm", "680 ohm"),
        ("680R", "ohm", "680 ohm"),
        ("1M", "ohm", "1 Mohm"),
        ("2M2", "ohm", "2.2 Mohm"),
        ("10 ohms", "ohm", "10 ohm"),
        ("4.7 kohm", "ohm", "4.7 kohm"),
        ("10u", "F", "10 uF"),
        ("10µF", "F", "10 uF"),
        ("100nf", "F", "100 nF"),
        ("63", "V", "63 V"),
        ("3m", "m", "3 m"),
        ("3", "m", "3 m"),
        ("0,5 m", "m", "0.5 m"),
        ("20 cm", "m", "20 cm"),
    ],
)
def test_values_as_people_type_them(node, typed, unit, tidied):
    assert node(f"ui.tidied({json.dumps(typed)}, {json.dumps(unit)})") == tidied


def test_a_bare_number_of_farads_is_not_guessed(node):
    """10 may be picofarads or microfarads; a guess would be wrong by a million."""
    assert "fault" in node("bench.part('capacitor', ['a.1', 'b.1'], '10', '')")


@pytest.mark.parametrize("address", WIRINGS)
def test_an_address_reproduces_the_wiring(node, address):
    read = node(f"bench.read({json.dumps(address)})")
    assert read["unknown"] == []
    assert node(f"bench.write(bench.read({json.dumps(address)}).wiring)") == address
    assert node(f"bench.missing(bench.read({json.dumps(address)}).wiring)") == []


HOSTILE = [
    ("ends=<img src=x onerror=alert(1)>,xlr-3/male", "<img src=x onerror=alert(1)>"),
    ("ends=xlr-3/constructor", "xlr-3/constructor"),
    ("ends=__proto__/female", "__proto__/female"),
    ("ends=xlr-3/female/more", "xlr-3/female/more"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.9_b.1", "a.9_b.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.1_b.2", "a.1_b.2"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_a.1", "a.1_a.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_c.1", "a.1_c.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_q", "a.1_q"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1", "a.1"),
    ("ends=xlr-3/female,xlr-3/male&parts=diode:a.1_b.1:1V", "diode:a.1_b.1:1V"),
    ("ends=xlr-3/female,xlr-3/male&parts=constructor:a.1_b.1:1V", "constructor:a.1_b.1:1V"),
    ("ends=xlr-3/female,xlr-3/male&parts=resistor:a.1_b.1:lots", "resistor:a.1_b.1:lots"),
    ("ends=xlr-3/female,xlr-3/male&parts=resistor:a.1_b.1:1kohm@much", "resistor:a.1_b.1:1kohm@much"),
    ("ends=xlr-3/female,xlr-3/male&parts=transformer:a.1_b.1_a.2_b.2:0:1", "transformer:a.1_b.1_a.2_b.2:0:1"),
    ("ends=xlr-3/female,xlr-3/male&cable=constructor", "constructor"),
    ("ends=xlr-3/female,xlr-3/male&cable=mic-pair&length=far", "far"),
    ("ends=xlr-3/female,xlr-3/male&screen=a.9", "a.9"),
    ("ends=rca/plug,rca/plug,rca/plug,rca/plug", "4 ends; a bench has room for 3"),
    ("end=rca/plug", "end"),
    ("ends=" + "x" * 500, "x" * 80 + "…"),
]


@pytest.mark.parametrize("address, told", HOSTILE, ids=[told[:30] for _, told in HOSTILE])
def test_what_is_not_understood_is_said(node, address, told):
    """A wiring with one join silently left out could be called safe; the page judges nothing while
    this list is not empty."""
    pairs = [part.split("=", 1) for part in address.split("&")]
    quoted = "&".join(f"{name}=" + "${encodeURIComponent(" + json.dumps(text) + ")}" for name, text in pairs)
    assert node(f"bench.read(`#{quoted}`).unknown") == [told]


def test_a_broken_percent_sign_breaks_nothing(node):
    assert node("bench.read('#ends=%E0%A4%A&joins=%').unknown.length") == 2
