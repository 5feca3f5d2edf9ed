"""Hum between two devices by how they are powered: worked examples. The short formulas: what a thin lead's
screen takes of the difference is R/(R + Z) of it; a floating device pushes w C V through the screen. Numbers
derived there by hand, levels against -10 dBV (316 mV)."""

from dataclasses import replace
from math import log10, pi

import pytest
from variant import load_with

from generator.catalogue import default_directory
from generator.engine.assemble import assemble, ways
from generator.engine.chassis import hum_readings
from generator.engine.constants import CLOSED, THROUGH
from generator.engine.pairing import inputs, outputs
from generator.engine.powering import Pair, pairs, rows
from generator.engine.signal import solve_signals

EARTHED = Pair(("earthed", "earthed"), "both earthed, 50 mV", 0.05, 0.5, THROUGH)
EARTHED_CLOSE = replace(EARTHED, volts=0.002)
FLOATING = Pair(("earthed", "insulated"), "one floating, 115 V behind 2.2 nF", 115.0, CLOSED, 2.2e-9)
LEAST_LEVEL = -10 - 20 * log10(21 / 20)  # dBV: -10 dBV of a 1 kohm output at 20 kohm

EXTRA = {
    # 5 m x 134 mohm/m, and a contact of 10 mohm at either end: 0.69 ohm
    "cables/thin-drain.yaml": """\
name: Thin coax, 26 AWG drain wire
core: 84 mohm/m
screen: 134 mohm/m
current: 1 A
evidence: from memory
""",
    "cables/heavy-braid.yaml": """\
same_as: thin-drain
name: Coax with a heavy braid
screen: 8.5 mohm/m
""",
    "leads/rca-thin-5m.yaml": """\
same_as: rca-to-rca
name: RCA lead, thin, 5 m
cable: thin-drain
length: 5 m
looks_like: []
""",
    "leads/rca-heavy-5m.yaml": """\
same_as: rca-thin-5m
name: RCA lead, heavy braid, 5 m
cable: heavy-braid
""",
    "leads/xlr-thin-5m.yaml": """\
same_as: xlr-f-to-xlr-m-3m
name: XLR lead, thin drain wire, 5 m
cable: thin-drain
length: 5 m
looks_like: []
""",
    "leads/xlr-thin-5m-open.yaml": """\
same_as: xlr-f-to-xlr-m-screen-open-at-m
name: XLR lead, thin drain wire, screen open at the input
cable: thin-drain
length: 5 m
looks_like: []
""",
    "circuits/plain-out.yaml": """\
name: 1 kilohm output
roles: [signal, common]
parts:
  drive: {emf: 0 V, between: [stage, chassis]}
  build-out: {resistor: 1 kohm, between: [stage, signal]}
  bond: {wire: , between: [common, chassis]}
sources:
  main: {kind: line, drive: {drive: 1}, output: [signal, common], nominal: -10 dBV, maximum: 0 dBV}
evidence: from memory
""",
    "circuits/plain-in.yaml": """\
name: 20 kilohm input
roles: [signal, common]
parts:
  load: {resistor: 20 kohm, between: [signal, chassis]}
  bond: {wire: , between: [common, chassis]}
listeners:
  main: {kind: line, between: [signal, chassis], sensitivity: -10 dBV, maximum: +6 dBV}
evidence: from memory
""",
    # the legs of the source are 10 ohm apart, each leg of the input is 10 kohm to the chassis
    "circuits/leaning-out.yaml": """\
name: Balanced output, legs 10 ohm apart
roles: [hot, cold, screen]
parts:
  drive: {emf: 0 V, between: [stage, chassis]}
  hot: {resistor: 60 ohm, between: [stage, hot]}
  cold: {resistor: 50 ohm, between: [cold, chassis]}
  bond: {wire: , between: [screen, chassis]}
sources:
  main: {kind: line, drive: {drive: 1}, output: [hot, cold], nominal: -10 dBV, maximum: 0 dBV, balanced: yes}
evidence: from memory
""",
    "circuits/leg-in.yaml": """\
name: Balanced input, 10 kilohm in each leg
roles: [hot, cold, screen]
parts:
  hot: {resistor: 10 kohm, between: [hot, chassis]}
  cold: {resistor: 10 kohm, between: [cold, chassis]}
  bond: {wire: , between: [screen, chassis]}
listeners:
  main: {kind: line, between: [hot, cold], sensitivity: -10 dBV, maximum: +6 dBV, balanced: yes}
evidence: from memory
""",
    "ports/plain-out-rca.yaml": (
        "same_as: player-line-out-rca\nname: Plain output\ncircuit: {main: {use: plain-out}}\n"
    ),
    "ports/plain-in-rca.yaml": (
        "same_as: amplifier-line-in-rca\nname: Plain input\ncircuit: {main: {use: plain-in}}\n"
    ),
    "ports/leaning-out-xlr.yaml": (
        "same_as: mixer-line-out-xlr\nname: Leaning output\ncircuit: {main: {use: leaning-out}}\n"
    ),
    "ports/leg-in-xlr.yaml": "same_as: mixer-line-in-xlr\nname: Leg input\ncircuit: {main: {use: leg-in}}\n",
}


@pytest.fixture(scope="module")
def wider(tmp_path_factory):
    """The real catalogue and the devices and leads of the examples."""
    return load_with(tmp_path_factory.mktemp("pinouts"), EXTRA)


