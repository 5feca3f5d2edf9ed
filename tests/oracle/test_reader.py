"""The independent reader against sums done on paper.

Numbers are worked out beside each check from Ohm's law; what is published is said there.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, sqrt

import numpy as np
import pytest
from by_hand import device, plugged, rated, source
from corners import NOMINAL, PULLED, STRONG, WEAK, corners, supply_volts
from dangers import read
from instants import BRIEF, STEP, march, strike
from loud import loudness
from meters import Worst, show
from settings import OFF, ON, OPEN, modes
from states import APART, HOME, PLUGGING
from sums import boil, settle

RAIL = "rail emf rail chassis 48 V by phantom"
P48 = (RAIL, "feed-hot resistor rail hot 6.81 kohm", "feed-cold resistor rail cold 6.81 kohm")
SHORT = "short resistor a c 1 mohm"  # a conductor with a rating is a part
DRIVE = "drive emf x y 0 V"


def shown(wired, name: str, kind: str = HOME, corner: str = NOMINAL, mode: int = 0) -> float:
    """The most direct volts, amps or watts of a limit in the states of a kind; all switches on."""
    sums, asked = boil(wired, corner, np.arange(len(wired.closed))), modes(wired)
    volts = next(supply_volts(wired, corner))[1] * asked.on[mode]
    found = show(sums, settle(sums, volts[None], asked.gone[mode]), asked.gone[mode])
    [k] = [k for k, one in enumerate(wired.rated) if one.limit.id == name]
    return float(found[0, wired.kinds == kind, k].max())


def shorted(catalogue):
    """A device that joins two contacts."""
    return device(catalogue, SHORT, limits=[rated("short", "amps", "short", 1.0)])


# Direct current


@pytest.mark.parametrize("home, legs", [("hot-a chassis-c", 1), ("hot-a cold-a chassis-c", 2)])
def test_a_phantom_leg_and_both_shorted_to_contact_1(catalogue, home, legs):
    """48 V / 6.81 kohm: 7.05 mA a leg, 14.10 mA both; "about 14 mA" is published."""
    wired = plugged(device(catalogue, *P48, supplies=["phantom"]), shorted(catalogue), home)
    assert shown(wired, "short") == pytest.approx(legs * 48 / 6810, rel=1e-4)


def test_the_strong_corner_has_the_upper_supply_and_the_lower_resistor(catalogue):
    """52 V over 6.81 kohm less 20 %: 9.545 mA; 44 V over 20 % more, at the weak one: 5.384 mA."""
    lines = "rail emf rail chassis 48 V +-4 V by phantom", "feed resistor rail hot 6.81 kohm +-20 %"
    wired = plugged(device(catalogue, *lines, supplies=["phantom"]), shorted(catalogue), "hot-a chassis-c")
    assert shown(wired, "short", corner=STRONG) == pytest.approx(52 / 5448, rel=1e-4)
    assert shown(wired, "short", corner=WEAK) == pytest.approx(44 / 8172, rel=1e-4)


def test_t_power_into_a_coil(catalogue):
    """12 V through twice 180 ohm into 200 ohm: 21.4 mA, 91.8 mW."""
    inlet = device(
        catalogue,
        "rail emf rail chassis 12 V",
        "feed-hot resistor rail hot 180 ohm",
        "feed-cold resistor chassis cold 180 ohm",
    )
    limits = [rated("amps", "amps", "coil", 1.0), rated("watts", "watts", "coil", 1.0)]
    wired = plugged(device(catalogue, "coil resistor a b 200 ohm", limits=limits), inlet, "a-hot b-cold")
    assert shown(wired, "amps") == pytest.approx(12 / 560, rel=1e-4)
    assert shown(wired, "watts") == pytest.approx((12 / 560) ** 2 * 200, rel=1e-4)


@pytest.mark.parametrize("milliamperes, volts", [(1, 44.6), (2, 41.2), (3, 37.8), (5, 31.0), (10, 13.95)])
def test_what_phantom_leaves_at_a_microphone(catalogue, milliamperes, volts):
    """48 V less the current through 3.405 kohm."""
    inlet = device(catalogue, *P48, supplies=["phantom"])
    draw = f"draw sink a c {milliamperes} mA knee 5 V"
    outlet = device(catalogue, draw, limits=[rated("across", "volts", "a c", 100.0)])
    assert shown(plugged(outlet, inlet, "a-hot a-cold c-chassis"), "across") == pytest.approx(volts, rel=1e-3)


def test_a_sink_below_its_knee_is_a_resistor(catalogue):
    """10 V behind 1 kohm, a sink of 8 mA that needs 5 V: a resistor of 625 ohm, 3.846 V, 6.154 mA."""
    inlet = device(catalogue, "rail emf rail chassis 10 V", "feed resistor rail hot 1 kohm")
    limits = [rated("amps", "amps", "draw", 1.0), rated("across", "volts", "a c", 100.0)]
    wired = plugged(device(catalogue, "draw sink a c 8 mA knee 5 V", limits=limits), inlet, "a-hot c-chassis")
    assert shown(wired, "across") == pytest.approx(10 * 625 / 1625, rel=1e-4)
    assert shown(wired, "amps") == pytest.approx(10 / 1625, rel=1e-4)


@pytest.mark.parametrize(
    "lines, amps",
    [
        (["one clamp a c 15 V series 20 ohm"], 33 / 6830),
        (["one clamp a b 15 V series 20 ohm", "two clamp b c 12 V series 20 ohm"], 21 / 6850),
        (["one clamp c a 15 V series 20 ohm"], 0.0),
    ],
)
def test_clamps_conduct_above_their_value_and_only_one_way(catalogue, lines, amps):
    """48 V behind 6.81 kohm on 15 V with 20 ohm: 33 V / 6830 ohm = 4.83 mA; two in a row; the other way
    round."""
    inlet = device(catalogue, "rail emf rail chassis 48 V", "feed resistor rail hot 6.81 kohm")
    outlet = device(catalogue, *lines, limits=[rated("amps", "amps", "one", 1.0)])
    assert shown(plugged(outlet, inlet, "a-hot c-chassis"), "amps") == pytest.approx(amps, rel=1e-3, abs=1e-8)


@pytest.mark.parametrize("nodes, volts", [("a c", 0.0), ("c a", 5.0)])
def test_wrong_way_round_counts_one_way_only(catalogue, nodes, volts):
    inlet = device(catalogue, "rail emf rail chassis 5 V", "feed resistor rail hot 1 kohm")
    limits = [rated("block", "reverse", "block", 1.5)]
    outlet = device(catalogue, f"block capacitor {nodes} 10 uF", limits=limits)
    assert shown(plugged(outlet, inlet, "a-hot c-chassis"), "block") == pytest.approx(volts, abs=1e-3)


def test_what_nothing_joins_has_no_voltage(catalogue):
    """48 V on one contact of a device that is joined nowhere else: nothing flows, so nothing is read."""
    inlet = device(catalogue, *P48, supplies=["phantom"])
    outlet = device(
        catalogue,
        "block capacitor a b 10 uF",
        "load resistor b chassis 1 kohm",
        limits=[rated("block", "volts", "block", 10.0)],
    )
    states = "a-hot chassis-chassis", "a-hot", "chassis-chassis"
    by_earth = plugged(outlet, inlet, *states)
    assert shown(by_earth, "block", PLUGGING) == pytest.approx(48.0, rel=1e-3)
    apart = plugged(replace(outlet, earthed="no"), inlet, *states)
    assert shown(apart, "block", PLUGGING) < 0.01
    assert shown(apart, "block") == pytest.approx(48.0, rel=1e-3)


def test_two_capacitors_in_a_row_share_a_voltage_as_they_fill(catalogue):
    """48 V on 10 uF and 30 uF with nothing else between them: 36 V and 12 V."""
    inlet = device(catalogue, "rail emf rail chassis 48 V", "feed resistor rail hot 1 kohm")
    outlet = device(
        catalogue,
        "one capacitor a b 10 uF",
        "two capacitor b c 30 uF",
        limits=[rated(name, "volts", name, 100.0) for name in ("one", "two")],
    )
    wired = plugged(outlet, inlet, "a-hot c-chassis")
    assert shown(wired, "one") == pytest.approx(36.0, rel=1e-3)
    assert shown(wired, "two") == pytest.approx(12.0, rel=1e-3)


# States, settings, corners


def test_states_are_home_and_plugging_each_without_and_with_earth(catalogue):
    one = device(catalogue, "load resistor a chassis 1 kohm")
    floating = device(catalogue, "load resistor a b 1 kohm")
    wired = plugged(one, one, "a-a chassis-chassis", "a-a")
    assert list(zip(wired.kinds.tolist(), wired.states.earthed.tolist())) == [
        (HOME, False),
        (PLUGGING, False),
        (PLUGGING, False),
        (HOME, True),
        (PLUGGING, True),
        (PLUGGING, True),
        (APART, False),
    ]
    assert wired.states.before == ((2, 3), (0, 2), (0,), (0, 5), (3, 5), (3,), ())
    assert not plugged(replace(one, earthed="no"), one, "a-a").states.earthed.any()
    assert not plugged(one, floating, "a-a").states.earthed.any()


def test_mains_earth_makes_a_way_that_the_plug_does_not(catalogue):
    """30 V behind 2 ohm on a contact that the other side has on its chassis: 30 / 2.02 = 14.9 A once both are
    earthed, nothing before."""
    outlet = device(
        catalogue,
        "rail emf rail chassis 30 V",
        "source resistor rail a 2 ohm",
        earthed="yes",
        limits=[rated("source", "amps", "source", 0.315)],
    )
    inlet = device(catalogue, "bond wire b chassis", "load resistor b chassis 1 kohm", earthed="yes")
    [hit] = read(plugged(outlet, inlet, "a-b"))
    assert hit.value == pytest.approx(30 / 2.02, rel=1e-3) and "with earth" in hit.setting
    assert not read(plugged(replace(outlet, earthed="no"), inlet, "a-b"))


@pytest.mark.parametrize(
    "positions, amps",
    [
        ((ON, ON), 0.0),
        ((ON, OFF), 48 / 13620),
        ((OFF, ON), 48 / 13620),
        ((ON, OPEN), 0.0),
        ((OPEN, ON), 0.0),
        ((OFF, OFF), 0.0),
        ((OPEN, OPEN), 0.0),
    ],
)
def test_a_supply_that_is_off_is_a_rail_at_nothing_or_no_rail(catalogue, positions, amps):
    """Two phantom legs on each other: 48 V over twice 6.81 kohm into a rail at 0 V, nothing into an open
    one."""
    one = device(catalogue, *P48[:2], supplies=["phantom"], limits=[rated("feed", "amps", "feed-hot", 1.0)])
    two = device(catalogue, *P48[:2], supplies=["phantom"])
    wired = plugged(one, two, "hot-hot chassis-chassis")
    asked = modes(wired)
    assert set(asked.positions) == {(a, b) for a in (ON, OFF, OPEN) for b in (ON, OFF, OPEN)}
    found = shown(wired, "feed", mode=asked.positions.index(positions))
    assert found == pytest.approx(amps, rel=1e-3, abs=1e-8)


def test_one_switch_is_thrown_at_a_time(catalogue):
    one = device(catalogue, *P48[:2], supplies=["phantom"])
    asked = modes(plugged(one, one, "hot-hot chassis-chassis"))
    reached = {asked.positions[mode] for mode in asked.neighbours(asked.positions.index((ON, OPEN)))}
    assert reached == {(OFF, OPEN), (OPEN, OPEN), (ON, ON)}


def test_an_open_rail_can_be_the_worse_kind_of_off(catalogue):
    """30 V on a leg of an input that is off: its rail at 0 V draws it down to 15 V, an open one leaves 30
    V on the input capacitor, which stands 25 V."""
    inlet = device(
        catalogue,
        "rail emf rail chassis 12 V by phantom",
        "feed resistor rail hot 1 kohm",
        "couple capacitor hot in 10 uF",
        "load resistor in chassis 10 kohm",
        supplies=["phantom"],
        limits=[rated("couple", "volts", "couple", 25.0)],
    )
    outlet = device(catalogue, "battery emf rail chassis 30 V", "source resistor rail hot 1 kohm")
    [hit] = [hit for hit in read(plugged(outlet, inlet, "hot-hot chassis-chassis")) if hit.state == "settled"]
    assert hit.value == pytest.approx(30.0, rel=1e-3) and OPEN in hit.setting


def test_supplies_of_two_places_are_pulled_apart(catalogue):
    """12 V +-1 V against 12 V +-1 V through 10 ohm: 0.2 A, though all strong and all weak give none."""
    battery = device(
        catalogue,
        "cell emf plus minus 12 V +-1 V",
        "inside resistor plus out 5 ohm",
        limits=[rated("inside", "amps", "inside", 0.15)],
    )
    hits = read(plugged(battery, battery, "out-out minus-minus"))
    assert hits and [hit.value for hit in hits] == pytest.approx([2 / 10.02] * len(hits), rel=1e-3)
    assert all("elsewhere" in hit.setting for hit in hits)


def test_matched_pairs_are_pulled_apart(catalogue):
    """10 mA from a centre tap through two resistors that differ by 0.4 %: half of 0.4 % of 5 mA more in
    one leg."""
    inlet = device(catalogue, *P48, supplies=["phantom"], limits=[rated("feed", "amps", "feed-hot", 1.0)])
    skews = {"feed-hot": -1, "feed-cold": 1}
    parts = tuple(replace(part, skew=skews.get(part.id, 0), match=0.004) for part in inlet.network.parts)
    inlet = replace(inlet, network=replace(inlet.network, parts=parts))
    wired = plugged(device(catalogue, "draw sink a c 10 mA knee 1 V"), inlet, "a-hot a-cold c-chassis")
    assert corners(wired) == [NOMINAL, PULLED]
    assert shown(wired, "feed", corner=PULLED) - shown(wired, "feed") == pytest.approx(10e-6, rel=0.01)


# Signal


def test_headphones_behind_120_ohm(catalogue):
    """5 V behind 120 ohm into 32 ohm: 34.6 mW, as a table of the trade prints it."""
    outlet = device(catalogue, DRIVE, "out resistor x hot 120 ohm", sources=[source("drive", 5.0)])
    inlet = device(catalogue, "ear resistor a b 32 ohm", limits=[rated("ear", "watts", "ear", 1.0)])
    wired = plugged(outlet, inlet, "hot-a y-b")
    found = loudness(wired, modes(wired), NOMINAL, HOME)
    assert found.max() == pytest.approx(5**2 * 32 / 152**2, rel=1e-3)


def test_two_outputs_of_24_dbu_against_each_other(catalogue):
    """100 ohm each, peaks opposed: 2 x 17.36 V over 200 ohm, 174 mA."""
    volts = sqrt(0.6) * 10 ** (24 / 20)
    output = device(
        catalogue,
        DRIVE,
        "out resistor x hot 100 ohm",
        sources=[source("drive", volts)],
        limits=[rated("out", "amps", "out", 0.1)],
    )
    hits = read(plugged(output, output, "hot-hot y-y"))
    assert hits and [hit.value for hit in hits] == pytest.approx([0.1736] * len(hits), rel=2e-3)


def test_the_worst_frequency_counts_and_no_signal_counts_for_a_winding(catalogue):
    """1 V behind 10 uF into 1 kohm: 1.414 V peak at 20 kHz, 1.11 V at 20 Hz; 1.414 mA, but not for a voice
    coil."""
    outlet = device(catalogue, DRIVE, "couple capacitor x hot 10 uF", sources=[source("drive", 1.0)])
    limits = [rated("volts", "volts", "a b", 1.0), rated("amps", "amps", "load", 1.0)]
    inlet = device(catalogue, "load resistor a b 1 kohm", limits=limits)
    coils = tuple(replace(part, coil="voice coil") for part in inlet.network.parts)
    coil = replace(inlet, network=replace(inlet.network, parts=coils))
    for one, expected in ((inlet, [sqrt(2), sqrt(2) / 1000]), (coil, [sqrt(2), 0.0])):
        wired = plugged(outlet, one, "hot-a y-b")
        assert loudness(wired, modes(wired), NOMINAL, HOME)[0, 0] == pytest.approx(expected, rel=1e-3)


def test_a_source_whose_switch_is_off_sends_nothing(catalogue):
    sources = [source("drive", 24.0, supply="amplifier")]
    outlet = device(catalogue, DRIVE, "out resistor x hot 1 ohm", supplies=["amplifier"], sources=sources)
    inlet = device(catalogue, "load resistor a b 8 ohm", limits=[rated("load", "watts", "load", 1.0)])
    wired = plugged(outlet, inlet, "hot-a y-b")
    asked = modes(wired)
    assert asked.positions == ((ON,), (OFF,))
    found = loudness(wired, asked, NOMINAL, HOME)[:, 0, 0]
    assert found == pytest.approx([24**2 * 8 / 9.02**2, 0.0], rel=1e-3)


# The first instant


def struck(wired) -> list:
    """The hits of the first instants alone, nominal."""
    worst, sums, asked = Worst(wired), boil(wired, NOMINAL, np.arange(len(wired.closed))), modes(wired)
    volts = next(supply_volts(wired, NOMINAL))[1]
    charges = []
    for on, gone in zip(asked.on, asked.gone):
        charges.append(sums.over(settle(sums, (volts * on)[None], gone)[0], wired.large))
    strike(wired, asked, NOMINAL, volts, np.array(charges), worst)
    return list(worst.found.values())


def test_a_charged_capacitor_into_10_ohm(catalogue):
    """48 V behind 10 ohm: 4.8 A, less what two contacts, the bond and the capacitor take (31 mohm)."""
    inlet = device(
        catalogue,
        *P48[:2],
        "couple capacitor hot in 47 uF",
        "bond resistor in chassis 1 mohm",
        supplies=["phantom"],
    )
    outlet = device(catalogue, "load resistor a c 10 ohm", limits=[rated("load", "amps", "load", 1.0)])
    hits = struck(plugged(outlet, inlet, "a-hot c-chassis"))
    assert max(hit.value for hit in hits) == pytest.approx(48 / 10.031, rel=1e-3)


def phantom_input(catalogue, limit):
    """The P48 input of the catalogue as it would be without diodes."""
    behind = [f"couple-{leg} capacitor {leg} in-{leg} 47 uF" for leg in ("hot", "cold")]
    behind += [f"to-earth-{leg} resistor in-{leg} chassis 10 kohm" for leg in ("hot", "cold")]
    load = "load resistor in-hot in-cold 3 kohm"
    return device(catalogue, *P48, *behind, load, supplies=["phantom"], limits=[limit])


@pytest.mark.parametrize("seconds, states", [(28.0, set()), (25.0, {"for seconds"}), (25.3, set())])
def test_switching_phantom_on_lifts_the_input_stage(catalogue, seconds, states):
    """48 V x 10 / 16.81 = 28.55 V at first, falling with 47 uF x 16.81 kohm = 0.79 s: above 25 V for 105
    ms, above 25.3 V for 95 ms. For a moment it stands 50 V here, so that the march decides."""
    limit = rated("input", "volts", "in-hot chassis", 10.0, momentary=50.0, seconds=seconds)
    coil = device(catalogue, "coil resistor a b 200 ohm")
    wired = plugged(coil, phantom_input(catalogue, limit), "a-hot b-cold")
    assert {hit.state for hit in struck(wired)} == states


def test_the_size_of_that_lift(catalogue):
    limit = rated("input", "volts", "in-hot chassis", 25.0)
    coil = device(catalogue, "coil resistor a b 200 ohm")
    wired = plugged(coil, phantom_input(catalogue, limit), "a-hot b-cold")
    assert max(hit.value for hit in struck(wired)) == pytest.approx(48 * 10 / 16.81, rel=2e-3)


def test_a_leg_shorted_pulls_the_input_stage_below(catalogue):
    """The capacitor held 48 V unplugged; a lead that grounds the leg holds 48 V against the stage, though
    settled there is nothing."""
    limit = rated("input", "volts", "in-hot chassis", 25.0)
    wired = plugged(device(catalogue, SHORT), phantom_input(catalogue, limit), "a-hot c-chassis")
    [value] = [hit.value for hit in struck(wired) if hit.state == "first instant, home"]
    assert value == pytest.approx(48.0, rel=2e-3)
    assert shown(wired, "input") < 0.01


def test_the_march_follows_the_exponential(catalogue):
    """10 uF behind 10 kohm, from 48 V: 48 x exp(-1) after a tenth of a second, within the percent of its
    steps."""
    outlet = device(catalogue, "load resistor a c 10 kohm", limits=[rated("load", "volts", "a c", 100.0)])
    wired = plugged(outlet, device(catalogue, "couple capacitor hot chassis 10 uF"), "a-hot c-chassis")
    sums = boil(wired, NOMINAL, np.flatnonzero(wired.kinds == HOME), np.array([STEP / 10e-6]))
    least = march(sums, np.zeros((1, 0)), np.zeros(0, dtype=bool), np.full((1, 1, 1), 48.0))
    assert BRIEF == 0.1 and least.max() == pytest.approx(48 * exp(-1), rel=0.012)


@pytest.mark.parametrize("microfarads, states", [(4.7, set()), (47, {"for seconds"})])
def test_what_falls_within_a_tenth_of_a_second_counts_as_a_moment(catalogue, microfarads, states):
    """20 V on a part for 44 V momentarily and 10 V for seconds: through 10 kohm 4.7 uF take 33 ms to let
    half of it through, 47 uF take 326 ms."""
    outlet = device(
        catalogue,
        f"couple capacitor a in {microfarads} uF",
        "load resistor in c 10 kohm",
        limits=[rated("in", "volts", "in c", 1.0, momentary=44.0, seconds=10.0)],
    )
    inlet = device(
        catalogue, "rail emf rail chassis 20 V by feed", "feed resistor rail hot 10 ohm", supplies=["feed"]
    )
    assert {hit.state for hit in struck(plugged(outlet, inlet, "a-hot c-chassis"))} == states