def hum(catalogue, start, lead, target, pair):
    """Volts of hum at the input, and dB below the nominal level there."""
    outlet, inlet, leads = catalogue.ports[start], catalogue.ports[target], [catalogue.leads[lead]]
    way = ways(catalogue, outlet, leads, inlet)[0]
    signals = solve_signals(replace(assemble(catalogue, outlet, leads, inlet, way), pairs=(pair,)))
    [into], sent = inputs(signals.assembly, "into"), outputs(signals.assembly, "from")
    [reading] = [found for found in hum_readings(signals, into, sent) if found.quantity == "hum-below"]
    return reading.terms[1][1], reading.value


RCA, THIN, HEAVY = ("plain-out-rca", "plain-in-rca"), "rca-thin-5m", "rca-heavy-5m"


def unbalanced(catalogue, lead, pair):
    return hum(catalogue, RCA[0], lead, RCA[1], pair)


def test_earthed_to_earthed_over_a_thin_lead(wider):
    """derived: 50 mV, 0.5 ohm, screen 0.69 ohm: 42.0 mA, 29.0 mV on the screen, 20.8 dB below -10 dBV; at
    the input 20/21 of both."""
    volts, below = unbalanced(wider, THIN, EARTHED)
    assert volts == pytest.approx(0.05 * 0.69 / 1.19 * 20 / 21, rel=5e-3)
    assert below == pytest.approx(20.8, abs=0.05)


def test_the_same_over_a_heavy_braid_and_at_one_strip(wider):
    """derived: screen 62.5 mohm: 5.56 mV, 14.4 dB less; 2 mV instead of 50: 28.0 dB less."""
    thin, heavy, close = (
        unbalanced(wider, *case)[1] for case in ((THIN, EARTHED), (HEAVY, EARTHED), (THIN, EARTHED_CLOSE))
    )
    assert heavy - thin == pytest.approx(14.4, abs=0.1)
    assert close - thin == pytest.approx(28.0, abs=0.05)


def test_double_insulated_to_earthed(wider):
    """derived: 115 V behind 2.2 nF: 79.5 uA, 54.8 uV on the screen, 75.2 dB below -10 dBV."""
    volts, below = unbalanced(wider, THIN, FLOATING)
    amps = 2 * pi * 50 * 2.2e-9 * 115
    assert amps == pytest.approx(79.5e-6, rel=2e-3)
    assert volts == pytest.approx(amps * 0.69 * 20 / 21, rel=5e-3)
    assert below == pytest.approx(75.2, abs=0.05)


def test_a_third_of_a_milliampere_through_an_ohm(wider):
    """from memory, a handbook's example: 316 uA through 1 ohm of screen against 316 mV: 60 dB. The lead has
    0.69 ohm, so 3.2 dB more."""
    pair = Pair(
        ("earthed", "insulated"), "316 uA whatever the lead", 316e-6 / (2 * pi * 50 * 1e-9), CLOSED, 1e-9
    )
    volts, below = unbalanced(wider, THIN, pair)
    assert below - 20 * log10(1 / 0.69) == pytest.approx(60.0, abs=0.05)
    assert volts == pytest.approx(316e-6 * 0.69 * 20 / 21, rel=5e-3)


def balanced(catalogue, lead, pair):
    return hum(catalogue, "leaning-out-xlr", lead, "leg-in-xlr", pair)


def test_balanced_with_a_small_lean(wider):
    """derived: 29.0 mV on the screen, 10 ohm of 10 kohm: 29.0 uV by the short formula, 28.7 uV exactly."""
    volts, _ = balanced(wider, "xlr-thin-5m", EARTHED)
    assert volts == pytest.approx(28.7e-6, rel=0.01)


def test_opening_a_balanced_screen_is_never_a_gain(wider):
    """derived: earthed to earthed 50 uV instead of 29 (4.7 dB worse); toward a floating device microvolts
    instead of nanovolts."""
    joined, opened = (balanced(wider, lead, EARTHED)[0] for lead in ("xlr-thin-5m", "xlr-thin-5m-open"))
    assert opened == pytest.approx(50e-6, rel=0.02)
    assert 20 * log10(opened / joined) == pytest.approx(4.7, abs=0.2)
    joined, opened = (balanced(wider, lead, FLOATING)[0] for lead in ("xlr-thin-5m", "xlr-thin-5m-open"))
    assert opened == pytest.approx(0.395e-3, rel=0.02), "0.400 V of common mode, 10 ohm of 10 kohm"
    assert 20 * log10(opened / joined) > 40, (
        "some 55 nanovolts before, told as a hundred decibels below the signal, which is 3 uV"
    )


def test_every_pair_of_powerings_has_one_row_and_the_worst_comes_first():
    kinds = ("earthed", "insulated", "battery")
    assert {frozenset(row.powered) for row in rows()} == {frozenset((a, b)) for a in kinds for b in kinds}
    assert len(rows()) == 6
    assert pairs(kinds, kinds)[0].powered == ("earthed", "earthed")
    assert [pair.powered for pair in pairs(("battery",), ("battery",))] == [("battery", "battery")]


def test_every_source_of_the_table_is_in_the_bibliography(catalogue):
    import yaml

    from generator.engine.powering import PATH

    table = yaml.safe_load(PATH.read_text("utf-8"))
    assert all(row["reason"] and row["evidence"] for row in table)
    assert all(set(row.get("cite", ())) <= set(catalogue.sources) for row in table)
    assert all(bool(row.get("cite")) == (row["evidence"] in ("standard", "published")) for row in table)
    assert default_directory().exists()
